"""The most a door may take to open, by the rules that hold for it: what readings are held to, and tuning works to."""

from fractions import Fraction
from typing import NamedTuple

from guide.measures import Quantity


class ForceLimit(NamedTuple):
    """A limit, and where it comes from."""

    most: Quantity
    whence: str
    """Stands after the figure in a sentence."""


LIGHT = Quantity(Fraction(5), "lbf")
"""Most an interior door that is no fire door may take to open: 2010 ADA Standards 404.2.9."""
EXIT = Quantity(Fraction(15), "lbf")
"""Most to swing any other door fully open: IBC 1010 and NFPA 101, from memory; edition and authority decide."""
BRITISH = Quantity(Fraction(30), "N")
"""From 0 to 30 degrees, at the leading edge: BS 8300 and Approved Document M, read again in public summaries."""
GERMAN = Quantity(Fraction(25), "N")
"""To start it: DIN 18040, from memory."""
OWN_FORCE = Quantity(Fraction(67), "N")
"""Where no rule has a figure for such a door; about 15 lbf, common practice."""


def force_limit(code: str, *, fire: bool, exterior: bool) -> ForceLimit:
    """The limit by the rules of `code`, one of `CODES` of `rules`."""
    if code == "uk" and not fire:
        return ForceLimit(BRITISH, " to 30 degrees (BS 8300 and Approved Document M)")
    if code == "eu" and not fire:
        return ForceLimit(GERMAN, " to start it (DIN 18040, from memory; other countries differ)")
    if code in ("uk", "eu"):
        told = " (common practice; for a fire door agree it with building control)"
        return ForceLimit(OWN_FORCE, told)
    if code == "none":
        return ForceLimit(OWN_FORCE, " (common practice; no rules are set)")
    if fire or exterior:
        told = (
            " to swing it open (IBC 1010 and NFPA 101, from memory); the authority may ask for less"
        )
        return ForceLimit(EXIT, told)
    return ForceLimit(LIGHT, " (2010 ADA Standards 404.2.9)")
