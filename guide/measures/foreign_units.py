"""Units that people write and that are not used here: what they are, so that a refusal can convert them exactly.

A number is offered in place of one in such a unit only with the right factor. What two units share, such as the
short ton and the long one, or mPa and MPa once letters are made small, has no factor, and no number is offered.

Sizes: NIST SP 811, appendix B; the prefixes are those of the SI.
"""

from fractions import Fraction
from typing import NamedTuple

from guide.measures.quantity import DECIMAL_PLACES, Quantity, number
from guide.measures.units import home_unit, unit_named

_INCHES_PER_METRE = 1 / Fraction("0.0254")
_KG_PER_LB = Fraction("0.45359237")
_GRAVITY = Fraction("9.80665")
_NEWTONS_PER_LBF = _KG_PER_LB * _GRAVITY
_METRES_PER_INCH = Fraction("0.0254")
_PI = Fraction("3.14159265358979323846")


class ForeignUnit(NamedTuple):
    """A unit that is known and not used here."""

    kind: str
    size: Fraction | None
    """How many of the kind's base unit make one of it; None where two units are written alike."""


_PREFIXES: dict[str, tuple[str, int]] = {
    "kilo": ("k", 3),
    "hecto": ("h", 2),
    "deca": ("da", 1),
    "deci": ("d", -1),
    "centi": ("c", -2),
    "milli": ("m", -3),
    "micro": ("u", -6),
    "mega": ("", 6),
}
"""Each with its sign; that of mega is the sign of milli once letters are made small."""

_STEMS: dict[str, tuple[str, Fraction, str, tuple[str, ...]]] = {
    "length": ("m", _INCHES_PER_METRE, "m", ("metre", "meter")),
    "force": ("N", Fraction(1), "n", ("newton",)),
    "pressure": ("Pa", Fraction(1), "pa", ("pascal",)),
    "time": ("s", Fraction(1), "s", ("second",)),
    "mass": ("kg", Fraction(1, 1000), "g", ("gram", "gramme")),
}

_OTHERS: dict[tuple[str, ...], ForeignUnit] = {
    ("yd", "yds", "yard", "yards"): ForeignUnit("length", Fraction(36)),
    ("mi", "mile", "miles"): ForeignUnit("length", Fraction(63360)),
    ("mil", "mils", "thou"): ForeignUnit("length", Fraction(1, 1000)),
    ("micron", "microns"): ForeignUnit("length", _INCHES_PER_METRE / 10**6),
    ("rad", "rads", "radian", "radians"): ForeignUnit("angle", 180 / _PI),
    ("mrad",): ForeignUnit("angle", 180 / _PI / 1000),
    ("gon", "gons", "grad", "grads", "gradian", "gradians"): ForeignUnit("angle", Fraction(9, 10)),
    ("turn", "turns", "rev", "revs", "revolution", "revolutions"): ForeignUnit(
        "angle", Fraction(360)
    ),
    ("ozf", "ounce force", "ounces force"): ForeignUnit("force", _NEWTONS_PER_LBF / 16),
    ("kgf", "kg f", "kp", "kilopond", "kiloponds"): ForeignUnit("force", _GRAVITY),
    ("gf", "g f"): ForeignUnit("force", _GRAVITY / 1000),
    ("kip", "kips"): ForeignUnit("force", _NEWTONS_PER_LBF * 1000),
    ("mn",): ForeignUnit("force", None),
    ("h", "hr", "hrs", "hour", "hours"): ForeignUnit("time", Fraction(3600)),
    ("d", "day", "days"): ForeignUnit("time", Fraction(86400)),
    ("oz", "ounce", "ounces"): ForeignUnit("mass", _KG_PER_LB / 16),
    ("g",): ForeignUnit("mass", Fraction(1, 1000)),
    ("gram", "grams", "gramme", "grammes"): ForeignUnit("mass", Fraction(1, 1000)),
    ("st", "stone", "stones"): ForeignUnit("mass", _KG_PER_LB * 14),
    ("t", "tonne", "tonnes"): ForeignUnit("mass", Fraction(1000)),
    ("ton", "tons", "cwt", "hundredweight"): ForeignUnit("mass", None),
    ("psi", "lbf in2"): ForeignUnit("pressure", _NEWTONS_PER_LBF / _METRES_PER_INCH**2),
    ("ksi",): ForeignUnit("pressure", 1000 * _NEWTONS_PER_LBF / _METRES_PER_INCH**2),
    ("psf",): ForeignUnit("pressure", _NEWTONS_PER_LBF / _METRES_PER_INCH**2 / 144),
    ("bar", "bars"): ForeignUnit("pressure", Fraction(100_000)),
    ("mbar", "mbars", "millibar", "millibars"): ForeignUnit("pressure", Fraction(100)),
    ("mpa",): ForeignUnit("pressure", None),
    ("atm", "atmosphere", "atmospheres"): ForeignUnit("pressure", Fraction(101_325)),
    ("torr",): ForeignUnit("pressure", Fraction(101_325, 760)),
    ("mmhg", "mm hg"): ForeignUnit("pressure", Fraction("133.322")),
    ("inhg", "in hg"): ForeignUnit("pressure", Fraction("3386.389")),
    ("mmwater", "mm water", "mmwc", "mm wc", "mmwg", "mm wg", "mm of water"): ForeignUnit(
        "pressure", Fraction("9.80665")
    ),
    ("cmwater", "cm water", "cmwc", "cm wc"): ForeignUnit("pressure", Fraction("98.0665")),
    (
        "lbf in",
        "in lbf",
        "lb in",
        "in lb",
        "lbs in",
        "in lbs",
        "inch pound",
        "inch pounds",
        "pound inch",
        "pound inches",
    ): ForeignUnit("moment", _NEWTONS_PER_LBF * _METRES_PER_INCH),
    ("oz in", "in oz", "ozf in", "inch ounces"): ForeignUnit(
        "moment", _NEWTONS_PER_LBF * _METRES_PER_INCH / 16
    ),
    ("kgf m", "kg m", "kpm"): ForeignUnit("moment", _GRAVITY),
    ("kgf cm", "kg cm"): ForeignUnit("moment", _GRAVITY / 100),
    ("n cm", "ncm"): ForeignUnit("moment", Fraction(1, 100)),
    ("n mm", "nmm"): ForeignUnit("moment", Fraction(1, 1000)),
    ("kn m", "knm"): ForeignUnit("moment", Fraction(1000)),
}


def _with_prefixes() -> dict[str, ForeignUnit]:
    """Every prefix before every stem, as a word and as a sign."""
    found: dict[str, ForeignUnit] = {}
    for kind, (_, base, sign, words) in _STEMS.items():
        for prefix, (short, power) in _PREFIXES.items():
            unit = ForeignUnit(kind, base * Fraction(10) ** power)
            for word in words:
                found |= {f"{prefix}{word}": unit, f"{prefix}{word}s": unit}
            if short:
                found[f"{short}{sign}"] = unit
    return found


_KNOWN: dict[str, ForeignUnit] = _with_prefixes() | {
    spelling: unit for spellings, unit in _OTHERS.items() for spelling in spellings
}


def foreign_unit(spelling: str) -> ForeignUnit | None:
    """The unit of this spelling (small letters, words separated by one space); None if it is not known here."""
    return _KNOWN.get(spelling)


def foreign_spellings() -> tuple[str, ...]:
    """Every spelling known, in a fixed order."""
    return tuple(_KNOWN)


def converted(magnitude: Fraction, unit: ForeignUnit, system: str) -> tuple[Quantity, bool] | None:
    """What a number of a foreign unit comes to in the home unit of `system`, and whether that is exact.

    Rounded to about three figures, and never coarser than the home unit is measured. None where the unit has no one
    size, or where the number is too small or too large to be written.
    """
    if unit.size is None or magnitude <= 0:
        return None
    home = home_unit(unit.kind, system)
    exact = magnitude * unit.size / unit_named(home).size
    step = _step(exact, inches=home == "in")
    if exact >= 10**DECIMAL_PLACES or step < Fraction(1, 10 ** (DECIMAL_PLACES - 1)):
        return None
    near = round(exact / step) * step
    return Quantity(near, home), near == exact


def _step(exact: Fraction, *, inches: bool) -> Fraction:
    """A step of at most 1/200 of the number: decimal, or of inches a halving of 1/16 as far as a rule has lines."""
    step = Fraction(1, 16) if inches else Fraction(1)
    if inches:
        while step * 200 > exact and step > Fraction(1, 64):
            step /= 2
        if step * 200 <= exact:
            return step
        step = Fraction(1, 1000)
    while step * 200 > exact and step > Fraction(1, 10 ** (DECIMAL_PLACES - 1)):
        step /= 10
    return step if step * 200 <= exact else Fraction(1, 10**DECIMAL_PLACES)


def about_written(near: Quantity, *, exactly: bool) -> str:
    """`about 11.1 inH2O`, or without "about" where nothing was rounded."""
    shown = f"{number(near.magnitude, inches=near.unit == 'in')} {near.unit}"
    return shown if exactly else f"about {shown}"
