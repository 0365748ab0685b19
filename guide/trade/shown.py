"""Computed numbers as they are written for a fitter: in one system of units, and no finer than can be measured.

What is computed stays exact in the answer's value; only the words are rounded.
"""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, home_unit, nearest, write
from guide.measures.units import unit_named
from guide.trade.computation import Given

_FINEST: dict[str, Fraction] = {
    "in": Fraction(1, 32),
    "ft": Fraction(1, 100),
    "mm": Fraction(1, 2),
    "cm": Fraction(1, 10),
    "m": Fraction(1, 100),
    "deg": Fraction(1, 10),
    "lbf": Fraction(1, 10),
    "N": Fraction(1),
    "s": Fraction(1, 10),
    "min": Fraction(1, 10),
    "lb": Fraction(1),
    "kg": Fraction(1),
    "inH2O": Fraction(1, 100),
    "Pa": Fraction(1),
    "lbf ft": Fraction(1, 10),
    "N m": Fraction(1, 10),
}
"""What a tape, a push gauge, a stopwatch or a scale at a door can tell apart. Our own choice."""
METRES_PER_INCH = 0.0254
_RULE = 64
"""An inch rule has lines for its halvings down to this one."""


def rounded(q: Quantity) -> str:
    """A measure in its own unit, rounded to what can be measured: 29 227/275 lbf is 29.8 lbf.

    What lies on a line of an inch rule is left as it is. A measure that rounding would make nothing of keeps two
    figures.
    """
    if q.unit == "in" and _RULE % q.magnitude.denominator == 0:
        return write(q)
    near = nearest(q, Quantity(_FINEST[q.unit], q.unit))
    if not near.magnitude and q.magnitude:
        return f"{float(q.magnitude):.2g} {q.unit}"
    return write(near)


def system_of(inputs: Mapping[str, Given]) -> str:
    """The system that the inputs speak (`spoken_system`); inch where nothing says."""
    return spoken_system(inputs) or "inch"


def spoken_system(inputs: Mapping[str, Given]) -> str:
    """That of `units`, of the first measure in a unit of one system, or of the sheet; empty where nothing says."""
    named = inputs.get("units")
    if isinstance(named, str):
        return named
    for value in inputs.values():
        if isinstance(value, Quantity) and len(unit_named(value.unit).systems) == 1:
            return unit_named(value.unit).systems[0]
    for value in inputs.values():
        if not isinstance(value, Quantity | str | int | float):
            return value.units
    return ""


def length(inches: float, system: str) -> str:
    """A computed length [in] in the units of `system`."""
    return _in_home(Fraction(inches), "in", system)


def moment(newton_metres: float, system: str) -> str:
    """A computed moment [N m] in the units of `system`."""
    return _in_home(Fraction(newton_metres), "N m", system)


def force(newtons: float, system: str) -> str:
    """A computed force [N] in the units of `system`."""
    return _in_home(Fraction(newtons), "N", system)


def speed(metres_a_second: float, system: str) -> str:
    """A speed [m/s], as far in a second."""
    if system == "metric":
        return f"{metres_a_second * 1000:.0f} mm a second"
    return f"{metres_a_second / METRES_PER_INCH:.0f} in a second"


def demanded(newton_metres: float, system: str) -> str:
    """A moment that EN 1154 demands [N m], in its own unit, and in that of `system` in brackets."""
    own = f"{newton_metres:g} N m"
    return own if system == "metric" else f"{own} ({moment(newton_metres, system)})"


def _in_home(value: Fraction, unit: str, system: str) -> str:
    q = Quantity(value, unit)
    return rounded(q.to(home_unit(q.kind, system)))
