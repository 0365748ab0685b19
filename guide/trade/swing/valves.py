"""The oil valves of a closer: how each throttles, and over which part of the pinion's turn.

A valve's port is drilled in the body, so it comes in at a turn of the pinion; at which angle of the
leaf that is depends on the arm. All constants are invented: no real closer was measured.

Drag of an orifice: c = c0 / A², with the open area A = 0.04 + 0.96 g (x / x0)^p at x turns; x0 is the usual setting, g
the gain, p how it opens. A port opens over its zone by linear interpolation.
"""

import math
from dataclasses import dataclass

MOST_TURNS = 4.0
"""Turns from closed to the stop [turns]; no valve here opens further."""

Zone = tuple[float, float]
"""Where a port starts to open and where it is open [deg], of the pinion's turn or of the leaf."""


@dataclass(frozen=True, slots=True)
class Ports:
    """Over which part of the swing each valve works."""

    latch: Zone = (39.6, 47.1)
    """Below it the latch valve throttles, above it the sweep valve."""
    back: Zone = (110.2, 122.7)
    """Above it the backcheck valve throttles the opening."""
    delay: Zone = (114.0, 119.0)
    """Above it the delayed action, where there is one, throttles the closing."""
    by_pinion: bool = True
    """Whether the zones are turns of the pinion; else angles of the leaf, as on a regular arm."""


LEAF_PORTS = Ports((18.0, 22.0), (65.0, 75.0), (68.0, 72.0), by_pinion=False)
"""The same zones as leaf angles, whatever the arm; those of `Ports` are these on a usual regular arm."""


@dataclass(frozen=True, slots=True)
class Valves:
    """How far each valve is open, in turns from closed, 0 to `MOST_TURNS`."""

    sweep: float = 1.25
    latch: float = 1.25
    back: float = 1.0
    delay: float | None = None
    """None if delayed action is off or there is none."""
    sweep_gain: float = 1.0
    """How much wider than usual the sweep valve opens for each turn."""
    latch_gain: float = 1.0
    power: float = 1.0
    """1 for a valve that opens evenly; above, it opens late; below, early."""

    def sweep_area(self) -> float:
        """Open area of the sweep valve; 1 is as it leaves the works."""
        return _area(self.sweep, 1.25, self.sweep_gain, self.power)

    def latch_area(self) -> float:
        """Open area of the latch valve."""
        return _area(self.latch, 1.25, self.latch_gain, self.power)

    def closing_drags(self) -> tuple[float, float, float]:
        """Oil's drag at sweep, at latch, and what delayed action adds [N m/(rad/s)^2 at the pinion]."""
        delay = 0.0 if self.delay is None else 100 / (0.12 * _area(self.delay, 0.5)) ** 2
        return 100 / self.sweep_area() ** 2, 80 / self.latch_area() ** 2, delay

    def backcheck_drag(self) -> float:
        """What backcheck adds to the drag on opening [N m/(rad/s)^2 at the pinion]."""
        return 22 / _area(self.back, 1.0) ** 2


FREE_DRAG = 0.6
"""Oil's drag on opening before backcheck [N m/(rad/s)^2 at the pinion]."""


def _area(turns: float, usual: float, gain: float = 1.0, power: float = 1.0) -> float:
    """A closed valve still leaks a little."""
    return 0.04 + 0.96 * gain * math.pow(turns / usual, power)


def share(zone: Zone, at: float) -> float:
    """How far a port is open, 0 to 1, by linear interpolation over its zone."""
    low, high = zone
    return min(1.0, max(0.0, (at - low) / (high - low)))
