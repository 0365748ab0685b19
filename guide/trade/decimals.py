"""Exact numbers as decimals for a sentence of working; the exact value stays in the answer."""

from fractions import Fraction


def decimal(value: Fraction, places: int) -> str:
    """`value` to at most `places` decimals, half way going to even, without trailing zeros."""
    digits = f"{float(round(value, places)):.{places}f}"
    return digits.rstrip("0").rstrip(".") if places else digits


def about(value: Fraction, places: int) -> str:
    """`decimal`, with "about " before it where the rounding changed the value."""
    shown = decimal(value, places)
    return shown if Fraction(shown) == value else f"about {shown}"


def exact(value: float) -> Fraction:
    """A number typed as a decimal, exactly as typed: 0.45 is 9/20."""
    return Fraction(repr(value))
