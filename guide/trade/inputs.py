"""Inputs that several computations ask for in the same words."""

from fractions import Fraction

from guide.measures import Quantity
from guide.trade.computation import Input

HEIGHT_INPUT = Input(
    "height",
    "length",
    True,
    "height of the leaf",
    low=Quantity(Fraction(3), "ft"),
    high=Quantity(Fraction(16), "ft"),
)

THICKNESS_INPUT = Input(
    "thickness",
    "length",
    True,
    "thickness of the leaf",
    low=Quantity(Fraction(1), "in"),
    high=Quantity(Fraction(3), "in"),
)


def optional_length(name: str, about: str, low: Fraction, high: Fraction) -> Input:
    """A length that may be left out, within limits given in inches, ends included."""
    return Input(name, "length", False, about, low=Quantity(low, "in"), high=Quantity(high, "in"))
