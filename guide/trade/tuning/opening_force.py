"""The force that opens this door at each spring setting, estimated from the forces measured so far.

F(size) = F0(size) + a + b F0(size), with F0 the ordinary door's force (`nominal_door`). a [N] and b are found by
weighted least squares with a normal prior about zero on both: the MAP estimate, with e the gauge's error,

    minimise  sum ((F - F0 - a - b F0) / e)² + (a / 5 N)² + (b / 0.06)²
"""

import math
from dataclasses import dataclass, field

from guide.trade.rules.kinds import SMALL_SHORTFALL
from guide.trade.tuning.nominal_door import NominalLeaf, nominal

LIGHTEN_TO = 0.985
"""Share of the force limit a new spring setting is chosen for."""

GAUGE = 0.035
"""A force above the limit by more than this share is not an error of the gauge; of a mean, by less (1 / sqrt(n))."""

_SHARE_SPREAD = 0.06
"""How far the arm and the spring of this closer stray from the usual, as a share; ours."""

_ADDED_SPREAD = 5.0
"""What air, seal and hinges add or take off [N], as a standard deviation; ours."""

_GAUGE_ERROR = 0.018
"""Of one measurement, as a share; ours."""


@dataclass(slots=True)
class Forces:
    """All forces measured on one door."""

    leaf: NominalLeaf
    limit: float | None
    """Most it may take to open [N]; None if nobody judges it."""
    sizes: tuple[float, float]
    """Weakest and strongest EN size of the spring."""
    _seen: list[tuple[float, float]] = field(default_factory=list)
    """(EN size, force [N])"""

    def add(self, size: float, force: float) -> None:
        """A force measured at that EN size [N]."""
        self._seen.append((size, force))

    def expect(self, size: float) -> float:
        """The force to expect at that EN size [N].

        The normal equations of the two unknowns, solved by Cramer's rule.
        """
        aa, ab, bb = 1 / _ADDED_SPREAD**2, 0.0, 1 / _SHARE_SPREAD**2
        a, b = 0.0, 0.0
        for seen, force in self._seen:
            ordinary = nominal(self.leaf, seen).force
            trust = 1 / (_GAUGE_ERROR * force + 0.1) ** 2
            over = force - ordinary
            aa, ab, bb = aa + trust, ab + trust * ordinary, bb + trust * ordinary**2
            a, b = a + trust * over, b + trust * ordinary * over
        whole = aa * bb - ab * ab
        added, share = (bb * a - ab * b) / whole, (aa * b - ab * a) / whole
        usual = nominal(self.leaf, size).force
        return max(0.0, usual + added + share * usual)

    def mean(self, size: float) -> float | None:
        """Of the forces measured at that EN size [N]; None before the first."""
        here = self._at(size)
        return sum(here) / len(here) if here else None

    def is_heavy(self, size: float, force: float | None) -> bool:
        """Whether `force`, the last one measured at that size [N], is over the limit, and their mean too."""
        mean = self.mean(size)
        if self.limit is None or force is None or mean is None:
            return False
        return force > self.limit and mean > self.limit

    def is_surely_heavy(self, size: float) -> bool:
        """Whether it is over the limit by more than an error of the gauge."""
        mean = self.mean(size)
        if self.limit is None or mean is None:
            return False
        return mean > self.limit * (1 + GAUGE / math.sqrt(len(self._at(size))))

    def is_little_over(self, size: float) -> bool:
        """Whether what was measured at that size is above the limit by no more than a small shortfall."""
        mean = self.mean(size)
        return (
            self.limit is not None
            and mean is not None
            and mean <= self.limit * (1 + float(SMALL_SHORTFALL))
        )

    def lighter(self, size: float) -> float:
        """The strongest setting below `size` that is expected to be light enough, else the weakest."""
        size -= 0.5
        while size > self.sizes[0] and not self._is_light(size):
            size -= 0.5
        return size

    def room(self, size: float) -> int:
        """Half sizes the spring may be raised by from `size` before it is too heavy to open."""
        heavy = [
            seen for seen, force in self._seen if self.limit is not None and force > self.limit
        ]
        stronger, room = size + 0.5, 0
        while stronger <= self.sizes[1] and stronger < min(heavy, default=math.inf):
            if not self._is_light(stronger):
                break
            stronger, room = stronger + 0.5, room + 1
        return room

    def _is_light(self, size: float) -> bool:
        return self.limit is None or self.expect(size) <= LIGHTEN_TO * self.limit

    def _at(self, size: float) -> list[float]:
        return [force for seen, force in self._seen if seen == size]
