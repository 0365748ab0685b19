"""What people write for a measure at a door, and what it is read as."""

from fractions import Fraction

import pytest

from guide.measures import Quantity, parse

# (typed, kind expected, system worked in) -> exact magnitude, unit
LENGTHS = [
    # a leaf 35 7/8 in wide, a 36 in opening less its gaps
    ("35 7/8", "length", "inch", "287/8", "in"),
    ("35-7/8", "length", "inch", "287/8", "in"),
    ('35-7/8"', "length", "inch", "287/8", "in"),
    ('35 7/8"', None, "inch", "287/8", "in"),
    ("35 7/8 in", None, "inch", "287/8", "in"),
    ("35 7/8in", None, "metric", "287/8", "in"),
    ("35 7/8 in.", None, "inch", "287/8", "in"),
    ("  35   7/8  inches ", None, "inch", "287/8", "in"),
    ("35.875", "length", "inch", "287/8", "in"),
    ("35.875 inch", None, "inch", "287/8", "in"),
    ("35⅞", "length", "inch", "287/8", "in"),
    ("35 ⅞", "length", "inch", "287/8", "in"),
    ("35-⅞″", None, "inch", "287/8", "in"),
    ("35 7⁄8 in", None, "inch", "287/8", "in"),
    ("35\u00a07/8\u2009in", None, "inch", "287/8", "in"),
    ("35 7/8”", None, "inch", "287/8", "in"),
    ("35 7/8''", None, "inch", "287/8", "in"),
    ("35‑7/8", "length", "inch", "287/8", "in"),
    # the same leaf in feet and inches
    ("2'-11 7/8\"", "length", "inch", "287/8", "in"),
    ("2' 11-7/8\"", "length", "inch", "287/8", "in"),
    ("2' - 11 7/8\"", None, "inch", "287/8", "in"),
    ("2′ 11⅞″", None, "inch", "287/8", "in"),
    ("2’-11 7/8”", None, "inch", "287/8", "in"),
    ("2 ft 11 7/8 in", None, "inch", "287/8", "in"),
    ("2ft11 7/8in", None, "inch", "287/8", "in"),
    ("2 feet 11.875 inches", None, "inch", "287/8", "in"),
    ("2' 11 7/8", "length", "inch", "287/8", "in"),
    ("2 FT 11 7/8 IN", None, "inch", "287/8", "in"),
    # leaf heights, holes, gaps
    ("3'", "length", "inch", "3", "ft"),
    ("3' 0\"", "length", "inch", "36", "in"),
    ("6 ft 8 in", "length", "inch", "80", "in"),
    ("2 1/2 ft", "length", "inch", "5/2", "ft"),
    (".875", "length", "inch", "7/8", "in"),
    ("7/8", "length", "inch", "7/8", "in"),
    ("½ in", None, "inch", "1/2", "in"),
    ("1/3 mm", None, "inch", "1/3", "mm"),
    ("0", "length", "inch", "0", "in"),
    # metric leaves
    ("911mm", "length", "metric", "911", "mm"),
    ("911", "length", "metric", "911", "mm"),
    ("911 mm", "length", "inch", "911", "mm"),
    ("911 millimetres", None, "metric", "911", "mm"),
    ("911 millimeters", None, "metric", "911", "mm"),
    ("91.1 cm", None, "metric", "911/10", "cm"),
    ("91,1 cm", None, "metric", "911/10", "cm"),
    ("1,5 cm", "length", "metric", "3/2", "cm"),
    ("0,9110 m", "length", "metric", "911/1000", "m"),
    ("2.1 metres", None, "metric", "21/10", "m"),
]
ANGLES = [
    ("90 deg", "angle", "inch", "90", "deg"),
    ("90°", None, "inch", "90", "deg"),
    ("12", "angle", "metric", "12", "deg"),
    ("12.5 degrees", None, "metric", "25/2", "deg"),
]
FORCES = [
    ("22 N", "force", "inch", "22", "N"),
    ("22 newtons", None, "inch", "22", "N"),
    ("5 lbf", None, "inch", "5", "lbf"),
    ("5 lb", "force", "inch", "5", "lbf"),
    ("5 pounds", "force", "metric", "5", "lbf"),
    ("5 pounds-force", None, "inch", "5", "lbf"),
    ("8 1/2", "force", "inch", "17/2", "lbf"),
    ("22,2", "force", "metric", "111/5", "N"),
]
TIMES = [
    ("5.5 s", "time", "inch", "11/2", "s"),
    ("5", "time", "inch", "5", "s"),
    ("7 secs", None, "inch", "7", "s"),
    ("1 min 5 s", "time", "metric", "65", "s"),
    ("1 minute 5 seconds", None, "metric", "65", "s"),
    ("1 min 5", "time", "inch", "65", "s"),
    ("2 min", "time", "inch", "2", "min"),
]
MASSES = [
    ("110 lb", "mass", "inch", "110", "lb"),
    ("110 lb", None, "inch", "110", "lb"),
    ("110 pounds", None, "inch", "110", "lb"),
    ("50 kg", "mass", "inch", "50", "kg"),
    ("50kgs", None, "metric", "50", "kg"),
]
PRESSURES = [
    ("0.05 inH2O", "pressure", "inch", "1/20", "inH2O"),
    ("0.05 in H₂O", None, "inch", "1/20", "inH2O"),
    ("0.05 in. w.g.", None, "inch", "1/20", "inH2O"),
    ("0.05 in wg", None, "inch", "1/20", "inH2O"),
    ("0.05 inwc", None, "inch", "1/20", "inH2O"),
    ('0.05" w.g.', "pressure", "inch", "1/20", "inH2O"),
    ("0.05 inches of water", None, "inch", "1/20", "inH2O"),
    ("12 Pa", "pressure", "inch", "12", "Pa"),
    ("12", "pressure", "metric", "12", "Pa"),
]
MOMENTS = [
    ("18 lbf ft", "moment", "inch", "18", "lbf ft"),
    ("18 ft-lb", "moment", "inch", "18", "lbf ft"),
    ("18 foot-pounds", None, "inch", "18", "lbf ft"),
    ("24 N m", "moment", "metric", "24", "N m"),
    ("24 Nm", None, "inch", "24", "N m"),
    ("24 N·m", None, "inch", "24", "N m"),
]


@pytest.mark.parametrize(
    ("typed", "kind", "system", "magnitude", "unit"),
    LENGTHS + ANGLES + FORCES + TIMES + MASSES + PRESSURES + MOMENTS,
)
def test_reads_exactly_what_was_written(
    typed: str, kind: str | None, system: str, magnitude: str, unit: str
) -> None:
    """The number is exact and the unit is the one written, or the home unit of a bare number."""
    read = parse(typed, kind, system)
    assert (read.magnitude, read.unit) == (Fraction(magnitude), unit)


def test_a_pound_is_a_force_or_a_mass_as_expected() -> None:
    """People say pounds for both; the question asked decides."""
    assert parse("5 lb", "force") == Quantity(Fraction(5), "lbf")
    assert parse("5 lb", "mass") == Quantity(Fraction(5), "lb")
    assert parse("5 lb", "force") != parse("5 lb", "mass")
