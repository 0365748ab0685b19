"""Speech recognition by a grammar, and speech synthesis: sound to meaning, words to sound.

The names are short: an `Ear` is the chain of recognition, a `Mouth` that of synthesis. No sound or speech library is
imported before one of them is used; importing any module here costs nothing but the standard library.
The parts:

    audio, microphone   sound from a file or a device, in frames
    suppressor          noise suppression
    frontend            high-pass filter, level and noise floor
    endpoint            endpoint detection, and pitch
    engine, engines     recognisers by a grammar (`pocketsphinx_engine`, `vosk_engine` with `vosk_child`)
    confidence          confidence measure, by logistic regression
    ear, ear_child      all of these: frames in, reports out; and that in a process of its own
    listener            a source of sound and its recognition, in a thread
    synthesis           words to sound by eSpeak NG, or by the system's own voice
    speaker, mouth      speech that can be interrupted at once
    run_voice           microphone, recognition and synthesis of one run
    rehearse_voice      a scenario rehearsed with synthetic speech or recordings
    own                 speaker adaptation: the recogniser's model moved towards one person
    what_works          which of this works on this machine
"""
