"""Speaker adaptation: two minutes of a person's speech, and the recogniser's model moved towards it.

    lesson      what is said, and which file holds which saying
    teacher     hears the lesson, from a microphone or from files
    voice_file  where a voice is kept, which model it belongs to, and whether it still holds
    model       the files of the model: means, variances, weights
    alignment   which state of the model each frame of a known saying is (Viterbi alignment)
    adapt       the means that follow from that (MLLR, then MAP estimation), and whether they help

`model`, `alignment` and `adapt` need numpy, and are imported only when a voice is taught.
"""
