"""Measures on a scale of equal steps, as on a rule: every 1/16 in, every 1 mm."""

from fractions import Fraction
from math import floor

from guide.measures.quantity import Quantity


def nearest(q: Quantity, step: Quantity) -> Quantity:
    """The whole number of steps nearest to `q`, in the step's unit; half way goes up.

    TypeError when the two are of different kinds; ValueError unless the step is above zero.
    """
    count = floor(_steps(q.base, q, step) + Fraction(1, 2))
    return Quantity(count * step.magnitude, step.unit)


def on_step(q: Quantity, step: Quantity, origin: Quantity | None = None) -> bool:
    """Whether `q` lies a whole number of steps from `origin` (from zero when None).

    TypeError when the kinds differ; ValueError unless the step is above zero.
    """
    if origin is None:
        return _steps(q.base, q, step).denominator == 1
    if origin.kind != q.kind:
        raise TypeError(f"{q} and its origin {origin} are measures of different kinds.")
    return _steps(q.base - origin.base, q, step).denominator == 1


def _steps(distance: Fraction, q: Quantity, step: Quantity) -> Fraction:
    if step.kind != q.kind:
        raise TypeError(f"{q} is a measure of {q.kind} and has no step of {step}.")
    if step.magnitude <= 0:
        raise ValueError(f"A step is above zero, and {step} is not.")
    return distance / step.base
