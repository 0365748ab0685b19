"""A practice door line by line: each command, what is not understood, and the seeded watch."""

from statistics import mean

import pytest

from guide.plain.practice import in_real_time, practise_plain, seeded_watch
from guide.practice.practice import Practice
from guide.practice.score import Score
from guide.procedure.practice_file import find_practice, load_practice


def at_door(name: str, *lines: str) -> tuple[Practice, list[str]]:
    """The practice after these lines, and everything that was printed."""
    practice, printed = Practice(load_practice(find_practice(name))), list[str]()
    typed = iter([*lines])

    def keep(practice: Practice, score: Score) -> str:
        return "The result could not be kept: no space."

    watch = seeded_watch(7)
    practise_plain(practice, lambda: next(typed, None), printed.append, watch, keep)
    return practice, printed


def test_the_strike_is_found_set_back_and_the_door_proved() -> None:
    practice, printed = at_door(
        "pottery",
        "inspect frame",
        "put-right strike",
        "adjust sweep slower 1/4",
        "swing 90 hand",
        "swing 90",
        "swing 45",
        "swing 10",
        "gauge",
        "right",
    )
    text = "\n".join(printed)
    assert "Bright metal on the lip" in text
    assert "--- As an experienced fitter does it" in printed
    assert "  Right: the door as it is left (all within limits)" in printed
    assert "Not yet" not in text
    assert practice.verdict == "right"
    assert "! The result could not be kept: no space." in text


def test_the_lift_lobby_is_rightly_given_up() -> None:
    practice, printed = at_door("lift-lobby", "inspect air", "put-right air", "cannot air")
    assert "air pushes the leaf open" in " ".join(printed)
    assert practice.verdict == "air"
    assert any("rightly given up" in line for line in printed)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("dance", "“dance” is not a command here"),
        ("swing 200", "1 to 110, or “open”"),
        ("swing ²", "1 to 110, or “open”"),
        ("adjust", "such as: adjust sweep slower 1/4"),
        (
            "adjust lid slower 1/4",
            "“lid” is not a screw of this closer; it has sweep, latch, backcheck, spring",
        ),
        ("adjust sweep stronger 1/4", "turned slower or faster"),
        ("adjust sweep slower 3", "1/8, 1/4, 1/2 or 1 turn"),
        ("adjust spring stronger 1/4", "1/2 or 1 EN size"),
        ("adjust delay shorter 1/4", "no delayed action"),
        ("cannot", "one of air, seal, hinge, strike, leak, size"),
        ("put-right leak", "one of air, seal, hinge, strike"),
        ("inspect up", "one of closer, frame, air"),
    ],
)
def test_a_line_that_means_nothing_says_what_to_write(line: str, says: str) -> None:
    practice, printed = at_door("pottery", line)
    assert any(said.startswith("! ") and says in said for said in printed)
    assert practice.spent == 0


def test_help_names_every_command_and_leaving_keeps_nothing() -> None:
    practice, printed = at_door("pottery", "", "help", "leave")
    text = "\n".join(printed)
    for word in (
        "swing",
        "inspect",
        "push-open",
        "gauge",
        "arm off",
        "adjust",
        "put-right",
        "right",
        "cannot",
        "leave",
    ):
        assert word in text
    assert printed[-1] == "Left without a verdict; nothing is kept."
    assert practice.acts == []


@pytest.mark.parametrize(
    ("line", "called"),
    [
        ("look closer", "“look” is called “inspect” here."),
        ("push", "“push” is called “push-open” here."),
        ("turn sweep slower 1/4", "“turn” is called “adjust” here."),
        ("force", "“force” is called “gauge” here."),
        ("mend strike", "“mend” is called “put-right” here."),
        ("put right strike", "“put” is called “put-right” here."),
        ("quit", "“quit” is called “leave” here."),
    ],
)
def test_a_word_for_a_command_is_answered_with_the_command(line: str, called: str) -> None:
    practice, printed = at_door("pottery", line)
    assert f"! {called}" in printed
    assert practice.acts == []


def test_a_door_left_wrong_is_told_in_words_what_is_right_first() -> None:
    _, printed = at_door("choir-room", "swing 90", "right")
    told = [line for line in printed if line.startswith(("  Right: ", "  Not yet: "))]
    assert told == sorted(told, key=lambda line: line.startswith("  Not yet: "))
    assert "  Right: the hidden cause (there was none to find)" in told
    assert any(line.startswith("  Not yet: the door as it is left") for line in told)
    assert not any(" of 100" in line for line in printed)


def test_the_watch_is_off_by_a_fifth_of_a_second_the_same_way_for_a_seed() -> None:
    def times(seed: int) -> list[float]:
        watch, practice = seeded_watch(seed), Practice(load_practice(find_practice("pottery")))
        return [watch(practice.swing(90), print)[0] for _ in range(60)]

    assert times(3) == times(3) != times(4)
    true = Practice(load_practice(find_practice("pottery"))).swing(90).closing.s_90_12
    assert true is not None
    off = [time - true for time in times(3)]
    assert abs(mean(off)) < 0.1
    assert 0.1 < (mean(one * one for one in off)) ** 0.5 < 0.3


def test_the_watch_does_not_tell_what_a_hand_did() -> None:
    practice = Practice(load_practice(find_practice("choir-room")))
    assert len(seeded_watch(1)(practice.swing(90, hand=True), print)) == 1


def test_in_real_time_the_swing_is_told_as_it_happens() -> None:
    told: list[str | float] = []
    practice = Practice(load_practice(find_practice("lending-library")))
    swung = practice.swing(90)
    assert in_real_time(told.append)(swung, told.append) == ()
    waits = [one for one in told if isinstance(one, float)]
    assert sum(waits) == pytest.approx(swung.seconds)
    assert told[2] == "  The edge passes the mark."


def test_a_push_tells_how_the_backcheck_feels() -> None:
    practice, printed = at_door(
        "day-centre", "push-open", "adjust backcheck softer 1/2", "push-open", "leave"
    )
    text = "\n".join(printed)
    assert "Like a wall near 65 degrees" in text
    assert "it is cushioned" in text
    assert practice.settings["backcheck"] == 0.75
