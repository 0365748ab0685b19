"""Reading a sheet's parts back from plain data, a field at a time.

Every fault is a ValueError with a sentence that names the field. Quantities are kept as their
exact writing ("35 7/8 in"), numbers of turns as fractions ("5/2").
"""

from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

from guide.measures import Quantity
from guide.measures.units import UNITS
from guide.trade.signed import parse_signed

T = TypeVar("T")

LONGEST_WRITING = 40
"""A longer measure is read as a person's."""


def turns_out(turns: Fraction | None) -> str | None:
    """The writing of a number of turns that `turns` reads back."""
    return None if turns is None else str(turns)


def member(data: object, name: str) -> object:
    """The field of that name, whatever it holds."""
    if not isinstance(data, dict) or name not in data:
        raise ValueError(f"This record of a sheet is damaged: {name} is missing.")
    return data[name]


def field(data: object, name: str, kind: type[T]) -> T:
    """The field of that name, which must be a `kind`."""
    value = member(data, name)
    if not isinstance(value, kind):
        raise ValueError(f"This record of a sheet is damaged: {name} cannot be {value!r}.")
    return value


def field_or_none(data: object, name: str, kind: type[T]) -> T | None:
    """The field of that name, which must be a `kind` or null."""
    return None if member(data, name) is None else field(data, name, kind)


def text(data: object, name: str) -> str:
    """The field of that name, which must be text."""
    return field(data, name, str)


def quantity(data: object, name: str, kind: str) -> Quantity:
    """The field of that name as a measure of that kind."""
    written = text(data, name)
    found = _as_written(written)
    return found if found is not None and found.kind == kind else parse_signed(written, kind)


def _as_written(written: str) -> Quantity | None:
    """A measure in the exact writing of this program, such as `35 7/8 in`; None for any other.

    A sheet holds a hundred of them, and this is several times as quick as reading what a person may have typed.
    """
    *numbers, unit = written.split(" ")
    if not 1 <= len(numbers) <= 2 or unit not in UNITS or len(written) > LONGEST_WRITING:
        return None
    over, slash, under = numbers[-1].partition("/")
    whole = numbers[0] if len(numbers) == 2 else "0"
    digits = over + under + whole
    if not (digits.isdecimal() and digits.isascii() and over) or bool(slash) != bool(under):
        return None
    if not slash:
        return None if len(numbers) == 2 else Quantity(Fraction(int(over)), unit)
    if int(under) == 0 or (len(numbers) == 2 and int(over) >= int(under)):
        return None
    return Quantity(int(whole) + Fraction(int(over), int(under)), unit)


def quantity_or_none(data: object, name: str, kind: str) -> Quantity | None:
    """The field of that name as a measure of that kind, or None for null."""
    return None if member(data, name) is None else quantity(data, name, kind)


def each(data: object, name: str, read: Callable[[object], T]) -> tuple[T, ...]:
    """The list of that name, each item read with `read`."""
    return tuple(read(one) for one in field(data, name, list))


def turns(data: object, name: str) -> Fraction | None:
    """The field of that name as a number of turns, or None for null."""
    written = field_or_none(data, name, str)
    if written is None:
        return None
    over, _, under = written.partition("/")
    under = under or "1"
    digits = (over + under).isdecimal() and over != "" and len(written) <= 12
    if not (digits and int(under)):
        raise ValueError(f"This record of a sheet is damaged: {name} cannot be {written[:20]!r}.")
    return Fraction(int(over), int(under))


def whole(value: object, name: str) -> int:
    """`value` as a whole number; `name` is for the message."""
    # True and False are integers to Python, and no size.
    if not isinstance(value, int) or isinstance(value, bool):
        raise ValueError(f"This record of a sheet is damaged: {name} cannot be {value!r}.")
    return value
