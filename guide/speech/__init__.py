"""The ear and the mouth: sound to meaning, words to sound.

No sound or speech library is imported before an ear listens or a mouth speaks; importing any module here
costs nothing but the standard library. A chain of small parts, each with one subject:

    wav, microphone     sound from a file or a device, in frames
    frontend            what noise is taken away, how loud it is
    endpoint            where somebody speaks
    engine              sound to words, by a grammar (`pocketsphinx_engine`, `vosk_engine`)
    confidence          how far the words are to be believed
    ear                 all of these: frames in, what was heard out
    apart, ear_child    an ear in a process of its own, so that no key waits for it
    listener            a source and an ear in a thread
    synthesis           words to sound by eSpeak NG; `system_voice` by the system's own voice (`voices` picks)
    mouth, speaker      words out, and silence at once when told to
    voice               ear, microphone and mouth of one run
    means               what of this works on this machine
"""
