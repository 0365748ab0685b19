"""`moments`: closing and opening moment of a closer at the leaf, at every degree, by virtual work.

    closing = M(phi) i - mu |M(phi) i|        opening = M(phi) i + mu |M(phi) i|

M [N m] is the spring's moment at the pinion, turned by phi [rad] (`spring`); i = d(phi)/d(theta) the ratio of the
linkage (`geometry`); mu the share of the moment that friction has (`Spring.friction`). Past centre i is below zero: the
spring opens the door, and the two change places.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from guide.measures import Quantity, home_unit
from guide.trade.answer import Answer, NoAnswer
from guide.trade.arm.geometry import Arm
from guide.trade.arm.inputs import GEOMETRY_INPUTS, read_geometry
from guide.trade.arm.linkage import stops
from guide.trade.arm.spring import Spring, spring_of
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.en_1154 import DEMANDS
from guide.trade.mounts import SIZES
from guide.trade.shown import demanded, moment, system_of

EVERY_DEGREE = range(181)
"""0 to 180 deg."""

Curve = Sequence["Moment"]


@dataclass(frozen=True, slots=True)
class Moment:
    """The closer's moments at one opening of the leaf, in N m."""

    angle: float
    """How far the leaf is open [deg]."""
    closing: float
    """With which the closer shuts the leaf; below zero where it must be pushed shut."""
    opening: float
    """With which the leaf must be opened; below zero where the closer opens it."""


def moments(
    arm: Arm, spring: Spring, degrees: Iterable[float] = EVERY_DEGREE, preset: float = 0.0
) -> list[Moment]:
    """The moments at each of `degrees`, rising, until the arm's lock.

    `preset` is the pinion's turn before the arm goes on [rad]. Empty if the arm cannot be put
    together with the door closed.
    """
    lock = arm.lock()
    end = 360.0 if lock is None else lock.deg
    rest, rise, mu = spring.at_rest + spring.stiffness * preset, spring.stiffness, spring.friction
    rows = []
    for deg, turn, ratio in arm.turns(degrees):
        if deg >= end:
            break
        ideal = (rest + rise * turn) * ratio
        drag = mu * abs(ideal)
        rows.append(Moment(deg, ideal - drag, ideal + drag))
    return rows


def least_closing(curve: Curve, low: float, high: float) -> float | None:
    """The least closing moment from `low` to `high` [deg], both included; None if there is none."""
    return min((row.closing for row in curve if low <= row.angle <= high), default=None)


def most_opening(curve: Curve, low: float, high: float) -> float | None:
    """The greatest opening moment from `low` to `high` [deg], both included; None if none."""
    return max((row.opening for row in curve if low <= row.angle <= high), default=None)


def handle_force(curve: Curve, lever: float) -> float | None:
    """The push [N] that opens the leaf at a handle `lever` [m] from the hinge axis.

    The greatest from 2 to 90 deg; air, hinges and seals come on top. None for an empty curve.
    """
    most = most_opening(curve, 2, 90)
    return None if most is None else most / lever


def short_of_en(curve: Curve, size: int, system: str = "metric") -> tuple[str, ...]:
    """A phrase for each column of EN 1154 table 1 that the curve misses at that size.

    Empty if it meets them all; columns beyond the arm's lock are left out.
    """
    demand = DEMANDS[size]
    found = []
    for name, low, high, least in (
        ("closing at 0 to 4 deg", 0, 4, demand.close_0_4_least),
        ("closing at 88 to 92 deg", 88, 92, demand.close_88_92_least),
        ("closing anywhere", 0, 180, demand.close_other_least),
    ):
        has = least_closing(curve, low, high)
        if has is not None and has < least:
            found.append(f"{name} {moment(has, system)}, below {demanded(least, system)}")
    most = most_opening(curve, 0, 60)
    if most is not None and most > demand.open_0_60_most:
        found.append(
            f"opening {moment(most, system)}, above {demanded(demand.open_0_60_most, system)}"
        )
    if spring_of(size).efficiency < demand.efficiency_least:
        found.append(f"efficiency below {demand.efficiency_least:.0%}")
    return tuple(found)


_ANSWER_STEP = 1_000_000
"""Moments are given to a millionth of a N m."""


def moment_in(value: float, system: str) -> Quantity:
    """A moment [N m] as a measure in the unit of `system`."""
    exact = Quantity(Fraction(round(value * _ANSWER_STEP), _ANSWER_STEP), "N m")
    return exact.to(home_unit("moment", system))


def _moments(inputs: Mapping[str, Given]) -> Answer:
    size = needed(inputs, "size", int)
    described = read_geometry(inputs)
    system = system_of(inputs)
    arm = Arm(described.geometry)
    curve = moments(arm, spring_of(size), preset=math.radians(described.preset_deg))
    if not curve:
        raise NoAnswer("The arm cannot be put together with the door closed: check every length.")
    rows = [
        {
            "angle": Quantity(Fraction(row.angle), "deg"),
            "closing": moment_in(row.closing, system),
            "opening": moment_in(row.opening, system),
        }
        for row in curve
    ]
    last = curve[-1].angle
    cautions = ["The spring is an invented one: a maker's own figures govern."]
    if last < 180:
        cautions.append(f"The arm locks: nothing is worked past {last:g} deg.")
    by = f"By EN 1154 size {size} (most of its moments from memory)"
    cautions += [f"{by}: {one}." for one in short_of_en(curve, size, system)]
    working = (*described.working, f"EN size {size}: {_summary(curve, system)}.")
    return Answer(rows, working, (*described.cautions, *cautions, *stops(described, last, system)))


def _summary(curve: Curve, system: str) -> str:
    latch, sweep = least_closing(curve, 0, 4), least_closing(curve, 88, 92)
    most = most_opening(curve, 0, 60)
    parts = [] if latch is None else [f"closing {moment(latch, system)} at least from 0 to 4 deg"]
    if sweep is not None:
        parts.append(f"{moment(sweep, system)} from 88 to 92 deg")
    opening = "" if most is None else f"; opening {moment(most, system)} at most to 60 deg"
    return ", ".join(parts) + opening


COMPUTATION = Computation(
    name="moments",
    about="Closing and opening moment at every degree, friction included, for an EN size.",
    inputs=(
        *GEOMETRY_INPUTS,
        Input("size", "count", True, "EN size the spring is set to", low=SIZES[0], high=SIZES[1]),
    ),
    output=Output("rows", ("angle", "closing", "opening")),
    compute=_moments,
    source="virtual work on an invented spring; EN 1154 table 1 (most moments from memory)",
    example="sheet=generic-a mount=regular hinge=butt range='100 deg' size=3",
)
