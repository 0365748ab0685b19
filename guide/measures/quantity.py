"""A measure: an exact number and its unit, and its exact writing.

Parsing the writing back gives the same number.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from guide.measures.units import unit_named

FINEST_INCH = 1024
"""The largest denominator of an inch fraction in writing; a power of two."""

DECIMAL_PLACES = 12
"""The most decimal places written; a number that needs more is written as a fraction."""


@lru_cache(maxsize=4096)
def written(magnitude: Fraction, unit: str) -> str:
    """Exact writing of a number and its unit, such as "35 7/8 in" or "911.225 mm".

    Kept, because a run writes the same few measures again at every step, as the inputs of what it works out.
    """
    return f"{number(magnitude, inches=unit == 'in')} {unit}"


def number(magnitude: Fraction, *, inches: bool) -> str:
    """Exact writing of a number: for inches a mixed fraction, if an inch rule has a line for it.

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


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """A measure as it was given, compared by its value: 36 in == 3 ft == 914.4 mm.

    `magnitude` is exact (an int becomes a Fraction; a float is a TypeError) and may be below
    zero, because a difference can be. `unit` is a symbol from `units_of`; any other is a MeasureError.
    """

    magnitude: Fraction
    unit: str

    def __post_init__(self) -> None:
        unit_named(self.unit)
        if isinstance(self.magnitude, int):
            object.__setattr__(self, "magnitude", Fraction(self.magnitude))
        elif not isinstance(self.magnitude, Fraction):
            raise TypeError(
                f"A magnitude is an exact Fraction, not the {type(self.magnitude).__name__} "
                f"{self.magnitude!r}; round it to a step and give a Fraction."
            )

    @property
    def kind(self) -> str:
        """What it measures; one of KINDS."""
        return unit_named(self.unit).kind

    @property
    def base(self) -> Fraction:
        """Its value in the kind's base unit: in, deg, N, s, kg, Pa or N m; exact."""
        size = unit_named(self.unit).size
        return self.magnitude if size == 1 else self.magnitude * size

    def to(self, unit: str) -> "Quantity":
        """The same measure in another unit of its kind, exactly; TypeError for another kind."""
        target = unit_named(unit)
        if target.kind != self.kind:
            raise TypeError(
                f"{self} is a measure of {self.kind} and cannot be turned into {unit}, "
                f"a unit of {target.kind}."
            )
        return Quantity(self.base / target.size, unit)

    def __str__(self) -> str:
        return written(self.magnitude, self.unit)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        return self.kind == other.kind and self.base == other.base

    def __hash__(self) -> int:
        return hash((self.kind, self.base))

    def __lt__(self, other: "Quantity") -> bool:
        return self.base < self._comparable(other)

    def __le__(self, other: "Quantity") -> bool:
        return self.base <= self._comparable(other)

    def __gt__(self, other: "Quantity") -> bool:
        return self.base > self._comparable(other)

    def __ge__(self, other: "Quantity") -> bool:
        return self.base >= self._comparable(other)

    def _comparable(self, other: object) -> Fraction:
        if not isinstance(other, Quantity):
            raise TypeError(f"{self} can be compared only with another measure, not {other!r}.")
        if other.kind != self.kind:
            raise TypeError(
                f"{self} is a measure of {self.kind} and {other} one of {other.kind}, "
                "so neither is the greater."
            )
        return other.base


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
