"""Steady noise is taken away, speech is kept, and what is kept stays in step with what came."""

from importlib import util
from importlib.machinery import ModuleSpec
from pathlib import Path

import pytest

from guide.speech import suppressor
from guide.speech.frontend import level
from guide.speech.suppressor import (
    RNNOISE_DELAY,
    Name,
    Nothing,
    RnNoise,
    Suppressor,
    WebRtc,
    suppressor_here,
)
from tests.speech.sounds import flite, frames_of, hiss

WORKING = [
    pytest.param(RnNoise, marks=pytest.mark.needs("python:pyrnnoise")),
    pytest.param(WebRtc, marks=pytest.mark.needs("python:webrtc_noise_gain")),
]


def through(one: Suppressor, sound: list[int]) -> tuple[list[int], list[int]]:
    """The sound, quieter, and as it was."""
    quieter: list[int] = []
    before: list[int] = []
    for frame in frames_of(sound):
        clean, plain = one.push(frame)
        quieter += clean
        before += plain
    return quieter, before


@pytest.mark.parametrize("kind", WORKING)
def test_a_steady_hiss_falls_to_less_than_a_third(kind: type[RnNoise | WebRtc]) -> None:
    quieter, before = through(kind(), hiss(3.0, 1500))
    assert level(before[32000:]) - level(quieter[32000:]) > 10


@pytest.mark.needs("flite")
@pytest.mark.parametrize("kind", WORKING)
def test_a_measure_said_in_a_quiet_room_stays_as_loud(
    kind: type[RnNoise | WebRtc], tmp_path: Path
) -> None:
    quieter, before = through(kind(), flite("thirty six inches", tmp_path))
    assert level(quieter) == pytest.approx(level(before), abs=2)


@pytest.mark.needs("python:pyrnnoise")
@pytest.mark.needs("flite")
def test_both_come_out_of_rnnoise_in_step_and_late_by_what_is_stated(tmp_path: Path) -> None:
    said = flite("thirty six inches", tmp_path)
    quieter, before = through(RnNoise(), said)
    whole = len(before) - RNNOISE_DELAY
    assert before[RNNOISE_DELAY:] == said[:whole]
    likeness = {
        shift: sum(a * b for a, b in zip(quieter[40 + shift :], before[40:-40], strict=False))
        for shift in range(-20, 21)
    }
    assert max(likeness, key=likeness.__getitem__) == 0


@pytest.mark.parametrize(
    ("missing", "left"),
    [
        pytest.param((), "rnnoise", marks=pytest.mark.needs("python:pyrnnoise")),
        pytest.param(("pyrnnoise",), "webrtc", marks=pytest.mark.needs("python:webrtc_noise_gain")),
        (("pyrnnoise", "webrtc_noise_gain"), "none"),
    ],
)
def test_the_best_that_is_installed_is_taken(
    missing: tuple[str, ...], left: Name, monkeypatch: pytest.MonkeyPatch
) -> None:
    there = util.find_spec

    def find(name: str) -> ModuleSpec | None:
        return None if name in missing else there(name)

    monkeypatch.setattr(util, "find_spec", find)
    _forget()
    try:
        assert suppressor_here() == left
        assert suppressor.open_suppressor().name == left
    finally:
        monkeypatch.undo()
        _forget()


def test_without_a_library_the_sound_is_as_it_was() -> None:
    sound = hiss(0.3, 900)
    assert through(Nothing(), sound) == (sound, sound)


def _forget() -> None:
    suppressor_here.cache_clear()
    suppressor._library.cache_clear()
