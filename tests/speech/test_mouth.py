"""Words to sound, and silence when it is asked for; played into nothing, as no test may be heard."""

import io
import wave

from guide.speech import synthesis
from guide.speech.mouth import Mouth
from guide.speech.speaker import NO_DEVICE
from guide.speech.synthesis import synthesise

LONG = "Hold. Read these back before anything is cut: width thirty six inches, mount parallel arm."


def test_a_sentence_becomes_a_recording() -> None:
    with wave.open(io.BytesIO(synthesise("Thirty five and seven eighths inches."))) as file:
        assert 1.5 < file.getnframes() / file.getframerate() < 5


def test_a_slower_pace_lasts_longer() -> None:
    usual, slow = (len(synthesise("Mark the holes.", pace=pace)) for pace in (1.0, 0.7))
    assert slow > 1.2 * usual


def test_a_sentence_is_said_to_its_end() -> None:
    mouth = Mouth(nowhere=True)
    mouth.say("Next.")
    assert mouth.wait()
    assert (mouth.speaking, mouth.trouble) == (False, "")
    mouth.close()


def test_hush_ends_the_sentence_and_the_next_one_is_said() -> None:
    mouth = Mouth(nowhere=True)
    mouth.say(LONG)
    assert mouth.speaking
    mouth.hush()
    assert not mouth.speaking
    mouth.say("Yes or no?")
    assert mouth.speaking
    assert mouth.wait()
    assert mouth.trouble == ""
    mouth.close()


def test_silence_is_the_end_of_the_process_that_was_speaking() -> None:
    """How soon is measured in tests/benchmarks/hush.py."""
    mouth = Mouth(nowhere=True)
    mouth.say(LONG)
    process = mouth._process
    assert process is not None
    mouth.hush()
    assert process.poll() is not None
    mouth.close()


def test_a_new_sentence_cuts_off_the_one_before() -> None:
    mouth = Mouth(nowhere=True)
    for _ in range(5):
        mouth.say(LONG)
    mouth.say("Next.")
    assert mouth.wait()
    mouth.close()


def test_a_machine_that_cannot_speak_says_so_once_and_is_silent() -> None:
    mouth = Mouth()
    mouth.say("Next.")
    assert mouth.wait()
    assert mouth.trouble in ("", NO_DEVICE)  # a machine with a loudspeaker has none
    mouth.say("Next.")
    assert mouth.wait()
    assert not mouth.speaking
    mouth.close()


def test_the_library_is_found_without_being_loaded() -> None:
    assert synthesis.available()
