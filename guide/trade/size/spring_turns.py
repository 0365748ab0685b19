"""`spring-turns`: how far to turn the spring screw, by the sheet's table or its turns for one size.

From the factory's setting, or from an EN size it is known to be at; to an EN size, to what a width of leaf needs, or to
the setting for an accessible door.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.answer import Answer, BadInput, NoAnswer
from guide.trade.computation import (
    Computation,
    Extent,
    Given,
    Input,
    Output,
    Ranged,
    RangedInput,
    given,
    needed,
)
from guide.trade.inputs import WIDTH_INPUT
from guide.trade.mounts import MOUNT_WORDS, MOUNTS, SIZES
from guide.trade.sheet.kinds import written_turns
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.parts import NO_PRESET, QUARTERS, Screw, SpringSetting
from guide.trade.sheet.sheet import Sheet


@dataclass(frozen=True, slots=True)
class _Goal:
    """What the spring is to be set to: an EN size, or a line of the sheet's table."""

    size: int | None
    """None for a width of leaf, or an accessible door, that the table has a line for."""
    turns: Fraction | None
    """From the factory's setting; None if the sheet does not count from there."""
    words: str
    """As a sentence ends with it."""


def _spring_turns(inputs: Mapping[str, Given]) -> Answer:
    sheet = needed(inputs, "sheet", Sheet)
    start = given(inputs, "from", int)
    mount = given(inputs, "mount", str)
    low, high = sheet.sizes
    if not sheet.adjustable:
        raise NoAnswer(
            f"The spring of {sheet.sheet} is fixed at EN size {low}: do not turn it, choose a"
            " closer of the size the leaf needs."
        )
    for size in (start, given(inputs, "to", int)):
        if size is not None and not low <= size <= high:
            raise NoAnswer(
                f"{sheet.sheet} has EN sizes {low} to {high}, not {size}: do not turn the screw"
                " past its range, choose another closer."
            )
    if mount is not None:
        sheet.mount(mount)
    goal = _goal(sheet, inputs, mount)
    turns, working = (
        _from_factory(sheet, goal) if start is None else _from(sheet, start, goal, mount)
    )
    direction = "stronger" if turns > 0 else "weaker" if turns < 0 else "none"
    return Answer(
        {
            "quarter_turns": int(abs(turns) * QUARTERS),
            "direction": direction,
            "in_words": _in_words(turns, sheet, start),
        },
        (*working, *_presets(sheet, mount)),
        (_which_way(sheet, direction), "Stop where the screw turns stiff, whatever the count."),
    )


def _in_words(turns: Fraction, sheet: Sheet, start: int | None) -> str:
    if start is not None:
        return f"{_times(turns)} than EN size {start}" if turns else f"no turn from EN size {start}"
    size = None if sheet.factory_size is None else f"EN size {sheet.factory_size}"
    if not turns:
        return f"as the factory set it, {size}" if size else "as the factory set it"
    return f"{_times(turns)} than the factory's {size or 'setting'}"


def _goal(sheet: Sheet, inputs: Mapping[str, Given], mount: str | None) -> _Goal:
    size = given(inputs, "to", int)
    width = given(inputs, "width", Quantity)
    accessible = given(inputs, "accessible", bool) or False
    if (size is not None) + (width is not None and not accessible) + accessible != 1:
        raise BadInput(
            "spring-turns needs one of three: to= (the EN size wanted), width= (of the leaf), or"
            " accessible=yes (a door that must open with little force)."
        )
    if size is not None:
        return _Goal(size, _turns_for_size(sheet, size, mount), f"EN size {size}")
    if accessible:
        row = next((one for one in _table(sheet, mount) if one.accessible), None)
        if row is None:
            raise NoAnswer(
                f"The spring turns of {sheet.sheet} have no line for accessible doors: measure the"
                " force to open, and ask the maker if it is too much at the weakest setting."
            )
        return _Goal(None, row.turns, "an accessible door")
    assert width is not None
    return _by_width(sheet, width, mount)


def _by_width(sheet: Sheet, width: Quantity, mount: str | None) -> _Goal:
    """The line of the table for that width, else the size of the sheet's chart."""
    rows = [one for one in _table(sheet, mount) if one.max_width is not None]
    for row in rows:
        assert row.max_width is not None
        if width <= row.max_width:
            return _Goal(None, row.turns, f"a leaf to {row.max_width}")
    if rows:
        raise NoAnswer(
            f"The spring turns of {sheet.sheet} end at a leaf of {rows[-1].max_width}, and this one is"
            f" {width}: choose another closer with the foreman."
        )
    if not sheet.chart:
        raise NoAnswer(
            f"The sheet {sheet.sheet} gives no spring turns by width of leaf: ask spring-size for the"
            " EN size, and give it as to=."
        )
    if mount is None and sheet.chart_by_mount:
        raise BadInput(f"The chart of {sheet.sheet} goes by mount; give mount= as well.")
    size = sheet.chart_size(width, mount or "")
    return _Goal(
        size,
        _turns_for_size(sheet, size, mount),
        f"a leaf {width} wide, EN size {size} by the chart",
    )


def _table(sheet: Sheet, mount: str | None) -> list[SpringSetting]:
    """The lines of the sheet's table for that mount. BadInput if it must be named first."""
    if mount is None and any(one.mount is not None for one in sheet.spring_settings):
        raise BadInput(f"The spring turns of {sheet.sheet} go by mount; give mount= as well.")
    return [one for one in sheet.spring_settings if one.mount in (None, mount)]


def _turns_for_size(sheet: Sheet, size: int, mount: str | None) -> Fraction | None:
    """Turns from the factory's setting, by the table or by the turns for one size."""
    row = next((one for one in _table(sheet, mount) if one.size == size), None)
    if row is not None:
        return row.turns
    if sheet.factory_size == size:
        return Fraction(0)
    if sheet.factory_size is None or sheet.turns_per_size is None:
        return None
    return (size - sheet.factory_size) * sheet.turns_per_size


def _from_factory(sheet: Sheet, goal: _Goal) -> tuple[Fraction, tuple[str, ...]]:
    if goal.turns is None and _says_nothing_of_turns(sheet):
        raise _silent(sheet)
    if goal.turns is None:
        raise NoAnswer(
            f"The sheet {sheet.sheet} does not say how many turns {goal.words} is from the factory's"
            " setting: give the EN size it is set to now, as from=, or read the label."
        )
    at = "" if sheet.factory_size is None else f", EN size {sheet.factory_size}"
    told = f"{_times(goal.turns)} from the factory's setting{at}"
    return goal.turns, (f"For {goal.words}: {told}.",)


def _from(
    sheet: Sheet, start: int, goal: _Goal, mount: str | None
) -> tuple[Fraction, tuple[str, ...]]:
    now = _turns_for_size(sheet, start, mount)
    if goal.size == start:
        return Fraction(0), (f"The spring is at EN size {start} already: leave the screw alone.",)
    rows = {one.size for one in _table(sheet, mount)} | {sheet.factory_size}
    by_table = goal.size is None or {start, goal.size} <= rows or sheet.turns_per_size is None
    if by_table and now is not None and goal.turns is not None:
        turns = goal.turns - now
        working = (
            f"EN size {start} is {_times(now)} from the factory's setting, and {goal.words}"
            f" {_times(goal.turns)}: {_times(turns)}."
        )
        return turns, (working,)
    if goal.size is None or sheet.turns_per_size is None:
        if _says_nothing_of_turns(sheet):
            raise _silent(sheet)
        raise NoAnswer(
            f"The sheet {sheet.sheet} does not say how many turns are between EN size {start} and"
            f" {goal.words}: leave from= away to count from the factory's setting, or read the label."
        )
    per_size = sheet.turns_per_size
    turns = per_size * (goal.size - start)
    return turns, (
        f"EN size {start} to {goal.size}, {written_turns(per_size)} full turns a size: {_times(turns)}.",
    )


def _says_nothing_of_turns(sheet: Sheet) -> bool:
    return sheet.turns_per_size is None and not sheet.spring_settings


def _silent(sheet: Sheet) -> NoAnswer:
    return NoAnswer(
        f"The sheet {sheet.sheet} does not say how many turns make a size: read the maker's"
        " sheet or the label."
    )


def _presets(sheet: Sheet, mount: str | None) -> Iterator[str]:
    """How the arm is preset, which goes with the spring's setting."""
    for one in sheet.mounts:
        if one.mount == mount and one.preset != NO_PRESET:
            yield f"Preset of the arm on a {MOUNT_WORDS[one.mount]}, by the sheet: {one.preset}"


def _times(turns: Fraction) -> str:
    """Turns and which way, as “2 1/2 full turns stronger”."""
    if not turns:
        return "no turn"
    full = "full turn" if abs(turns) <= 1 else "full turns"
    return f"{written_turns(abs(turns))} {full} {'stronger' if turns > 0 else 'weaker'}"


def _which_way(sheet: Sheet, direction: str) -> str:
    screw = next((one for one in sheet.screws if one.name == "spring"), None)
    turn = None if screw is None else _turn(screw, direction)
    if turn is None:
        return "The label on the body says which way is stronger; never assume it for the spring."
    return f"By the sheet, {turn} is {direction}; the label on the body decides."


def _turn(screw: Screw, direction: str) -> str | None:
    if screw.slower == "read the label" or direction == "none":
        return None
    if direction == "weaker":
        return screw.slower
    return "clockwise" if screw.slower == "anticlockwise" else "anticlockwise"


MOST_QUARTERS = 24_000
"""A sheet has turns below 1,000 in its form of writing, for one size or from the factory's setting."""


def _extent(inputs: Ranged, part: str) -> Extent:
    """Quarter turns by the sizes alone: a size takes one or more, as many as the sheet says."""
    start, end = (_sizes(inputs.get(name)) for name in ("from", "to"))
    if part != "quarter_turns":
        return Extent(None, None)
    if start is None or end is None:
        return Extent(0, MOST_QUARTERS)
    fewest = max(0, start[0] - end[1], end[0] - start[1])
    none = start[0] == start[1] == end[0] == end[1]
    return Extent(fewest, 0 if none else MOST_QUARTERS)


def _sizes(given: "RangedInput | None") -> tuple[int, int] | None:
    if isinstance(given, int):
        return given, given
    if isinstance(given, Extent) and isinstance(given.low, int) and isinstance(given.high, int):
        return given.low, given.high
    return None


COMPUTATION = Computation(
    name="spring-turns",
    about="Turns of the spring screw, from the factory's setting or from one EN size, to another.",
    inputs=(
        SHEET_INPUT,
        Input(
            "from",
            "count",
            False,
            "EN size it is set to; the factory's setting if left out",
            low=SIZES[0],
            high=SIZES[1],
        ),
        Input("to", "count", False, "EN size wanted", low=SIZES[0], high=SIZES[1]),
        replace(WIDTH_INPUT, required=False, about="width of the leaf, in place of to="),
        Input(
            "accessible",
            "yesno",
            False,
            "whether the door must open with little force, in place of to=",
        ),
        Input(
            "mount", "choice", False, "how the closer is mounted, if the sheet goes by it", MOUNTS
        ),
    ),
    output=Output("mapping", ("quarter_turns", "direction", "in_words"), counts=("quarter_turns",)),
    compute=_spring_turns,
    source="the maker's sheet, as its owner copied it",
    extent=_extent,
    example="sheet=generic-a from=3 to=4",
)
