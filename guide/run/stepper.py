"""A stepper: a measure moved by one step up or down, to be set with two keys."""

from fractions import Fraction

from guide import measures
from guide.measures import MeasureError, Quantity, nearest, on_step
from guide.procedure.facts import Fact, Value, WrongAnswer
from guide.translation import _

_INCH_STEP = Quantity(Fraction(1, 16), "in")


def step_of(fact: Fact, system: str) -> Quantity:
    """The fact's step if it is in a unit of `system`; otherwise a sixteenth, or one of its unit."""
    home = measures.home_unit(fact.kind, system)
    if fact.step is not None and fact.step.unit == home:
        return fact.step
    return _INCH_STEP if home == "in" else Quantity(Fraction(1), home)


def stepped(fact: Fact, text: str, up: bool, system: str, start: Value | None = None) -> str:
    """The typed number, one step on; `start` if nothing is typed. Stays within the fact's range.

    Raises WrongAnswer if what is typed is not a number.
    """
    if fact.kind == "count":
        return _count(fact, text, up, start)
    step = step_of(fact, system)
    if not text.strip():
        return measures.write(_inside(fact, _beginning(fact, start, step), step))
    try:
        now = measures.parse(text, fact.kind, system)
    except MeasureError as error:
        raise WrongAnswer(str(error)) from error
    near = nearest(now, step)
    if not on_step(now, step) and (near > now) == up:
        return measures.write(_inside(fact, near, step))
    moved = near.magnitude + (step.magnitude if up else -step.magnitude)
    return measures.write(_inside(fact, Quantity(moved, step.unit), step))


def _beginning(fact: Fact, start: Value | None, step: Quantity) -> Quantity:
    """The value after the first press: what is suggested, the usual, or the least there is."""
    if isinstance(start, Quantity):
        return start.to(step.unit)
    if fact.usual is not None:
        return nearest(fact.usual[0], step)
    if isinstance(fact.low, Quantity):
        return nearest(fact.low, step)
    return Quantity(Fraction(0), step.unit)


def _inside(fact: Fact, quantity: Quantity, step: Quantity) -> Quantity:
    if isinstance(fact.low, Quantity) and quantity < fact.low:
        return fact.low.to(step.unit)
    if isinstance(fact.high, Quantity) and quantity > fact.high:
        return fact.high.to(step.unit)
    return quantity


def _count(fact: Fact, text: str, up: bool, start: Value | None) -> str:
    low = fact.low if isinstance(fact.low, int) else 0
    high = fact.high if isinstance(fact.high, int) else None
    if not text.strip():
        return str(start if isinstance(start, int) else low)
    if not (text.strip().isascii() and text.strip().isdigit()):
        raise WrongAnswer(
            _("“{text}” is not a whole number; {wanted}.").format(
                text=text[:40], wanted=fact.wanted("inch")
            )
        )
    number = max(low, int(text) + (1 if up else -1))
    return str(number if high is None else min(high, number))
