"""Measures as people at a door write them: read, compared, converted and written exactly.

Every magnitude is a `fractions.Fraction`, so 35 7/8 in stays 35 7/8 in through any conversion.
This part imports the standard library and `guide.text` only; every other part may import it.
"""

from guide.measures.errors import MeasureError
from guide.measures.in_text import in_units, shown_in, with_quantities, without_braces
from guide.measures.parsing import parse
from guide.measures.quantity import Quantity, write
from guide.measures.ranges import parse_range
from guide.measures.showing import freed, held, misread, nearest, on_step, show, to_json
from guide.measures.units import KINDS, home_unit, units_of

__all__ = [
    "KINDS",
    "MeasureError",
    "Quantity",
    "freed",
    "held",
    "home_unit",
    "in_units",
    "misread",
    "nearest",
    "on_step",
    "parse",
    "parse_range",
    "show",
    "shown_in",
    "to_json",
    "units_of",
    "with_quantities",
    "without_braces",
    "write",
]
