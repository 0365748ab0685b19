"""Between which numbers a computation's answer lies, when its inputs lie between some.

A row of the registry says with which inputs its answer `grows_with` and `falls_with`: then the answer at the corners
bounds every answer between. Where that is not so simple, the row has a function of its own. A proof over ranges depends
on this, so a range may be too wide, and never too narrow.
"""

from collections.abc import Iterator, Mapping

from guide.measures import Quantity, home_unit
from guide.trade.answer import BadInput, NoAnswer, OutOfDomain
from guide.trade.computation import Computation, Extent, Given, Limit, Ranged, RangedInput

SYSTEMS = ("inch", "metric")
"""An answer is rounded in the units of its inputs: each corner is worked out in both."""


def has_extent(computation: Computation) -> bool:
    """Whether anything is known of the range of its answers."""
    ends = (computation.output.low, computation.output.high)
    return bool(computation.extent or computation.grows_with or computation.falls_with or any(ends))


def extent_of(computation: Computation, inputs: Ranged, part: str = "") -> Extent:
    """The least and the greatest answer, or that of its `part`; None for an end of which nothing is known.

    `inputs` holds for each input that is given a value, or an `Extent` for one that may be anything between two ends.
    """
    own = Extent(computation.output.low, computation.output.high)
    if computation.extent is not None:
        return within(computation.extent(inputs, part), own)
    if computation.grows_with or computation.falls_with:
        return within(_between_corners(computation, inputs), own)
    return own


def within(found: Extent, own: Extent) -> Extent:
    """The found range, with the output's own end where the found one is open."""
    return Extent(
        own.low if found.low is None else found.low, own.high if found.high is None else found.high
    )


def _between_corners(computation: Computation, inputs: Ranged) -> Extent:
    low = list(_answers(computation, inputs, greatest=False))
    high = list(_answers(computation, inputs, greatest=True))
    return Extent(
        None if None in low else min(low),  # type: ignore[type-var]
        None if None in high else max(high),  # type: ignore[type-var]
    )


def _answers(computation: Computation, inputs: Ranged, *, greatest: bool) -> Iterator[Limit]:
    """The answer at one corner, in each system; None where there is none, or an end is open."""
    for system in SYSTEMS:
        corner = _corner(computation, inputs, system, greatest=greatest)
        if corner is None:
            yield None
            continue
        try:
            value = computation.compute(corner).value
        except (BadInput, NoAnswer, OutOfDomain):
            yield None
            continue
        yield value if isinstance(value, Quantity | int) else None


def _corner(
    computation: Computation, inputs: Ranged, system: str, *, greatest: bool
) -> "Mapping[str, Given] | None":
    found: dict[str, Given] = {}
    for name, given in inputs.items():
        value = _at_corner(computation, name, given, greatest=greatest)
        if value is None:
            return None
        if isinstance(value, Quantity):
            value = value.to(home_unit(value.kind, system))
        found[name] = value
    return found


def _at_corner(
    computation: Computation, name: str, given: RangedInput, *, greatest: bool
) -> "Given | None":
    if not isinstance(given, Extent):
        return given
    if given.low is not None and given.low == given.high:
        return given.low
    if name in computation.grows_with:
        return given.high if greatest else given.low
    if name in computation.falls_with:
        return given.low if greatest else given.high
    return None
