"""Parse a range of measures as a person types it."""

import re
from collections.abc import Callable

from guide.measures.errors import RefusedError, example, refusal
from guide.measures.parsing import ParsedMeasure, check_asked, read, with_home_unit
from guide.measures.quantity import Quantity

_LONGEST = 240
"""Characters."""

_TO = re.compile(r" to | ?– ?", re.IGNORECASE)


def parse_range(text: str, kind: str | None, system: str = "inch") -> tuple[Quantity, Quantity]:
    """The lowest and highest measure of a range such as "8 to 36 in", ends included.

    A lowest measure without a unit has that of the highest; the rest is as for `parse`.
    MeasureError also when it is not two measures, when only the first has a unit, or when the
    first is the greater. ValueError when `kind` or `system` is not known.
    """
    check_asked(kind, system)
    try:
        return _range(text, kind, system)
    except RefusedError as refused:
        otherwise = f"0 to {example(kind, system)}"
        raise refusal(
            text, refused, lambda idea: _readable(idea, kind, system), otherwise
        ) from None


def _range(text: str, kind: str | None, system: str) -> tuple[Quantity, Quantity]:
    if len(text) > _LONGEST:
        raise RefusedError(f"is longer than {_LONGEST} characters")
    text = " ".join(text.split())
    ends = _TO.split(text)
    if len(ends) != 2:
        raise RefusedError("is not a range from one measure to another")
    first, second = ends
    lowest = _end(first, kind, system, lambda idea: f"{idea} to {second}")
    highest = _end(second, kind, system, lambda idea: f"{first} to {idea}")
    if highest.unit is None and lowest.unit is not None:
        raise RefusedError("has a unit in its first measure only", f"{text} {lowest.unit}")
    high = with_home_unit(highest, second, kind, system)
    low = Quantity(lowest.magnitude, lowest.unit or high.unit)
    if low.kind != high.kind:
        raise RefusedError(f"runs from a {low.kind} to a {high.kind}")
    if low > high:
        raise RefusedError("has its greater measure first", f"{high} to {low}")
    return low, high


def _end(text: str, kind: str | None, system: str, in_range: Callable[[str], str]) -> ParsedMeasure:
    """One end; a suggestion for it is made as a whole range."""
    try:
        return read(text, kind, system)
    except RefusedError as refused:
        raise RefusedError(refused.why, *map(in_range, refused.ideas)) from None


def _readable(text: str, kind: str | None, system: str) -> bool:
    try:
        _range(text, kind, system)
    except RefusedError:
        return False
    return True
