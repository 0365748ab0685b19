"""The ear and the mouth: sound to meaning, words to sound.

No sound or speech library is imported before an ear listens or a mouth speaks; importing any module here
costs nothing but the standard library. A chain of small parts, each with one subject:

    audio, microphone   sound from a file or a device, in frames
    suppressor          what noise is taken away
    frontend            what else is done to sound, and how loud it is
    endpoint            where somebody speaks, and whether it has a pitch
    engine, engines     sound to words, by a grammar (`pocketsphinx_engine`, `vosk_engine` with `vosk_child`)
    confidence          how far the words are to be believed
    ear, ear_child      all of these: frames in, what was heard out; and that in a process of its own
    listener            a source and an ear in a thread
    synthesis           words to sound by eSpeak NG, or by the system's own voice
    speaker, mouth      words out, and silence at once when told to
    run_voice           ear, microphone and mouth of one run
    rehearse_voice      a scenario spoken into the ear
    own                 a voice of one's own: the recogniser's model moved towards one person
    what_works          what of this works on this machine
"""
