"""A measure for a person to read, in the units they work in, and for a program, as JSON."""

from fractions import Fraction

from guide.measures.numerals import FINEST_INCH, number
from guide.measures.quantity import Quantity
from guide.measures.steps import nearest
from guide.measures.units import check_system, home_unit, unit_named
from guide.measures.writing import write

# Our own choice: what a tape, a push gauge or a stopwatch at a door can tell apart.
_STEPS: dict[str, Fraction] = {
    "in": Fraction(1, 16),
    "mm": Fraction(1),
    "deg": Fraction(1, 10),
    "lbf": Fraction(1, 2),
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
    if that changed the value. A fraction no person could use, of a denominator above 1024, is
    rounded in the same way. ValueError for another system, TypeError for a step of another kind.
    """
    check_system(system)
    if system in unit_named(q.unit).systems and not _beyond_reading(q):
        return write(q)
    home = home_unit(q.kind, system)
    rounded = nearest(q, step or Quantity(_STEPS[home], home)).to(home)
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
    inches = q.unit == "in"
    return q.magnitude.denominator > FINEST_INCH and "/" in number(q.magnitude, inches=inches)
