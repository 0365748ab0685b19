"""How an exact number is put in writing, so that reading it back gives the same number."""

from fractions import Fraction

FINEST_INCH = 1024
"""The largest power of two written below the line of an inch fraction."""

DECIMAL_PLACES = 12
"""The most decimal places written; a number that needs more is written as a fraction."""


def written(magnitude: Fraction, unit: str) -> str:
    """Exact writing of a number and its unit, as "35 7/8 in" or "911.225 mm"."""
    return f"{number(magnitude, inches=unit == 'in')} {unit}"


def number(magnitude: Fraction, *, inches: bool) -> str:
    """Exact writing of a number: for inches a mixed fraction where the rule has one.

    Otherwise a plain decimal when it ends within DECIMAL_PLACES, else a mixed fraction.
    """
    sign = "-" if magnitude < 0 else ""
    size = abs(magnitude)
    if inches and is_rule_fraction(size):
        return sign + _mixed(size)
    return sign + (_decimal(size) or _mixed(size))


def is_rule_fraction(magnitude: Fraction) -> bool:
    """Whether it falls on a halving of the inch down to 1/FINEST_INCH."""
    return FINEST_INCH % magnitude.denominator == 0


def _mixed(size: Fraction) -> str:
    whole, rest = divmod(size, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def _decimal(size: Fraction) -> str:
    """The plain decimal, or "" when it does not end within DECIMAL_PLACES."""
    if 10**DECIMAL_PLACES % size.denominator:
        return ""
    whole, rest = divmod(size, 1)
    places = f"{int(rest * 10**DECIMAL_PLACES):0{DECIMAL_PLACES}d}".rstrip("0")
    return f"{whole}.{places}" if places else str(whole)
