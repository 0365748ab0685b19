"""A voice of one's own: two minutes of a person's speech, and the recogniser's model moved towards it.

    lesson      what is said, and which file holds which saying
    teacher     hears the lesson, from a microphone or from files
    aligned     which state of the model each frame of a known saying is
    model       the files of the model: means, variances, weights
    sums        what a person's frames say of each mean
    moved       the means that follow from that
    fit         all of these in turn, and whether it helped
    kept        where a voice is kept, and whether it still holds

The method is that of speaker adaptation everywhere: first one linear transform for all means (maximum likelihood
linear regression; Leggetter and Woodland, Computer Speech and Language 9, 1995), then each mean of which enough was
heard pulled towards what was heard (maximum a posteriori; Gauvain and Lee, IEEE Transactions on Speech and Audio
Processing 2, 1994). Plain Python does it in seconds; nothing is needed beside the recogniser.
"""
