"""Reading a sheet's parts back from plain data, a field at a time.

Every fault is a ValueError with a sentence that names the field. Quantities are kept as their
exact writing ("35 7/8 in"), numbers of turns as fractions ("5/2").
"""

from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

from guide.measures import Quantity
from guide.trade.signed import parse_signed

T = TypeVar("T")


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
    return parse_signed(text(data, name), kind)


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
