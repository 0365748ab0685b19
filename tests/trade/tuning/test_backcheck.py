"""Backcheck that feels wrong: what to turn, and what no valve can move."""

import pytest

from guide.trade.answer import Answer
from guide.trade.registry import find, read_inputs, run
from tests.trade.harbour_closer import harbour_closer


def felt(feels: str, mount: str = "regular", **more: str) -> Answer:
    texts = {"feels": feels, "mount": mount, **more}
    return run(
        "backcheck", read_inputs(find("backcheck"), texts, open_sheet=lambda _: harbour_closer())
    )


@pytest.mark.parametrize(
    ("feels", "what", "says"),
    [
        ("right", "leave", "Leave the backcheck as it is."),
        ("hard", "turn-valve", "Backcheck valve: a quarter turn by the label (softer)."),
        ("soft", "turn-valve", "Backcheck valve: a quarter turn by the label (firmer)."),
        (
            "early",
            "look-at-place",
            "Turn no valve for it. Compare body, shoe and rod with the sheet.",
        ),
    ],
)
def test_what_to_do_for_each_feel(feels: str, what: str, says: str) -> None:
    """A quarter turn at one go (common practice)."""
    assert dict(felt(feels).value) == {"next": what, "turn": says}  # type: ignore[arg-type]


def test_between_too_firm_and_too_soft_it_is_an_eighth() -> None:
    """A quarter turn that went past what is right is halved (common practice), not turned back whole."""
    back = felt("soft", felt="hard\nsoft")
    assert dict(back.value)["turn"] == "Backcheck valve: an eighth of a turn by the label (firmer)."  # type: ignore[arg-type]
    assert "What is right lies between the last two." in back.working[0]
    on = felt("hard", felt="hard\nhard")
    assert dict(on.value)["turn"] == "Backcheck valve: a quarter turn by the label (softer)."  # type: ignore[arg-type]


def test_on_a_parallel_arm_it_comes_in_late_by_nature() -> None:
    """The zones belong to the shaft's turn, which is less on a parallel arm (trade notes)."""
    assert "late by nature" in felt("late", "parallel").working[0]
    assert "late by nature" not in felt("late", "regular").working[0]
