"""`tune-next`: the tuning adviser as a procedure asks it, a line of readings for each test.

Where `tune` answers scripts, this answers the person on the ladder: which screw, which way by the sheet,
how far at most, why, and what to expect of the next test.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from guide.measures import Quantity, parse, write
from guide.trade.answer import Answer, BadInput
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet, needed
from guide.trade.en_1154 import size_by_width
from guide.trade.inputs import HEIGHT_INPUT, RULES_INPUT, USUAL_CODE, WIDTH_INPUT
from guide.trade.mounts import SIZES
from guide.trade.rules.kinds import ForceLimit, force_limit
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.sheet import Sheet
from guide.trade.swing.swing import MASS_INPUT, MOUNT_INPUT
from guide.trade.tuning.adviser import Adviser
from guide.trade.tuning.nominal_door import NominalLeaf
from guide.trade.tuning.readings import MOST_TESTS, Advice, SwingReading, Travel
from guide.trade.tuning.screw_words import place, told
from guide.trade.tuning.tune import leaf_of, travel_of

LATCHES, SLAMS, SHORT, BOTH, HIGH = "latches", "slams", "short", "both", "high"
SEEN = (LATCHES, SLAMS, SHORT, BOTH, HIGH)
"""What a leaf does, let go from a hand's width, from half way and from 90 degrees, the worst of the three:
`short` stops past the 12-degree mark, `high` before it, `both` slams from wide and stops short from near."""

DONE, LEFT, VALVES, SPRING, FORCE, TIME, IMPOSSIBLE = (
    "done",
    "left-to-do",
    "turn-valves",
    "turn-spring",
    "measure-force",
    "time-again",
    "impossible",
)
NEXT = (DONE, LEFT, VALVES, SPRING, FORCE, TIME, IMPOSSIBLE)

TRIED_ON_A_MODEL = (
    "Calculated from a model and this door's own readings; no real closer was measured."
)


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One line of readings."""

    seen: str
    """One of `SEEN`."""
    reading: SwingReading | None
    """None if a time that was to be taken is still missing."""


def read_test(line: str) -> ReadingLine:
    """A line `what it does, seconds 90 to 12, seconds 12 to shut, force`; BadInput with a sentence."""
    cells = [cell.strip() for cell in line.split(",")]
    if len(cells) != len(COLUMNS) or cells[0] not in SEEN:
        raise BadInput(
            f"“{line[:60]}” is not a test: write it as latches,5.9 s,1.5 s,4.8 lbf, beginning with one of"
            f" {', '.join(SEEN)}."
        )
    seen = cells[0]
    sweep, last = (float(parse(cell, "time").base) if cell else None for cell in cells[1:3])
    force = float(parse(cells[3], "force").base) if cells[3] else None
    if seen in (SHORT, HIGH):
        last = None
    if seen == HIGH:
        sweep = None
    missing = (sweep is None and seen != HIGH) or (last is None and seen not in (SHORT, HIGH))
    if missing:
        return ReadingLine(seen, None)
    return ReadingLine(seen, _reading(seen, sweep, last, force))


def _reading(
    seen: str, sweep: float | None, last: float | None, force: float | None
) -> SwingReading:
    """A procedure lets the leaf go from all three places, and the worst of them counts."""
    latched, slammed = seen in (LATCHES, SLAMS), seen in (SLAMS, BOTH)
    return SwingReading(sweep, last, latched, slammed, force, from_near=True)


def _tune_next(inputs: Mapping[str, Given]) -> Answer:
    sheet = given_sheet(inputs)
    tests = [read_test(line) for line in needed(inputs, "reading", str).splitlines()]
    if not tests:
        raise BadInput("tune-next needs reading=, one line for each test.")
    limit = limit_of(inputs)
    advice, force_due = _followed(*_asked_of(inputs, sheet, limit.most), tuple(tests))
    value = {"next": None, "turn": None, "force_due": "yes" if force_due else "no"}
    if advice is None:
        return Answer(value, ("The last test lacks its times.",))
    value |= {"next": _next(advice), "turn": told(advice, sheet)}
    parts = dict.fromkeys(move.part for move in advice.moves)
    working = (
        advice.reason,
        *(place(part, sheet) for part in parts),
        f"Test {len(tests)} of {MOST_TESTS} at most.",
        f"Force: {write(limit.most)} at most{limit.whence}.",
        TRIED_ON_A_MODEL,
    )
    return Answer(value, working, _cautions(advice))


def _asked_of(
    inputs: Mapping[str, Given], sheet: Sheet | None, most: Quantity
) -> tuple[NominalLeaf, int, float, Travel]:
    width = needed(inputs, "width", Quantity)
    travel = travel_of(sheet)
    low, high = travel.sizes
    size, needs = given(inputs, "size", int), given(inputs, "needs", int)
    start = size or needs or size_by_width(width)
    return leaf_of(inputs), min(max(start, round(low)), round(high)), float(most.base), travel


@lru_cache(maxsize=32)
def _followed(
    leaf: NominalLeaf, start: int, most: float, travel: Travel, tests: tuple[ReadingLine, ...]
) -> tuple[Advice | None, bool]:
    """The advice after the last test, and whether that test was to take the force.

    Cached, because a procedure reads its parts one by one.
    """
    adviser = Adviser(leaf, start, most, travel=travel, most_tests=None)
    advice: Advice | None = None
    force_due = due = True
    for number, test in enumerate(tests, 1):
        if number == len(tests):
            force_due = due
        advice = None if test.reading is None else adviser.next(test.reading)
        if test.reading is not None and test.reading.force is not None:
            due = False
        if advice is not None and _next(advice) in (SPRING, FORCE):
            due = True
    return advice, force_due


def limit_of(inputs: Mapping[str, Given]) -> ForceLimit:
    """The limit of the opening force by `rules`, `fire`, `exterior`, `way_out` and `accessible`."""
    return force_limit(
        given(inputs, "rules", str) or USUAL_CODE,
        fire=needed(inputs, "fire", bool),
        exterior=needed(inputs, "exterior", bool),
        way_out=given(inputs, "way_out", bool) or False,
        accessible=given(inputs, "accessible", bool) is not False,
    )


def _next(advice: Advice) -> str:
    if advice.outcome:
        return DONE if advice.done else advice.outcome
    if not advice.moves:
        return TIME if advice.again == "time" else FORCE
    return SPRING if any(move.part == "spring" for move in advice.moves) else VALVES


def _cautions(advice: Advice) -> tuple[str, ...]:
    if _next(advice) == SPRING:
        if len(advice.moves) > 1:
            return (
                "Never past the sheet's last turn: the spring first, then the valve, no further than told.",
            )
        return ("Never past the sheet's last turn, and no valve is turned with the spring.",)
    if advice.moves:
        return ("No further than told, and stop where it turns stiff.",)
    return ()


COLUMNS = (
    Input("seen", "choice", True, "what it does", SEEN),
    Input("sweep", "time", False, "seconds from 90 to 12 degrees"),
    Input("last", "time", False, "seconds from 12 degrees to shut"),
    Input("force", "force", False, "force that opens it"),
)
"""What a line of `reading` holds."""

COMPUTATION = Computation(
    name="tune-next",
    about="What to turn next on this door, in sentences, from a line of readings for each test.",
    inputs=(
        WIDTH_INPUT,
        MOUNT_INPUT,
        Input(
            "size",
            "count",
            False,
            "EN size the spring stood at before the first test; if left out, as the leaf needs",
            low=SIZES[0],
            high=SIZES[1],
        ),
        Input(
            "needs",
            "count",
            False,
            "EN size the leaf needs; by the width if left out",
            low=SIZES[0],
            high=SIZES[1],
        ),
        replace(HEIGHT_INPUT, required=False),
        replace(MASS_INPUT, required=False),
        RULES_INPUT,
        Input("fire", "yesno", True, "whether it is a fire door"),
        Input("exterior", "yesno", True, "whether it opens to the weather"),
        Input("way_out", "yesno", False, "whether it is a way out"),
        Input("accessible", "yesno", False, "on an accessible route; yes if left out"),
        Input(
            "reading",
            "text",
            True,
            "what it does, seconds from 90 to 12 degrees, seconds for the last 12, force; once for"
            " each test, oldest first",
            columns=COLUMNS,
        ),
        replace(SHEET_INPUT, required=False),
    ),
    output=Output(
        "mapping",
        ("next", "turn", "force_due"),
        labels=(("next", NEXT), ("force_due", ("yes", "no"))),
    ),
    compute=_tune_next,
    source=(
        "2010 ADA Standards 404.2.8.1 and 404.2.9; the sheet for the screws; common practice for how"
        " far a valve is turned; the rest ours"
    ),
    example="width='36 in' mount=regular size=3 fire=no exterior=no reading='latches,4.2 s,1.5 s,6.8 lbf'",
)
