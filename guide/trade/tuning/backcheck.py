"""Backcheck, the cushion on opening: from how it feels to what to turn.

The valve sets how firm it is. Where it begins is drilled into the body and belongs to the shaft's turn,
so no usual valve moves it: on a parallel arm the same port comes in at a wider door angle.
"""

from collections.abc import Mapping
from dataclasses import replace

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet, needed
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.sheet import Sheet
from guide.trade.swing.swing import MOUNT_INPUT
from guide.trade.tuning.readings import Move
from guide.trade.tuning.screw_words import place, turn

FEELS = ("right", "hard", "soft", "early", "late")
"""Right: it cushions from about 70 degrees and lets the leaf go on. Hard: like a wall. Soft: a brisk push
reaches the stop. Early, late: it begins well before, or well after, about 70 degrees."""

_OPPOSITE = {"hard": "soft", "soft": "hard"}
LEAVE, TURN, PLACE = "leave", "turn-valve", "look-at-place"


def _backcheck(inputs: Mapping[str, Given]) -> Answer:
    feels, mount = needed(inputs, "feels", str), needed(inputs, "mount", str)
    sheet = given_sheet(inputs)
    if feels == "right":
        return _answer(LEAVE, "Leave the backcheck as it is.", ("It cushions and does not stop.",))
    if feels in ("hard", "soft"):
        before = (given(inputs, "felt", str) or "").split()
        return _by_valve(feels, sheet, between=_OPPOSITE[feels] in before)
    return _by_place(feels, mount)


def _by_valve(feels: str, sheet: Sheet | None, *, between: bool) -> Answer:
    """`between`: a quarter turn ago it was wrong the other way, so that what is right lies half a turn of that back."""
    move = Move("backcheck", "softer" if feels == "hard" else "firmer", 0.5 if between else 1)
    why = {
        "hard": "Too firm is a wall: it pulls the screws and stops the person who pushes.",
        "soft": "Too soft, and a shove or the wind drives the leaf into its stop.",
    }[feels]
    turned = "An eighth" if between else "A quarter turn"
    expect = f"{turned} is felt; push briskly again, a hand ready to catch the leaf."
    if between:
        why = f"{why} What is right lies between the last two."
    return _answer(TURN, turn(move, sheet), (why, place("backcheck", sheet), expect))


def _by_place(feels: str, mount: str) -> Answer:
    """Too early or too late: no valve is turned for it."""
    if feels == "late" and mount == "parallel":
        why = (
            f"On a {MOUNT_WORDS[mount]} the shaft turns less for the same door angle, so it comes in"
            " late by nature."
        )
    else:
        why = "Where it begins goes with the shaft's turn: body, shoe or arm may sit off the sheet."
    what = (
        "Turn no valve for it. Compare body, shoe and rod with the sheet; a stop ends the swing."
        if feels == "late"
        else "Turn no valve for it. Compare body, shoe and rod with the sheet."
    )
    more = (
        "Some bodies have a second screw for where it begins: only the sheet and the label say so."
    )
    return _answer(PLACE, what, (why, more))


def _answer(what: str, sentence: str, working: tuple[str, ...]) -> Answer:
    return Answer({"next": what, "turn": sentence}, working)


COMPUTATION = Computation(
    name="backcheck",
    about="What to turn, or to look at, for a backcheck that feels wrong.",
    inputs=(
        Input("feels", "choice", True, "how it feels on a brisk push", FEELS),
        Input(
            "felt",
            "text",
            False,
            "how it felt at every push so far, a line for each",
            columns=(Input("felt", "choice", True, "how it felt", FEELS),),
        ),
        MOUNT_INPUT,
        replace(SHEET_INPUT, required=False),
    ),
    output=Output("mapping", ("next", "turn"), labels=(("next", (LEAVE, TURN, PLACE)),)),
    compute=_backcheck,
    source="common practice; the sheet for the screw",
    example="feels=hard mount=regular",
)
