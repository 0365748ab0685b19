"""`spring-turns`: how far to turn the spring screw from one EN size to another, by the sheet."""

from collections.abc import Mapping
from fractions import Fraction

from guide.trade.answer import Answer, NoAnswer
from guide.trade.computation import (
    Computation,
    Extent,
    Given,
    Input,
    Output,
    Ranged,
    RangedInput,
    needed,
)
from guide.trade.mounts import SIZES
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.parts import Screw
from guide.trade.sheet.sheet import Sheet


def _spring_turns(inputs: Mapping[str, Given]) -> Answer:
    sheet = needed(inputs, "sheet", Sheet)
    start = needed(inputs, "from", int)
    end = needed(inputs, "to", int)
    low, high = sheet.sizes
    if not sheet.adjustable:
        raise NoAnswer(
            f"The spring of {sheet.sheet} is fixed at EN size {low}: do not turn it, choose a"
            " closer of the size the leaf needs."
        )
    for size in (start, end):
        if not low <= size <= high:
            raise NoAnswer(
                f"{sheet.sheet} has EN sizes {low} to {high}, not {size}: do not turn the screw"
                " past its range, choose another closer."
            )
    if sheet.turns_per_size is None:
        raise NoAnswer(
            f"The sheet {sheet.sheet} does not say how many turns make a size: read the maker's"
            " sheet or the label."
        )
    turns = sheet.turns_per_size * abs(end - start)
    direction = "stronger" if end > start else "weaker" if end < start else "none"
    return Answer(
        {"quarter_turns": int(turns * 4), "direction": direction},
        (_working(sheet.turns_per_size, turns, start, end, direction),),
        (_which_way(sheet, direction), "Stop where the screw turns stiff, whatever the count."),
    )


def _working(per_size: Fraction, turns: Fraction, start: int, end: int, direction: str) -> str:
    if direction == "none":
        return f"The spring is at EN size {start} already: leave the screw alone."
    return (
        f"EN size {start} to {end}, {_mixed(per_size)} full turns a size:"
        f" {_mixed(turns)} full turns {direction}."
    )


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


def _mixed(turns: Fraction) -> str:
    whole, rest = divmod(turns, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def _extent(inputs: Ranged, part: str) -> Extent:
    """Quarter turns by the sizes alone: a size takes one or more, as many as the sheet says."""
    start, end = (_sizes(inputs.get(name)) for name in ("from", "to"))
    if part != "quarter_turns" or start is None or end is None:
        return Extent(None, None)
    fewest = max(0, start[0] - end[1], end[0] - start[1])
    none = start[0] == start[1] == end[0] == end[1]
    return Extent(fewest, 0 if none else None)


def _sizes(given: "RangedInput | None") -> tuple[int, int] | None:
    if isinstance(given, int):
        return given, given
    if isinstance(given, Extent) and isinstance(given.low, int) and isinstance(given.high, int):
        return given.low, given.high
    return None


COMPUTATION = Computation(
    name="spring-turns",
    about="Turns of the spring screw from one EN size to another.",
    inputs=(
        SHEET_INPUT,
        Input("from", "count", True, "EN size it is set to", low=SIZES[0], high=SIZES[1]),
        Input("to", "count", True, "EN size wanted", low=SIZES[0], high=SIZES[1]),
    ),
    output=Output("mapping", ("quarter_turns", "direction"), counts=("quarter_turns",)),
    compute=_spring_turns,
    source="the maker's sheet, as its owner copied it",
    extent=_extent,
)
