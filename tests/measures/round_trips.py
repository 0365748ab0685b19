"""There and back: what is written of a measure and read again, by way of other units or feet."""

from fractions import Fraction

from guide.measures import KINDS, Quantity, parse, units_of, write

UNITS = [(kind, unit) for kind in KINDS for unit in units_of(kind)]


def comes_back_from_a_rule(sixty_fourths: int) -> bool:
    """Whether a length on a rule comes back: in inches, in feet, and by way of millimetres."""
    inches = Fraction(sixty_fourths, 64)
    length = Quantity(inches, "in")
    millimetres = length.to("mm")
    return (
        parse(write(length)) == parse(write(length, feet=True)) == length
        and millimetres.magnitude == inches * Fraction("25.4")
        and parse(write(millimetres)) == length
        and millimetres.to("in").magnitude == inches
    )


def comes_back(kind: str, unit: str, magnitude: Fraction) -> bool:
    """Whether number and unit both come back."""
    q = Quantity(magnitude, unit)
    read = parse(write(q), kind)
    return (read.magnitude, read.unit) == (magnitude, unit) and str(q) == write(q)


def comes_back_through_every_unit(kind: str, unit: str, magnitude: Fraction) -> bool:
    """Whether a conversion loses nothing, and the converted measure can be written and read too."""
    q = Quantity(magnitude, unit)
    every = [q.to(other) for other in units_of(kind)]
    return all(
        one == q and one.to(unit).magnitude == magnitude and parse(write(one), kind) == q
        for one in every
    )
