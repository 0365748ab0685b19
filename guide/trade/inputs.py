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
        "United States: 2010 ADA Standards; NFPA 80 and International Building Code 1010.1.3 in the editions of the"
        " settings; NFPA 101 in outline"
    ),
    "uk": "United Kingdom: Approved Documents B and M, BS 8300-2 of 2018; EN 1154",
    "eu": "Europe: EN 1154 of 1996 with its amendment of 2002; for access the French order of 1 August 2006 as a guide",
    "none": "the readings are not checked against rules",
}
"""What each setting means."""


USUAL_CODE = "us"

NFPA_80_EDITIONS = {
    "2010": "NFPA 80 up to its edition of 2013, to which some authorities still hold",
    "2016": "NFPA 80 from its edition of 2016",
}
"""The setting `nfpa_80`: what each choice means. The gaps of some wood leaves differ."""

IBC_EDITIONS = {
    "2018": "International Building Code up to its edition of 2018",
    "2021": "International Building Code from its edition of 2021, which limits how hard a lever turns",
}
"""The setting `ibc`: what each choice means."""

USUAL_NFPA_80, USUAL_IBC = "2016", "2021"

RULES_INPUT = Input(
    "rules",
    "choice",
    False,
    "whose rules; in a run those of the settings, else us",
    tuple(CODES),
)

NFPA_80_INPUT = Input(
    "nfpa_80",
    "choice",
    False,
    "edition of NFPA 80; in a run that of the settings, else 2016",
    tuple(NFPA_80_EDITIONS),
)

IBC_INPUT = Input(
    "ibc",
    "choice",
    False,
    "edition of the International Building Code; in a run that of the settings, else 2021",
    tuple(IBC_EDITIONS),
)
