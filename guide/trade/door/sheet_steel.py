"""Sheet steel of doors, frames and reinforcement: thickness by gauge."""

from fractions import Fraction

from guide.measures import Quantity

GAUGES = {
    20: Quantity(Fraction("0.032"), "in"),
    18: Quantity(Fraction("0.042"), "in"),
    16: Quantity(Fraction("0.053"), "in"),
    14: Quantity(Fraction("0.067"), "in"),
}
"""Gauge to least thickness [length]: public tables after ANSI/SDI A250.8 for 16 and 14; the others from memory."""

CLOSER_REINFORCEMENT = 14
"""Usual gauge of a closer's reinforcement: public hollow metal door details."""


def gauge_named(text: str) -> str:
    """A gauge as typed ("14 ga", "14 gauge") as its figures."""
    return text.lower().removesuffix("gauge").removesuffix("ga").strip()
