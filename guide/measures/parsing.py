"""One measure read from what a person typed."""

from guide.measures.grammar import Reading, read
from guide.measures.quantity import Quantity
from guide.measures.refusing import RefusedError, example, refusal
from guide.measures.units import check_kind, check_system, home_unit


def parse(text: str, kind: str | None = None, system: str = "inch") -> Quantity:
    """The measure a person wrote, exactly, in the unit they wrote it in.

    `kind` is one of KINDS: a number without a unit then has the home unit of `system` ("inch" or
    "metric"). With None a unit must be written, and "lb" is a mass. Feet and inches come back in
    inches, minutes and seconds in seconds. MeasureError when the text is unclear, below zero or
    of another kind; ValueError when `kind` or `system` is not known.
    """
    check_asked(kind, system)
    try:
        return with_home_unit(read(text, kind, system), text, kind, system)
    except RefusedError as refused:
        raise refusal(
            text, refused, lambda idea: _readable(idea, kind, system), example(kind, system)
        ) from None


def check_asked(kind: str | None, system: str) -> None:
    """ValueError unless the kind (or None) and the system are known."""
    if kind is not None:
        check_kind(kind)
    check_system(system)


def with_home_unit(reading: Reading, text: str, kind: str | None, system: str) -> Quantity:
    """The measure read from `text`; a unit left out is the home unit of the kind.

    RefusedError when it was left out and the kind is None.
    """
    if reading.unit is not None:
        return Quantity(reading.magnitude, reading.unit)
    if kind is None:
        bare = " ".join(text.split())
        raise RefusedError("has no unit", f"{bare} in", f"{bare} mm")
    return Quantity(reading.magnitude, home_unit(kind, system))


def _readable(text: str, kind: str | None, system: str) -> bool:
    try:
        with_home_unit(read(text, kind, system), text, kind, system)
    except RefusedError:
        return False
    return True
