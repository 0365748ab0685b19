"""A measure for a person to read, in the units they work in, and for a program, as JSON.

Also: rounding to equal steps such as every 1/16 in of a rule, a guess of a mistaken unit, and measures
that stay on one line in running text.
"""

import re
from fractions import Fraction
from math import floor

from guide.measures.quantity import FINEST_INCH, Quantity, number, write
from guide.measures.units import check_system, home_unit, unit_named, units_of


def nearest(q: Quantity, step: Quantity) -> Quantity:
    """The whole number of steps nearest to `q`, in the step's unit; half way goes up.

    TypeError when the two are of different kinds; ValueError unless the step is above zero.
    """
    count = floor(_steps(q.base, q, step) + Fraction(1, 2))
    return Quantity(count * step.magnitude, step.unit)


def on_step(q: Quantity, step: Quantity, origin: Quantity | None = None) -> bool:
    """Whether `q` lies a whole number of steps from `origin` (from zero when None).

    TypeError when the kinds differ; ValueError unless the step is above zero.
    """
    if origin is None:
        return _steps(q.base, q, step).denominator == 1
    if origin.kind != q.kind:
        raise TypeError(f"{q} and its origin {origin} are measures of different kinds.")
    return _steps(q.base - origin.base, q, step).denominator == 1


def _steps(distance: Fraction, q: Quantity, step: Quantity) -> Fraction:
    if step.kind != q.kind:
        raise TypeError(f"{q} is a measure of {q.kind} and has no step of {step}.")
    if step.magnitude <= 0:
        raise ValueError(f"A step is above zero, and {step} is not.")
    return distance / step.base


# Our own choice: what a tape, a push gauge or a stopwatch at a door can tell apart.
STEPS: dict[str, Fraction] = {
    "in": Fraction(1, 16),
    "mm": Fraction(1),
    "deg": Fraction(1, 10),
    "lbf": Fraction(1, 10),
    "N": Fraction(1),
    "s": Fraction(1, 10),
    "lb": Fraction(1),
    "kg": Fraction(1),
    "inH2O": Fraction(1, 100),
    "Pa": Fraction(1),
    "lbf ft": Fraction(1, 10),
    "N m": Fraction(1, 10),
}


def show(q: Quantity, system: str, step: Quantity | None = None) -> str:
    """The measure for a person who works in `system` ("inch" or "metric").

    In a unit of that system it is written exactly. Otherwise it is converted to the home unit and
    rounded to the nearest `step` (when None, a usual one for the unit), with "about " before it
    if that changed the value. A fraction no person could use, such as 29 227/275 lbf, is rounded in
    the same way. ValueError for another system, TypeError for a step of another kind.
    """
    check_system(system)
    if system in unit_named(q.unit).systems and not _beyond_reading(q):
        return write(q)
    home = home_unit(q.kind, system)
    rounded = nearest(q, step or Quantity(STEPS[home], home)).to(home)
    return write(rounded) if rounded == q else f"about {write(rounded)}"


def to_json(q: Quantity) -> dict[str, int | float | str]:
    """`{"magnitude", "unit", "text"}`: magnitude an int when whole, else the nearest float.

    "text" is the exact writing, for a reader that must not lose the fraction.
    """
    whole = q.magnitude.denominator == 1
    return {
        "magnitude": int(q.magnitude) if whole else float(q.magnitude),
        "unit": q.unit,
        "text": write(q),
    }


def _beyond_reading(q: Quantity) -> bool:
    """A fraction that nobody typed, such as 29 227/275 lbf; 1/3 in and 5 1/3 lbf may have been."""
    inches = q.unit == "in"
    finest = FINEST_INCH if inches else _FINEST_TYPED
    return q.magnitude.denominator > finest and "/" in number(q.magnitude, inches=inches)


_FINEST_TYPED = 16
"""The largest number below the line that people write of other units than inches."""


def misread(q: Quantity, usual: tuple[Quantity, Quantity]) -> Quantity | None:
    """The same number in another unit of its kind that would be usual, such as 3 ft for 3 in.

    `usual` is the lowest and highest usual measure, both included. Of several readings the one
    nearest to the middle is given. None when `q` is itself usual, or when no reading is.
    TypeError when `usual` is of another kind.
    """
    low, high = usual
    if low <= q <= high:
        return None
    others = (Quantity(q.magnitude, unit) for unit in units_of(q.kind) if _mistaken_for(q, unit))
    middle = (low.base + high.base) / 2
    return min(
        (other for other in others if low <= other <= high),
        key=lambda other: abs(other.base - middle),
        default=None,
    )


def _mistaken_for(q: Quantity, unit: str) -> bool:
    """Whether somebody may have meant that unit: a watch shows seconds, and no metric tape has eighths."""
    eighths = q.unit == "in" and q.magnitude.denominator in (4, 8, 16, 32, 64)
    return q.unit not in (unit, "s") and not (eighths and unit in ("mm", "cm", "m"))


_SPACE = "\u00a0"
"""A no-break space, in place of the spaces inside a measure; one column wide like a space."""

_INSIDE = re.compile(
    r"(?<=\d) (?=\d+/\d+)|(?<=\d) (?=(?:in|ft|mm|cm|m|deg|degrees|lbf|lb|N|kg|s|min)\b)"
    r"|(?<=\bNo\.) (?=\d)|(?<=\bsize) (?=\d)"
)


def held(text: str) -> str:
    """The text with each measure as one word, so that `1 1/2 in` is not broken over two lines, nor `No. 14`.

    "1" at the end of one line and "1/2 in" on the next is read as another measure. Use this before the text
    is wrapped at its spaces, and `freed` on each line afterwards.
    """
    return _INSIDE.sub(_SPACE, text)


def freed(line: str) -> str:
    """The line with plain spaces again: the inverse of `held`."""
    return line.replace(_SPACE, " ")
