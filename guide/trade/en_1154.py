"""What EN 1154, controlled door closing devices, table 1, asks of each EN size.

Leaf widths and masses are in `spring_size`. The moments and efficiencies here are from memory.
"""

from dataclasses import dataclass


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
"""By EN size; from memory."""
