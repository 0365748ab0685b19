"""Listening in a thread of its own, to recordings in place of a microphone, and to one that goes away."""

from collections.abc import Iterator
from contextlib import nullcontext
from fractions import Fraction
from pathlib import Path

import pytest
from sounds import flite, hiss, wav

from guide.measures import Quantity
from guide.speech.ear import Heard, Report
from guide.speech.engine import Engine, NoEngine
from guide.speech.listener import Listener, Source
from guide.speech.microphone import Microphone, NoMicrophone
from guide.speech.pocketsphinx_engine import PocketSphinx
from guide.speech.wav import open_wav
from guide.words.spoken import grammar_for


class Gone:
    """A microphone that is pulled out in the middle of a word."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def frames(self) -> Iterator[bytes]:
        whole = list(open_wav(self._path).frames())
        yield from whole[: len(whole) // 2]
        raise NoMicrophone("The microphone has gone; plug it in again, or go on by keys.")


def listened(source: Source, shut: bool = False) -> tuple[list[Report], list[str]]:
    reports: list[Report] = []
    troubles: list[str] = []
    listener = Listener(
        PocketSphinx, nullcontext(source), reports.append, troubles.append, lambda: shut
    )
    listener.listen_for(grammar_for("length"))
    listener.start()
    assert listener.wait(60)
    return reports, troubles


@pytest.mark.needs("flite")
def test_what_was_said_is_handed_over_from_another_thread(tmp_path: Path) -> None:
    path = wav(flite("thirty five and seven eighths inches", tmp_path), tmp_path / "a.wav")
    reports, troubles = listened(open_wav(path))
    heard = [one.meaning.value for one in reports if isinstance(one, Heard)]
    assert heard == [Quantity(Fraction(287, 8), "in")]
    assert troubles == []


@pytest.mark.needs("flite")
def test_while_the_mouth_speaks_nothing_is_heard(tmp_path: Path) -> None:
    path = wav(flite("thirty five and seven eighths inches", tmp_path), tmp_path / "a.wav")
    assert listened(open_wav(path), shut=True) == ([], [])


@pytest.mark.needs("flite")
def test_a_microphone_that_goes_away_is_one_sentence(tmp_path: Path) -> None:
    path = wav(flite("thirty five and seven eighths inches", tmp_path), tmp_path / "a.wav")
    reports, troubles = listened(Gone(path))
    assert not any(isinstance(one, Heard) for one in reports)
    assert troubles == ["The microphone has gone; plug it in again, or go on by keys."]


def test_an_engine_that_does_not_load_is_one_sentence(tmp_path: Path) -> None:
    def missing() -> Engine:
        raise NoEngine("The library that hears words is not installed.")

    troubles: list[str] = []
    recording = open_wav(wav(hiss(0.5, 5), tmp_path / "a.wav"))
    listener = Listener(missing, nullcontext(recording), lambda _: None, troubles.append)
    listener.start()
    assert listener.wait(60)
    assert troubles == ["The library that hears words is not installed."]


def test_a_device_that_hears_silence_gives_frames_until_it_is_closed() -> None:
    """The sound library's own null device stands for a microphone."""
    with Microphone(nowhere=True) as microphone:
        frames = microphone.frames()
        assert [next(frames) for _ in range(10)] == [bytes(960)] * 10
