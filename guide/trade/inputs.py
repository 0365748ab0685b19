"""Inputs that several computations share, and the codes by whose rules a door is judged."""

from fractions import Fraction

from guide.measures import Quantity
from guide.trade.computation import Input

WIDTH_INPUT = Input(
    "width",
    "length",
    True,
    "width of the leaf",
    low=Quantity(Fraction(12), "in"),
    high=Quantity(Fraction(10), "ft"),
)

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


CODES = {
    "us": (
        "United States: 2010 ADA Standards; NFPA 80; International Building Code 1010 and NFPA 101 in outline, in the"
        " edition that is adopted"
    ),
    "uk": "United Kingdom: Approved Documents B and M, BS 8300-2 of 2018; EN 1154",
    "eu": "Europe: EN 1154 of 1996 with its amendment of 2002; for access DIN 18040 of Germany as a guide",
    "none": "the readings are not checked against rules",
}
"""What each setting means."""


USUAL_CODE = "us"


RULES_INPUT = Input(
    "rules",
    "choice",
    False,
    "whose rules; in a run those of the settings, else us",
    tuple(CODES),
)
