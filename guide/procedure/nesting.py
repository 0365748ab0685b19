"""The loops of a procedure made to nest: those that overlap in part are stretched around one another."""

from collections.abc import Sequence

from guide.procedure.graph import Loop


def nest(loops: Sequence[Loop]) -> None:
    """Stretch the loops, in place, until each two of them nest or lie apart."""
    while any(_stretch(a, b) for a in loops for b in loops):
        pass


def around(loops: Sequence[Loop], index: int) -> tuple[int, ...]:
    """The numbers of the loops around a node, from the outermost in."""
    order = sorted(range(len(loops)), key=lambda n: (loops[n].low, -loops[n].high, n))
    return tuple(n for n in order if loops[n].low <= index <= loops[n].high)


def _stretch(first: Loop, second: Loop) -> bool:
    """Where two loops overlap in part, stretch a `go` around the other; False if they do not.

    A `repeat` keeps its range, so that going back from outside gives it all its tries again.
    """
    if not first.low < second.low <= first.high < second.high:
        return False
    if first.at_most:
        second.low = first.low
    else:
        first.high = second.high
    return True
