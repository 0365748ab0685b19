"""Where somebody speaks: segments, their distance to the noise, and their pitch."""

import math
from array import array
from pathlib import Path

import pytest

from guide.speech.audio import FRAME_SECONDS, in_a_room, samples
from guide.speech.endpoint import LONGEST_SECONDS, Segment, Segmenter, has_pitch
from guide.speech.frontend import level
from tests.speech.sounds import flite, frames_of, hiss, tone


def segments(sound: list[int]) -> list[Segment]:
    segmenter = Segmenter()
    found = [segmenter.push(in_a_room(frame)) for frame in frames_of(sound)]
    return [one for one in (*found, segmenter.finish()) if one is not None]


def test_silence_and_a_quiet_room_hold_nobody() -> None:
    assert segments([0] * 48000) == []
    assert segments(hiss(3.0, 6)) == []


@pytest.mark.needs("flite")
def test_two_sayings_are_two_segments_and_each_stands_above_the_room(tmp_path: Path) -> None:
    said = flite("thirty six inches", tmp_path)
    pause = hiss(0.5, 8)
    found = segments([*said, *pause, *said])
    assert len(found) == 2
    assert all(one.snr > 25 and not one.endless for one in found)
    assert 0.2 < found[0].start < 0.8
    assert found[0].end < found[1].start


@pytest.mark.needs("flite")
def test_the_distance_to_the_noise_is_measured_well(tmp_path: Path) -> None:
    said = flite("thirty five and seven eighths inches", tmp_path)
    loud = sorted(level(said[at : at + 480]) for at in range(0, len(said) - 480, 480))
    speech = loud[int(0.75 * len(loud))]
    noise = hiss(len(said) / 16000 + 1, round(10 ** ((speech - 20) / 20) * math.sqrt(3)))
    found = segments([a + b for a, b in zip(said, noise, strict=False)])
    assert found[0].snr == pytest.approx(20, abs=4)


def test_a_machine_that_runs_is_no_saying_and_one_that_starts_ends_with_its_novelty() -> None:
    saw = [((n * 160) % 16000) - 8000 for n in range(16000 * 20)]
    assert segments(saw) == []
    (found,) = segments([*hiss(1.0, 8), *saw])
    assert found.seconds < 5


def test_what_never_ends_is_cut_off_and_called_so() -> None:
    rattle = [(((n * 160) % 16000) - 8000) if n % 4800 < 3600 else 0 for n in range(16000 * 20)]
    found = segments([a + b for a, b in zip(rattle, hiss(20.0, 8), strict=True)])
    assert found
    assert all(one.endless for one in found[:-1])
    assert all(one.seconds <= LONGEST_SECONDS + FRAME_SECONDS for one in found)


@pytest.mark.needs("flite")
def test_a_saying_right_at_the_start_is_whole(tmp_path: Path) -> None:
    said = flite("thirty six inches", tmp_path)
    first = next(at for at, one in enumerate(said) if abs(one) > 400)
    (found,) = segments(said[first:])
    assert found.start < 0.03


@pytest.mark.needs("flite")
@pytest.mark.parametrize("text", ["done", "seventy seven inches"])
def test_what_an_editor_put_silence_around_was_said_in_a_quiet_place(
    text: str, tmp_path: Path
) -> None:
    said = trimmed(flite(text, tmp_path))
    silence = [0] * 8000
    (found,) = segments([*silence, *said, *silence])
    assert found.quiet


@pytest.mark.needs("flite")
def test_what_is_cut_close_is_told_from_noise_by_its_own_quietest_frames(tmp_path: Path) -> None:
    said = trimmed(flite("thirty six inches", tmp_path))
    (clean,) = segments(said)
    assert clean.snr > 20
    loud = sorted(level(said[at : at + 480]) for at in range(0, len(said) - 480, 480))
    at_10_db = round(10 ** ((loud[int(0.75 * len(loud))] - 10) / 20) * math.sqrt(3))
    (noisy,) = segments([a + b for a, b in zip(said, hiss(3.0, at_10_db), strict=False)])
    assert noisy.snr < 14


def trimmed(sound: list[int]) -> list[int]:
    """Without what is 34 dB below its peak before and after it."""
    least = max(map(abs, sound)) / 50
    loud = [at for at, value in enumerate(sound) if abs(value) > least]
    return sound[loud[0] : loud[-1] + 1]


def test_only_a_frame_without_any_sound_becomes_a_quiet_room() -> None:
    faint = bytes(958) + b"\1\0"
    assert in_a_room(faint) == faint
    assert level(samples(in_a_room(bytes(960)))) == pytest.approx(14, abs=1)


def levels(sound: list[int]) -> list[float]:
    return [level(sound[at : at + 480]) for at in range(0, len(sound) - 479, 480)]


@pytest.mark.parametrize("hertz", [85, 120, 210, 350])
def test_a_voice_has_a_pitch_and_a_hiss_has_none(hertz: int) -> None:
    hum = [
        sum(parts) // 3 for parts in zip(*(tone(n * hertz, 0.6) for n in (1, 2, 3)), strict=True)
    ]
    assert has_pitch(array("h", hum).tobytes(), levels(hum))
    air = hiss(0.6, 4000)
    assert not has_pitch(array("h", air).tobytes(), levels(air))


@pytest.mark.needs("flite")
@pytest.mark.parametrize("text", ["six", "back", "help", "thirty six and five eighths inches"])
def test_every_saying_has_a_pitch_though_most_of_it_hisses(text: str, tmp_path: Path) -> None:
    for voice in ("slt", "rms", "kal16"):
        [said] = segments(flite(text, tmp_path, voice))
        assert has_pitch(said.pcm, said.levels), voice


def test_where_there_is_no_sound_there_is_no_pitch() -> None:
    assert not has_pitch(b"", ())
    assert not has_pitch(bytes(9600), [-20.0] * 10)
