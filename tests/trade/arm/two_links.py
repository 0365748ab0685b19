"""An independent solution of the closer's arm, by SciPy's root finder: it imports nothing of guide.

A plan view with the hinge axis at the origin. Only the statement of the problem is shared: the elbow is
the main arm's length from the pinion and the forearm's from the shoe.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq, root

Vector = NDArray[np.float64]


@dataclass(frozen=True)
class Links:
    """Pinion and shoe with the door closed, and who moves. Inches."""

    pinion: tuple[float, float]
    shoe: tuple[float, float]
    main_arm: float
    forearm: float
    pinion_moves: bool
    elbow_left: bool
    """Whether the elbow is to the left of the way from pinion to shoe."""

    def ends(self, theta: float) -> tuple[Vector, Vector]:
        """Pinion and shoe with the door open by `theta` [rad]."""
        turn = np.array([[math.cos(theta), -math.sin(theta)], [math.sin(theta), math.cos(theta)]])
        pinion, shoe = np.array(self.pinion), np.array(self.shoe)
        return (turn @ pinion, shoe) if self.pinion_moves else (pinion, turn @ shoe)

    def apart(self, theta: float) -> float:
        """From pinion to shoe."""
        pinion, shoe = self.ends(theta)
        return float(np.linalg.norm(shoe - pinion))

    def fits(self, theta: float) -> bool:
        """Whether two links of these lengths can join the two points."""
        return abs(self.main_arm - self.forearm) < self.apart(theta) < self.main_arm + self.forearm

    @lru_cache(maxsize=8)  # noqa: B019 - a few closers at a time; asked of each angle once and again
    def elbow(self, theta: float) -> Vector:
        """The root of the two length equations on the elbow's side."""
        pinion, shoe = self.ends(theta)
        side = np.array([-(shoe - pinion)[1], (shoe - pinion)[0]])
        side /= np.linalg.norm(side) * (1 if self.elbow_left else -1)
        lengths = np.array([self.main_arm, self.forearm])

        def off(elbow: Vector) -> Vector:
            squares = np.array([np.sum((elbow - pinion) ** 2), np.sum((elbow - shoe) ** 2)])
            excess: Vector = squares - lengths**2
            return excess

        def slope(elbow: Vector) -> Vector:
            return 2 * np.array([elbow - pinion, elbow - shoe])

        start = (pinion + shoe) / 2 + side * self.main_arm
        found: Any = root(off, start, jac=slope, method="hybr", options={"xtol": 1e-14})
        elbow: Vector = found.x
        for _ in range(3):
            elbow -= np.linalg.solve(slope(elbow), off(elbow))
        return elbow

    def arm(self, theta: float) -> float:
        """The main arm's bearing from the part that carries the pinion [rad], within a whole turn."""
        pinion, _ = self.ends(theta)
        x, y = self.elbow(theta) - pinion
        return math.atan2(y, x) - (theta if self.pinion_moves else 0.0)

    def rate(self, theta: float) -> float:
        """d(arm)/d(theta): the length equations differentiated and solved as a linear system."""
        pinion, shoe = self.ends(theta)
        elbow = self.elbow(theta)
        moving = np.array([-pinion[1], pinion[0]]) if self.pinion_moves else np.zeros(2)
        follows = np.zeros(2) if self.pinion_moves else np.array([-shoe[1], shoe[0]])
        rows = np.array([elbow - pinion, elbow - shoe])
        drift = np.linalg.solve(rows, np.array([rows[0] @ moving, rows[1] @ follows]))
        x, y = elbow - pinion
        dx, dy = drift - moving
        return float((x * dy - y * dx) / (x * x + y * y)) - (1.0 if self.pinion_moves else 0.0)

    def lock(self) -> float | None:
        """The first opening [deg] in (0, 360] at which a limit is crossed, by scanning and bisecting."""
        steps = np.linspace(0, 2 * math.pi, 721)
        longest, shortest = self.main_arm + self.forearm, abs(self.main_arm - self.forearm)
        previous = self.apart(0.0)
        for low, high in pairwise(steps):
            now = self.apart(high)
            for limit in (longest, shortest):
                if (previous - limit) * (now - limit) <= 0 and high > 0:
                    at: Any = brentq(
                        lambda theta, limit=limit: self.apart(theta) - limit, low, high, xtol=1e-14
                    )
                    return math.degrees(at)
            previous = now
        return None
