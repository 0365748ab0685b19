"""The means that follow from what was heard."""

from array import array
from operator import mul

from guide.speech.own.model import STREAMS, WIDTH, Model
from guide.speech.own.sums import Place, Sums

HELD = 0.02
"""How strongly the transform is held to changing nothing, as a part of what speaks for a change."""
WORTH = 5.0
"""The model's own mean counts as so many frames; measured: 3 to 10 are alike, 25 hears less right."""


def turned(model: Model, sums: Sums) -> "array[float]":
    """The model's means, those of speech moved by one linear transform a stream, the likeliest for what was heard."""
    speech = set(model.speech())
    found = array("f", model.means)
    for stream in range(STREAMS):
        places = [one for one in sums.frames if one[1] == stream and one[0] in speech]
        rows = [_row(model, sums, places, number) for number in range(WIDTH)] if places else []
        for phone in speech if rows else ():
            for density in range(model.densities):
                where = model.row(phone, stream, density)
                mean = (*model.means[where], 1.0)
                found[where] = array("f", [sum(map(mul, row, mean)) for row in rows])
    return found


def _row(model: Model, sums: Sums, places: list[Place], number: int) -> list[float]:
    """The factors that make one number of a mean from all of the old one, and from 1."""
    variances = [model.variances[model.row(*place)][number] for place in places]
    weights = [
        sums.frames[place] / variance for place, variance in zip(places, variances, strict=True)
    ]
    wanted = [
        sums.totals[place][number] / variance
        for place, variance in zip(places, variances, strict=True)
    ]
    means = [model.means[model.row(*place)] for place in places]
    columns = [[mean[k] for mean in means] for k in range(WIDTH)] + [[1.0] * len(places)]
    square = [[0.0] * (WIDTH + 1) for _ in range(WIDTH + 1)]
    right = [sum(map(mul, column, wanted)) for column in columns]
    for a, column in enumerate(columns):
        weighted = list(map(mul, column, weights))
        for b in range(a, WIDTH + 1):
            square[a][b] = square[b][a] = sum(map(mul, weighted, columns[b]))
    for a in range(WIDTH + 1):
        hold = HELD * square[a][a] + 1e-6
        square[a][a] += hold
        right[a] += hold if a == number else 0.0
    return solved(square, right)


def pulled(model: Model, means: "array[float]", sums: Sums) -> "array[float]":
    """Means, each moved towards what was heard of it by as much as was heard."""
    found = array("f", means)
    for place, count in sums.frames.items():
        where = model.row(*place)
        found[where] = array(
            "f",
            [
                (WORTH * mean + total) / (WORTH + count)
                for mean, total in zip(means[where], sums.totals[place], strict=True)
            ],
        )
    return found


def solved(square: list[list[float]], right: list[float]) -> list[float]:
    """The solution of linear equations, by elimination with the largest pivot first."""
    rows = [[*row, one] for row, one in zip(square, right, strict=True)]
    size = len(rows)
    for place in range(size):
        best = max(range(place, size), key=lambda one: abs(rows[one][place]))
        rows[place], rows[best] = rows[best], rows[place]
        for other in range(place + 1, size):
            factor = rows[other][place] / rows[place][place]
            if factor:
                rows[other] = [
                    a - factor * b for a, b in zip(rows[other], rows[place], strict=True)
                ]
    found = [0.0] * size
    for place in reversed(range(size)):
        row = rows[place]
        known = sum(row[k] * found[k] for k in range(place + 1, size))
        found[place] = (row[size] - known) / row[place]
    return found
