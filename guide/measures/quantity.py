"""A measure: an exact number and its unit."""

from dataclasses import dataclass
from fractions import Fraction

from guide.measures.numerals import written
from guide.measures.units import unit_named


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """A measure as it was given, compared by what it amounts to: 36 in == 3 ft == 914.4 mm.

    `magnitude` is exact (an int is taken as a Fraction; a float is a TypeError) and may be below
    zero, as a difference can be. `unit` is a symbol from `units_of`; any other is a MeasureError.
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
