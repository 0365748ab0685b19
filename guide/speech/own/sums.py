"""What a person's frames say of each mean: how many frames belong to it, and what they come to."""

import math
from array import array
from collections.abc import Iterable, Sequence
from operator import mul

from guide.speech.own.alignment import Stretch, Vector
from guide.speech.own.model import STREAMS, WEIGHT_STEP, WIDTH, Model

LEAST_SHARE = 1e-3
"""A density with a smaller share of a frame is left out."""

Place = tuple[int, int, int]
"""Phone, stream, density."""


class Sums:
    """Counted over any number of sayings."""

    def __init__(self, model: Model, means: "array[float]") -> None:
        """`means` are those by which frames are shared out among densities."""
        self._model = model
        self._means = means
        self._tables: dict[tuple[int, int], list[tuple[float, list[float]]]] = {}
        self._phone = {name: place for place, name in enumerate(model.phones)}
        self.frames: dict[Place, float] = {}
        """How many frames belong to a mean, in shares."""
        self.totals: dict[Place, list[float]] = {}
        """The sum of those frames."""

    def add(self, stretches: Iterable[Stretch]) -> None:
        """Count a saying in."""
        for stretch in stretches:
            phone = self._phone[stretch.phone]
            for stream in range(STREAMS):
                weights = [
                    -WEIGHT_STEP * step for step in self._model.weights_of(stretch.state, stream)
                ]
                for frame in stretch.frames:
                    self._share_out(phone, stream, weights, frame[stream])

    def _share_out(self, phone: int, stream: int, weights: Sequence[float], vector: Vector) -> None:
        both = (*vector, *map(mul, vector, vector))
        likely = [
            weight + constant + sum(map(mul, row, both))
            for weight, (constant, row) in zip(weights, self._table(phone, stream), strict=True)
        ]
        best = max(likely)
        near = [
            (density, math.exp(one - best)) for density, one in enumerate(likely) if one > best - 12
        ]
        whole = sum(share for _, share in near)
        for density, share in near:
            part = share / whole
            if part < LEAST_SHARE:
                continue
            place = (phone, stream, density)
            self.frames[place] = self.frames.get(place, 0.0) + part
            total = self.totals.setdefault(place, [0.0] * WIDTH)
            for number, one in enumerate(vector):
                total[number] += part * one

    def _table(self, phone: int, stream: int) -> list[tuple[float, list[float]]]:
        """Each density as a constant and the factors of a frame's numbers and of their squares."""
        found = self._tables.get((phone, stream))
        if found is None:
            found = []
            for density in range(self._model.densities):
                row = self._model.row(phone, stream, density)
                means, variances = self._means[row], self._model.variances[row]
                pairs = list(zip(means, variances, strict=True))
                constant = -0.5 * sum(m * m / v + math.log(v) for m, v in pairs)
                factors = [m / v for m, v in pairs] + [-0.5 / v for _, v in pairs]
                found.append((constant, factors))
            self._tables[phone, stream] = found
        return found
