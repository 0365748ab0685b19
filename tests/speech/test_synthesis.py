"""The system's own voice, where eSpeak NG is not to be had by itself.

On Linux that voice is eSpeak NG too; the library that the package carries stands for an installed one.
"""

import ctypes
import json
import os
import subprocess
import sys
import wave
from collections.abc import Iterator
from pathlib import Path

import espeakng_loader
import pytest

from guide.speech import speaker, synthesis
from guide.speech.synthesis import NoVoice, Synthesiser, SystemVoice
from tests.speech.sounds import chunk

linux = pytest.mark.skipif(sys.platform != "linux", reason="other systems speak by themselves")


@pytest.fixture(scope="module")
def system_voice() -> Iterator[SystemVoice]:
    """A voice that pyttsx3 found; it has one in a process."""
    with pytest.MonkeyPatch.context() as monkeypatch:
        monkeypatch.setenv("ESPEAK_DATA_PATH", espeakng_loader.get_data_path())
        ctypes.CDLL(espeakng_loader.get_library_path())  # found by name from now on
        yield SystemVoice()


@linux
def test_each_sentence_is_sound_of_its_own_and_nothing_is_printed(
    system_voice: SystemVoice, capfd: pytest.CaptureFixture[str]
) -> None:
    short = system_voice.speak("Next.")
    long = system_voice.speak("Mark the holes at the hinge edge, then put the template away.")
    assert system_voice.rate == 22050
    assert len(long) > 2 * len(short) > 0
    assert capfd.readouterr().out == ""


@linux
def test_a_voice_that_writes_nothing_is_told(
    system_voice: SystemVoice, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(system_voice, "_write", lambda text, path: None)
    with pytest.raises(NoVoice, match="gave no sound"):
        system_voice.speak("Next.")


@linux
def test_the_library_is_taken_first_and_the_system_s_voice_where_it_is_missing(
    system_voice: SystemVoice, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert isinstance(speaker.open_voice(), Synthesiser)
    monkeypatch.setattr(speaker, "available", lambda: False)
    monkeypatch.setattr("guide.speech.speaker.SystemVoice", lambda: system_voice)
    assert speaker.open_voice() is system_voice


@linux
def test_a_library_that_does_not_load_gives_way_to_the_system_s_voice(
    system_voice: SystemVoice, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """As one built for another machine, or a package of which half is gone."""
    monkeypatch.setattr("guide.speech.speaker.SystemVoice", lambda: system_voice)
    not_a_library = tmp_path / "libespeak-ng.so"
    not_a_library.write_bytes(b"for another machine")
    monkeypatch.setattr(synthesis, "_found", lambda: (str(not_a_library), None))
    synthesis._loaded.cache_clear()
    assert speaker.open_voice() is system_voice
    synthesis._loaded.cache_clear()


@linux
def test_half_a_package_is_told_and_not_stumbled_over(tmp_path: Path) -> None:
    (tmp_path / "espeakng_loader.py").write_text("raise ImportError('its other half is gone')\n")
    code = "from guide.speech import synthesis; print(synthesis.available())"
    paths = f"{tmp_path}:{Path(__file__).parents[2]}"
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": paths},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() in ("True", "False")  # as the system has the library, or not


@linux
def test_the_process_that_speaks_answers_with_nothing_but_json() -> None:
    code = """
import ctypes, os, sys, espeakng_loader
os.environ["ESPEAK_DATA_PATH"] = espeakng_loader.get_data_path()
ctypes.CDLL(espeakng_loader.get_library_path())
from guide.speech import speaker
speaker.available = lambda: False
sys.exit(speaker.main(["--nowhere"]))
"""
    done = subprocess.run(
        [sys.executable, "-c", code],
        input='{"say": "Next."}\n{"say": "Mark the holes."}\n',
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=True,
    )
    said = [json.loads(line)["said"] for line in done.stdout.splitlines()]
    assert len(said) == 2
    assert 0 < said[0] < said[1]


SAY = """#!{python}
import sys, wave
arguments = sys.argv[1:]
assert "--file-format=WAVE" in arguments and "--data-format=LEI16@22050" in arguments
assert arguments[-2:] == ["-f", "-"] and arguments[arguments.index("-r") + 1] == "165"
said = sys.stdin.buffer.read()
with wave.open(arguments[arguments.index("-o") + 1], "wb") as file:
    file.setparams((1, 2, 22050, 0, "NONE", ""))
    file.writeframes(bytes(2 * 1000 * len(said.split())))
"""


@linux
def test_on_macos_the_program_say_writes_each_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One that stands in for it, and is as strict about how it is called; even for a sentence like an option."""
    program = tmp_path / "say"
    program.write_text(SAY.format(python=sys.executable))
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path), prepend=":")
    monkeypatch.setattr(synthesis, "_by_pyttsx3", lambda: synthesis._by_say)
    voice = SystemVoice()
    assert voice.rate == 22050
    assert len(voice.speak("-o is not an option here")) == 2 * 1000 * 6
    program.write_text("#!/bin/sh\nexit 1\n")
    with pytest.raises(NoVoice, match="gave no sound"):
        voice.speak("Next.")


@pytest.mark.parametrize("content", [b"", b"FORM\0\0\0\x04AIFF", chunk(b"RIFF", b"WAVE")])
def test_a_file_without_sound_is_refused(content: bytes, tmp_path: Path) -> None:
    path = tmp_path / "said.wav"
    path.write_bytes(content)
    with pytest.raises((ValueError, EOFError, wave.Error)):
        synthesis._read(path)
