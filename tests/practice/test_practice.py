"""A practice door: what is done to it, what that shows, and what it costs."""

import pytest

from guide.practice.door import HiddenCause
from guide.practice.practice import Impossible, Practice
from guide.practice.random_door import random_door
from guide.trade.swing.model import SLAM_SPEED, close, opening_force
from tests.practice.practice_bench import LBF, office

PROUD = HiddenCause("strike", 140.0, 6.0)
LEAKS = HiddenCause("leak", 4.5)


def test_a_swing_takes_as_long_as_the_model_says_and_ends_shut() -> None:
    practice = Practice(office())
    swung = practice.swing(90)
    true = close(practice.door)
    assert true.s_90_12 is not None
    assert swung.seconds == pytest.approx(true.s_90_12 + true.s_till_stop)
    assert swung.trace[-1][1] == pytest.approx(0, abs=1e-9)
    assert "latches" in practice.acts[-1].said[0]


def test_the_leaf_passes_the_mark_when_the_model_says_so() -> None:
    swung = Practice(office()).swing(90)
    assert swung.closing.s_90_12 is not None
    assert swung.angle(0) == 90
    assert swung.angle(swung.closing.s_90_12) == pytest.approx(12, abs=0.1)
    assert swung.angle(1000) == pytest.approx(0, abs=1e-9)


def test_the_leaf_only_ever_goes_on_toward_shut() -> None:
    swung = Practice(office()).swing(110)
    angles = [deg for _, deg in swung.trace]
    assert angles == sorted(angles, reverse=True)


def test_a_hand_on_the_leaf_takes_the_blow() -> None:
    practice = Practice(office(latch=3.5))
    bare, held = practice.swing(90), practice.swing(90, hand=True)
    assert bare.closing.edge_speed > SLAM_SPEED
    assert bare.slammed
    assert not held.slammed
    assert held.seconds > bare.seconds
    assert "Your hand takes the blow" in practice.acts[-1].said[0]


def test_a_leaf_that_stops_short_says_how_far_its_edge_is_from_the_frame() -> None:
    practice = Practice(office(PROUD))
    swung = practice.swing(90)
    assert not swung.closing.latched
    assert practice.acts[-1].said == (
        "It stops short, its edge 7/16 in from the frame. Not latched.",
    )


def test_screws_stop_at_their_ends_and_are_forced_only_past_them() -> None:
    practice = Practice(office(latch=3.75))
    assert "stiff" in practice.turn("latch", "faster", 2)[0]
    assert practice.forced == 0
    assert practice.settings["latch"] == 4
    assert "forced" in practice.turn("latch", "faster", 1)[0]
    assert practice.forced == 1
    practice.turn("spring", "stronger", 2)
    practice.turn("spring", "stronger", 1)
    assert (practice.size, practice.forced) == (4, 2)


def test_a_screw_that_the_closer_has_not_cannot_be_turned() -> None:
    with pytest.raises(Impossible, match="no delayed action"):
        Practice(office()).turn("delay", "shorter", 1)


def test_delayed_action_makes_it_wait_until_it_is_closed_off() -> None:
    practice = Practice(office(delay=0.5))
    waiting = practice.swing(90)
    assert "waits" in practice.acts[-1].said[0]
    practice.turn("delay", "shorter", 4)
    assert practice.swing(90).seconds < waiting.seconds - 5
    assert "waits" not in practice.acts[-1].said[0]


@pytest.mark.parametrize(
    ("fault", "place", "shows"),
    [
        (LEAKS, "closer", "Oil hangs under the body"),
        (PROUD, "frame", "Bright metal on the lip"),
        (HiddenCause("seal", 40.0, 0.8), "frame", "gripped hard"),
        (HiddenCause("air", -45.0), "air", "pushes the leaf open"),
    ],
)
def test_the_eye_finds_what_can_be_seen_and_only_at_its_place(
    fault: HiddenCause, place: str, shows: str
) -> None:
    sound, faulty = Practice(office()), Practice(office(fault))
    for spot in ("closer", "frame", "air"):
        assert (shows in " ".join(faulty.look(spot))) == (spot == place)
        assert shows not in " ".join(sound.look(spot))


def test_a_binding_hinge_is_felt_and_not_seen() -> None:
    sound, binds = Practice(office()), Practice(office(HiddenCause("hinge", 10.0, 0.3)))
    for spot in ("closer", "frame", "air"):
        assert binds.look(spot) == sound.look(spot)
    assert "binds" in binds.feel()[0]
    assert "one finger" in sound.feel()[0]


def test_a_leak_within_the_body_shows_nothing_but_its_valves_do_nothing() -> None:
    inside = Practice(office(HiddenCause("leak", 4.5, inside=True)))
    assert "dry" in " ".join(inside.look("closer"))
    before = inside.swing(90).seconds
    inside.turn("sweep", "slower", 1)
    assert inside.swing(90).seconds == pytest.approx(before, rel=0.05)


def test_a_leak_grows_with_every_swing() -> None:
    """Its oil warms: the drift that makes a fitter's last good reading worthless."""
    practice = Practice(office(LEAKS))
    times = [practice.swing(90).seconds for _ in range(5)]
    assert times == sorted(times, reverse=True)
    assert times[0] > times[-1]


def test_what_is_put_right_is_gone_and_what_cannot_be_stays() -> None:
    practice = Practice(office(PROUD, HiddenCause("air", -45.0)))
    assert "set back" in practice.put_right("strike")[0]
    assert "must stay" in practice.put_right("air")[0]
    assert "Nothing to free" in practice.put_right("hinge")[0]
    assert [fault.cause for fault in practice.faults] == ["air"]
    assert practice.door.latch_force == 6.0


def test_the_gauge_reads_the_force_at_the_handle() -> None:
    practice = Practice(office())
    assert practice.measure() == opening_force(practice.door)
    assert practice.acts[-1].said == (f"{opening_force(practice.door) / LBF:.1f} lbf",)


def test_a_change_undoes_what_was_proved() -> None:
    practice = Practice(office(limit=50.0))
    for start in (110, 45, 10):
        practice.swing(start)
    practice.measure()
    assert practice.proved == {90, 45, 10}
    practice.turn("sweep", "slower", 1)
    assert practice.proved == set()
    assert practice.weighed, "no valve changes the force"
    practice.turn("spring", "weaker", 1)
    assert not practice.weighed


def test_a_verdict_is_one_of_the_causes_or_right() -> None:
    practice = Practice(office())
    with pytest.raises(KeyError):
        practice.finish("gremlins")
    practice.finish("right")
    assert practice.verdict == "right"


def test_the_same_seed_gives_a_class_the_same_door() -> None:
    assert random_door(41) == random_door(41)
    assert random_door(41).door != random_door(42).door
