"""What a computation gives back: an answer with its working, or a sentence saying why not."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import TypeAlias

from guide.errors import FOUND, UNKNOWN, HingesideError
from guide.measures import Quantity, to_json

Value: TypeAlias = Quantity | int | str | bool
"""One thing a run can know: a measure, a count, a choice's label, or yes/no."""

Result: TypeAlias = Value | float | Mapping[str, "Result"] | Sequence["Result"] | None
"""What `Answer.value` holds: a value, a bare number of a stated unit (percent, degrees of a drawing),
a mapping where the answer has several named parts, or a list of rows. Floats are always finite."""


@dataclass(frozen=True, slots=True)
class Answer:
    """The result of one computation."""

    value: Result
    """The result itself; a mapping or list is copied and made read-only."""
    working: tuple[str, ...] = ()
    """How it was reached, one sentence a line, in order."""
    cautions: tuple[str, ...] = ()
    """What the fitter must bear in mind when using it."""
    headline: str = ""
    """The value in words, where it does not speak for itself; empty where it does."""

    def __post_init__(self) -> None:
        if isinstance(self.value, Mapping):
            object.__setattr__(self, "value", MappingProxyType(dict(self.value)))
        elif isinstance(self.value, Sequence) and not isinstance(self.value, str):
            object.__setattr__(self, "value", tuple(self.value))


class NoAnswer(HingesideError):
    """The inputs are fine, but the table or the trade has no answer for them.

    The message gives the reason and what to do; `value` is what JSON shows in place of an answer,
    and with None it shows nothing.
    """

    status = FOUND

    def __init__(self, message: str, value: Result = None) -> None:
        super().__init__(message)
        self.value = value


class OutOfDomain(HingesideError):
    """An input lies outside the limits the computation holds for; the message names them."""

    status = FOUND


class BadInput(HingesideError):
    """An input is missing, unknown, unreadable or contradicts another; the message says which."""

    status = UNKNOWN


def result_json(value: Result) -> object:
    """The result as plain data for JSON: quantities with magnitude, unit and exact writing."""
    if isinstance(value, Quantity):
        return to_json(value)
    if isinstance(value, Mapping):
        return {name: result_json(part) for name, part in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [result_json(part) for part in value]
    return value


def decimal(value: Fraction, places: int) -> str:
    """`value` to at most `places` decimals, half way going to even, without trailing zeros."""
    digits = f"{float(round(value, places)):.{places}f}"
    return digits.rstrip("0").rstrip(".") if places else digits


def about(value: Fraction, places: int) -> str:
    """`decimal`, with "about " before it where the rounding changed the value."""
    shown = decimal(value, places)
    return shown if Fraction(shown) == value else f"about {shown}"


def exact(value: float) -> Fraction:
    """A number typed as a decimal, exactly as typed: 0.45 is 9/20."""
    return Fraction(repr(value))
