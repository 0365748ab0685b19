"""What is done to sound before it is listened to: the filter, and how loud it is."""

import pytest

from guide.speech.frontend import Floor, HighPass, level
from tests.speech.sounds import tone


def test_hum_is_taken_away_and_speech_kept() -> None:
    hum = level(HighPass().push(tone(50, 1.0))[800:])
    voice = level(HighPass().push(tone(1500, 1.0))[800:])
    assert level(tone(50, 1.0)) - hum == pytest.approx(15.7, abs=1)  # 20 log10 of 300 / 50, +0.1
    assert level(tone(1500, 1.0)) - voice == pytest.approx(0, abs=1)


def test_the_filter_does_not_hear_where_one_chunk_ends() -> None:
    sound = tone(700, 0.1)
    whole = HighPass().push(sound)
    parts = HighPass()
    assert whole == parts.push(sound[:333]) + parts.push(sound[333:])


def test_a_filter_that_would_go_past_16_bits_is_cut_off() -> None:
    steps = ([32767] * 20 + [-32768] * 20) * 10
    assert max(HighPass().push(steps)) == 32767


def test_level_is_in_decibels_over_one_step() -> None:
    assert level([10] * 480) == pytest.approx(20)
    assert level([0] * 480) == -20


def test_silence_in_place_of_our_own_voice_is_not_taken_for_a_quiet_room() -> None:
    floor = Floor()
    for frame_level in [40.0] * 30 + [level([0] * 480)] * 200:
        floor.push(frame_level)
    assert floor.level == pytest.approx(40)
