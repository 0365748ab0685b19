"""The ear and the mouth: sound to meaning, words to sound.

No sound or speech library is imported before an ear listens or a mouth speaks; importing any module here
costs nothing but the standard library. A chain of small parts, each with one subject:

    wav, microphone     sound from a file or a device, in frames
    frontend            what noise is taken away, how loud it is
    endpoint            where somebody speaks
    engine              sound to words, by a grammar (`pocketsphinx_engine`, `vosk_engine`)
    confidence          how far the words are to be believed
    ear                 all of these: frames in, what was heard out
    asked               what may be said at a step
    listener            an ear in a thread of its own
    synthesis, player, mouth    words out, and silence at once when told to
    means               what of this works on this machine
"""
