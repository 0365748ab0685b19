"""Listening in a thread of its own, to recordings in place of a microphone, and to one that goes away."""

import re
from collections.abc import Callable, Iterator
from contextlib import nullcontext
from fractions import Fraction
from pathlib import Path

import pytest

from guide.measures import Quantity
from guide.speech.audio import open_wav
from guide.speech.ear import Ear, Heard, Missed, Report
from guide.speech.engine import NoEngine
from guide.speech.listener import GONE, EarApart, FrameSource, Hearing, Listener, loudness
from guide.speech.microphone import Microphone, NoMicrophone
from guide.speech.pocketsphinx_engine import PocketSphinx
from guide.words.spoken import grammar_for
from tests.speech.sounds import flite, frames_of, hiss, wav


class Gone:
    """A microphone that is pulled out in the middle of a word."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def frames(self) -> Iterator[bytes]:
        whole = list(open_wav(self._path).frames())
        yield from whole[: len(whole) // 2]
        raise NoMicrophone("The microphone has gone; plug it in again, or use the keys.")


class Sounds:
    """A microphone that gives these frames."""

    def __init__(self, frames: list[bytes]) -> None:
        self._frames = frames

    def frames(self) -> Iterator[bytes]:
        yield from self._frames


def listened(
    source: FrameSource, ear: Callable[[], Hearing] = EarApart, shut: bool = False
) -> tuple[list[Report], list[str]]:
    """What is heard by an ear in a process of its own, or by another."""
    reports: list[Report] = []
    troubles: list[str] = []
    listener = Listener(
        ear,
        nullcontext(source),
        lambda report, _: reports.append(report),
        troubles.append,
        lambda: shut,
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
def test_while_the_mouth_speaks_nothing_is_heard(engine: PocketSphinx, tmp_path: Path) -> None:
    path = wav(flite("thirty five and seven eighths inches", tmp_path), tmp_path / "a.wav")
    assert listened(open_wav(path), lambda: Ear(engine), shut=True) == ([], [])


@pytest.mark.needs("flite")
def test_a_microphone_that_goes_away_is_one_sentence(engine: PocketSphinx, tmp_path: Path) -> None:
    path = wav(flite("thirty five and seven eighths inches", tmp_path), tmp_path / "a.wav")
    reports, troubles = listened(Gone(path), lambda: Ear(engine))
    assert not any(isinstance(one, Heard) for one in reports)
    assert troubles == ["The microphone has gone; plug it in again, or use the keys."]


def test_an_engine_that_does_not_load_is_one_sentence(tmp_path: Path) -> None:
    def missing() -> Hearing:
        return EarApart("added", str(tmp_path / "no-model"))

    troubles: list[str] = []
    recording = open_wav(wav(hiss(0.5, 5), tmp_path / "a.wav"))
    listener = Listener(missing, nullcontext(recording), lambda report, turn: None, troubles.append)
    listener.start()
    assert listener.wait(60)
    assert len(troubles) == 1
    assert re.search(r"is not a folder|vosk is not installed", troubles[0])


def test_an_ear_whose_process_ends_is_one_sentence() -> None:
    ear = EarApart()
    ear.listen_for(grammar_for("length"))
    assert list(ear.feed(bytes(960))) == []
    ear._process.kill()
    ear._process.wait()
    with pytest.raises(NoEngine, match=re.escape(GONE)):
        list(ear.feed(bytes(960)))
    ear.close()


@pytest.mark.needs("flite")
def test_a_value_that_cannot_be_is_refused_by_the_step_at_hand(tmp_path: Path) -> None:
    """The step stands in this process, the ear in another."""
    ear = EarApart()
    ear.listen_for(grammar_for("length"), lambda _: "No leaf is so wide.")
    frames = frames_of(flite("thirty six inches", tmp_path))
    found = [report for frame in frames for report in ear.feed(frame)] + list(ear.finish())
    ear.close()
    assert [one.told for one in found if isinstance(one, Missed)] == ["No leaf is so wide."]


def test_the_meter_rises_with_the_sound() -> None:
    quiet, room, talk, full = map(loudness, (0, 150, 4000, 32767))
    assert quiet == 0 < room < 0.2
    assert 0.5 < talk < full == 1


def test_a_device_that_hears_silence_gives_frames_until_it_is_closed() -> None:
    """The sound library's own null device stands for a microphone."""
    with Microphone(nowhere=True) as microphone:
        frames = microphone.frames()
        assert [next(frames) for _ in range(10)] == [bytes(960)] * 10


def test_a_device_from_which_nothing_comes_is_known_by_its_silence(
    engine: PocketSphinx,
) -> None:
    """A muted microphone gives noughts; a quiet room never does."""
    for peak, dead in ((0, True), (8, False)):
        source = Sounds(frames_of(hiss(2.0, peak)))
        listener = Listener(
            lambda: Ear(engine), nullcontext(source), lambda report, turn: None, pytest.fail
        )
        listener.start()
        assert listener.wait(60)
        assert (listener.dead_seconds > 1.9) is dead
