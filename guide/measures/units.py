"""The units known here: their symbols, kinds and exact sizes.

Sizes follow the exact definitions of NIST SP 811, Guide for the Use of the International
System of Units, appendix B: 1 in = 25.4 mm; 1 lb = 0.453 592 37 kg; standard gravity
9.806 65 m/s2, so 1 lbf = 4.448 221 615 260 5 N; conventional inch of water = 25.4 mm of water of
1000 kg/m3 under standard gravity = 249.088 91 Pa (SP 811 prints it rounded, 2.490 889 E+02).
"""

from fractions import Fraction
from typing import NamedTuple

from guide.measures.errors import MeasureError


class Unit(NamedTuple):
    """One unit of measure."""

    symbol: str
    """As written after a number."""
    kind: str
    """One of KINDS."""
    size: Fraction
    """How many of the kind's base unit make one of this unit; exact."""
    systems: tuple[str, ...]
    """The systems ("inch", "metric") whose users expect to see this unit."""


_INCH = ("inch",)
_METRIC = ("metric",)
_BOTH = ("inch", "metric")

_NEWTONS_PER_LBF = Fraction("0.45359237") * Fraction("9.80665")
_METRES_PER_FOOT = Fraction("0.3048")

UNITS: dict[str, Unit] = {
    unit.symbol: unit
    for unit in (
        # base unit in: inches
        Unit("in", "length", Fraction(1), _INCH),
        Unit("ft", "length", Fraction(12), _INCH),
        Unit("mm", "length", 1 / Fraction("25.4"), _METRIC),
        Unit("cm", "length", 1 / Fraction("2.54"), _METRIC),
        Unit("m", "length", 1 / Fraction("0.0254"), _METRIC),
        # base unit deg: degrees of arc
        Unit("deg", "angle", Fraction(1), _BOTH),
        # base unit N: newtons
        Unit("lbf", "force", _NEWTONS_PER_LBF, _INCH),
        Unit("N", "force", Fraction(1), _METRIC),
        # base unit s: seconds
        Unit("s", "time", Fraction(1), _BOTH),
        Unit("min", "time", Fraction(60), _BOTH),
        # base unit kg: kilograms
        Unit("lb", "mass", Fraction("0.45359237"), _INCH),
        Unit("kg", "mass", Fraction(1), _METRIC),
        # base unit Pa: pascals
        Unit("inH2O", "pressure", Fraction("249.08891"), _INCH),
        Unit("Pa", "pressure", Fraction(1), _METRIC),
        # base unit N m: newton metres
        Unit("lbf ft", "moment", _NEWTONS_PER_LBF * _METRES_PER_FOOT, _INCH),
        Unit("N m", "moment", Fraction(1), _METRIC),
    )
}
"""Every unit by its symbol."""

KINDS: tuple[str, ...] = tuple(dict.fromkeys(unit.kind for unit in UNITS.values()))
"""What can be measured here, in a fixed order."""

SYSTEMS: tuple[str, ...] = ("inch", "metric")
"""The two systems a person can choose to work in."""

_HOME: dict[tuple[str, str], str] = {
    ("length", "inch"): "in",
    ("length", "metric"): "mm",
    ("angle", "inch"): "deg",
    ("angle", "metric"): "deg",
    ("force", "inch"): "lbf",
    ("force", "metric"): "N",
    ("time", "inch"): "s",
    ("time", "metric"): "s",
    ("mass", "inch"): "lb",
    ("mass", "metric"): "kg",
    ("pressure", "inch"): "inH2O",
    ("pressure", "metric"): "Pa",
    ("moment", "inch"): "lbf ft",
    ("moment", "metric"): "N m",
}


def unit_named(symbol: str) -> Unit:
    """The unit with exactly this symbol; MeasureError when there is none."""
    if symbol not in UNITS:
        raise MeasureError(
            f"“{symbol}” is not a unit known here; the units are {', '.join(UNITS)}.",
            tuple(UNITS),
        )
    return UNITS[symbol]


def units_of(kind: str) -> tuple[str, ...]:
    """The symbols of every unit of a kind; ValueError when the kind is not one of KINDS."""
    check_kind(kind)
    return tuple(unit.symbol for unit in UNITS.values() if unit.kind == kind)


def home_unit(kind: str, system: str) -> str:
    """The unit a bare number of this kind has, for a person working in this system.

    ValueError when the kind is not one of KINDS or the system is not "inch" or "metric".
    """
    check_kind(kind)
    check_system(system)
    return _HOME[kind, system]


def check_kind(kind: str) -> None:
    """ValueError unless the kind is one of KINDS."""
    if kind not in KINDS:
        raise ValueError(f"“{kind}” is not a kind of measure; the kinds are {', '.join(KINDS)}.")


def check_system(system: str) -> None:
    """ValueError unless the system is "inch" or "metric"."""
    if system not in SYSTEMS:
        raise ValueError(f"“{system}” is not a system of units; write inch or metric.")
