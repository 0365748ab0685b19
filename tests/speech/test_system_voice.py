"""The system's own voice, where eSpeak NG is not to be had by itself.

On Linux that voice is eSpeak NG too; the library that the package carries stands for an installed one.
"""

import ctypes
import json
import os
import struct
import subprocess
import sys
from array import array
from collections.abc import Iterator
from pathlib import Path

import espeakng_loader
import pytest

from guide.speech import synthesis, voices
from guide.speech.aiff import read_aiff
from guide.speech.synthesis import NoVoice, Synthesiser
from guide.speech.system_voice import SystemVoice
from tests.speech.sounds import chunk, tone

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
    monkeypatch.setattr(system_voice._engine, "save_to_file", lambda text, path: None)
    with pytest.raises(NoVoice, match="gave no sound"):
        system_voice.speak("Next.")


@linux
def test_the_library_is_taken_first_and_the_system_s_voice_where_it_is_missing(
    system_voice: SystemVoice, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert isinstance(voices.open_voice(), Synthesiser)
    monkeypatch.setattr(voices, "available", lambda: False)
    monkeypatch.setattr("guide.speech.system_voice.SystemVoice", lambda: system_voice)
    assert voices.open_voice() is system_voice


@linux
def test_a_library_that_does_not_load_gives_way_to_the_system_s_voice(
    system_voice: SystemVoice, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """As one built for another machine, or a package of which half is gone."""
    monkeypatch.setattr("guide.speech.system_voice.SystemVoice", lambda: system_voice)
    not_a_library = tmp_path / "libespeak-ng.so"
    not_a_library.write_bytes(b"for another machine")
    monkeypatch.setattr(synthesis, "_found", lambda: (str(not_a_library), None))
    synthesis._loaded.cache_clear()
    assert voices.open_voice() is system_voice
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
from guide.speech import speaker, voices
voices.available = lambda: False
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


def aiff(samples: list[int], path: Path, order: str, kind: bytes) -> Path:
    """A file as macOS writes it: 22,050 samples a second, one channel."""
    rate = struct.pack(">HQ", 16383 + 14, 22050 << 49)
    layout = struct.pack(">hIh", 1, len(samples), 16) + rate + kind + b"\0\0"
    sound = bytes(8) + struct.pack(f"{order}{len(samples)}h", *samples)
    parts = [(b"FVER", bytes(4)), (b"COMM", layout), (b"SSND", sound)]
    body = b"AIFC" + b"".join(name + struct.pack(">I", len(b)) + b for name, b in parts)
    path.write_bytes(b"FORM" + struct.pack(">I", len(body)) + body)
    return path


@pytest.mark.parametrize(("order", "kind"), [(">", b"NONE"), (">", b"twos"), ("<", b"sowt")])
def test_what_macos_writes_is_read(order: str, kind: bytes, tmp_path: Path) -> None:
    said = tone(440, 0.1, 22050)
    rate, sound = read_aiff(aiff(said, tmp_path / "said.aiff", order, kind).read_bytes())
    assert rate == 22050
    assert array("h", sound).tolist() == said


@pytest.mark.parametrize("content", [b"", b"FORM", b"FORM\0\0\0\x04AIFF", chunk(b"RIFF", b"WAVE")])
def test_a_file_without_sound_is_refused(content: bytes) -> None:
    with pytest.raises(ValueError, match="it "):
        read_aiff(content)
