"""EN 1154, controlled door closing devices, table 1: what each EN size must do.

The widths were read again in public summaries of the standard, and so were the closing moments from 0 to 4 degrees of
sizes 1 to 6 and the opening moment of size 3; the other moments and the efficiencies are from memory.
"""

from dataclasses import dataclass
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import NoAnswer

EN_1154_TABLE_1 = (
    (1, 750, 20),
    (2, 850, 40),
    (3, 950, 60),
    (4, 1100, 80),
    (5, 1250, 100),
    (6, 1400, 120),
    (7, 1600, 160),
)
"""EN size, widest leaf [mm, inclusive], mass of the test door [kg, inclusive]. EN 1154 table 1."""


@dataclass(frozen=True, slots=True)
class Demand:
    """One row of the table. Moments in N m at the hinge axis."""

    close_0_4_least: float
    """Closing, 0 to 4 deg, at least."""
    close_0_4_below: float
    """Closing, 0 to 4 deg, less than; the next size begins there."""
    close_88_92_least: float
    """Closing, 88 to 92 deg, at least."""
    close_other_least: float
    """Closing at any other opening, at least."""
    open_0_60_most: float
    """Opening, 0 to 60 deg, at most."""
    efficiency_least: float
    """Closing over opening, 0 to 1, at least."""


DEMANDS = {
    1: Demand(9, 13, 3, 2, 26, 0.50),
    2: Demand(13, 18, 4, 3, 36, 0.50),
    3: Demand(18, 26, 6, 4, 47, 0.55),
    4: Demand(26, 37, 9, 6, 62, 0.60),
    5: Demand(37, 54, 12, 8, 83, 0.65),
    6: Demand(54, 87, 18, 11, 134, 0.65),
    7: Demand(87, 140, 29, 18, 215, 0.65),
}
"""By EN size."""


def size_by_width(width: Quantity) -> int:
    """The smallest EN size for a leaf of that width [length]; NoAnswer past the table."""
    for size, widest_mm, _ in EN_1154_TABLE_1:
        if width <= Quantity(Fraction(widest_mm), "mm"):
            return size
    raise NoAnswer(
        f"No EN size covers a leaf {write(width)} wide, the table ends at 1600 mm (EN size 7):"
        " stop, and ask the maker or the foreman for another way to close it."
    )


def size_by_mass(mass: Quantity) -> int:
    """The smallest EN size whose test door is no lighter [mass]; NoAnswer past the table."""
    for size, _, heaviest_kg in EN_1154_TABLE_1:
        if mass <= Quantity(Fraction(heaviest_kg), "kg"):
            return size
    raise NoAnswer(
        f"No EN size covers a leaf of {write(mass)}, the table ends at 160 kg (EN size 7):"
        " stop, and ask the maker or the foreman for another way to close it."
    )
