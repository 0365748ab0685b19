"""A measure in exact writing."""

from guide.measures.numerals import number
from guide.measures.quantity import Quantity


def write(q: Quantity, *, feet: bool = False) -> str:
    """Exact writing, the unit after a space: "35 7/8 in", "911.225 mm", "1/3 mm".

    With `feet`, a length is written as "2 ft 11 7/8 in" (whole feet, then inches under 12);
    TypeError when it is not a length. `parse` reads the same measure back, unless it is below
    zero, 10^12 units or more, or a fraction of more than 40 digits.
    """
    return _in_feet(q) if feet else str(q)


def _in_feet(q: Quantity) -> str:
    if q.kind != "length":
        raise TypeError(f"{q} is a measure of {q.kind}; only a length can be written in feet.")
    sign = "-" if q.base < 0 else ""
    whole, inches = divmod(abs(q.base), 12)
    parts = [f"{whole} ft"] if whole else []
    if inches or not whole:
        parts.append(f"{number(inches, inches=True)} in")
    return sign + " ".join(parts)
