"""`moments`: closing and opening moment of a closer at every degree, for one EN size."""

import math
from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.answer import Answer, NoAnswer
from guide.trade.arm.friction import Curve, least_closing, moments, most_opening, short_of_en
from guide.trade.arm.geometry import Arm
from guide.trade.arm.inputs import GEOMETRY_INPUTS, read_geometry
from guide.trade.arm.linkage import stops
from guide.trade.arm.spring import spring_of
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.mounts import SIZES

_ANSWER_STEP = 1_000_000
"""Moments are given to a millionth of a N m."""


def newton_metres(value: float) -> Quantity:
    """A moment [N m] as a measure."""
    return Quantity(Fraction(round(value * _ANSWER_STEP), _ANSWER_STEP), "N m")


def _moments(inputs: Mapping[str, Given]) -> Answer:
    size = needed(inputs, "size", int)
    described = read_geometry(inputs)
    arm = Arm(described.geometry)
    curve = moments(arm, spring_of(size), preset=math.radians(described.preset_deg))
    if not curve:
        raise NoAnswer("The arm cannot be put together with the door closed: check every length.")
    rows = [
        {
            "angle": Quantity(Fraction(row.angle), "deg"),
            "closing": newton_metres(row.closing),
            "opening": newton_metres(row.opening),
        }
        for row in curve
    ]
    last = curve[-1].angle
    cautions = ["The spring is an invented one: a maker's own figures govern."]
    if last < 180:
        cautions.append(f"The arm locks: nothing is worked past {last:g} deg.")
    cautions += [
        f"By EN 1154 size {size} (from memory): {one}." for one in short_of_en(curve, size)
    ]
    working = (*described.working, f"EN size {size}: {_summary(curve)}.")
    return Answer(rows, working, (*described.cautions, *cautions, *stops(described, last)))


def _summary(curve: Curve) -> str:
    latch, sweep = least_closing(curve, 0, 4), least_closing(curve, 88, 92)
    most = most_opening(curve, 0, 60)
    parts = [f"closing {latch:.1f} N m at least from 0 to 4 deg"]
    if sweep is not None:
        parts.append(f"{sweep:.1f} N m from 88 to 92 deg")
    return ", ".join(parts) + f"; opening {most:.1f} N m at most to 60 deg"


COMPUTATIONS = (
    Computation(
        name="moments",
        about="Closing and opening moment at every degree, friction included, for an EN size.",
        inputs=(
            *GEOMETRY_INPUTS,
            Input(
                "size", "count", True, "EN size the spring is set to", low=SIZES[0], high=SIZES[1]
            ),
        ),
        output=Output("rows", ("angle", "closing", "opening")),
        compute=_moments,
        source="virtual work on an invented spring; EN 1154 table 1 (moments from memory)",
    ),
)
