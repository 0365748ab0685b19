"""What a line of a sheet may hold: text, a word of a few, a number, a measure.

The annotation of a field names one of these: `Annotated[Quantity, Measure("length")]`, or `Length` for short. A kind
reads the value from the text of the file, writes that text again, and says what is wrong with a value; `codec` does so
for a whole sheet.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any, Protocol, TypeAlias

from guide.measures import MeasureError, Quantity, home_unit, parse, write
from guide.measures.parsing import parse_signed
from guide.measures.units import UNITS
from guide.text import either, short
from guide.trade.mounts import MOUNTS

_QUICK = 40
"""Characters. A longer measure is read as one that a person typed."""


class UnreadableError(ValueError):
    """A text that is not of the kind its line takes: the code of the finding, and a sentence."""

    def __init__(self, code: str, message: str) -> None:
        super().__init__(message)
        self.code = code


class Kind(Protocol):
    """What one line holds."""

    def read(self, key: str, text: str) -> Any:
        """The value written in `text`. UnreadableError if it is of another kind; `key` is for the sentence."""

    def write(self, value: Any) -> str:
        """The text that `read` reads as that value."""

    def check(self, key: str, value: Any) -> None:
        """Raise ValueError with a sentence if the value does not suit `key`."""


@dataclass(frozen=True, slots=True)
class Prose:
    """Words, of at least one character and at most `longest`."""

    longest: int

    def read(self, key: str, text: str) -> str:
        """The words, without the space around them."""
        try:
            self.check(key, text)
        except ValueError as error:
            raise UnreadableError("shape", str(error)) from None
        return text.strip()

    def write(self, value: str) -> str:
        """The words."""
        return value

    def check(self, key: str, value: str) -> None:
        """Neither empty nor too long."""
        words = value.strip()
        if not words:
            raise ValueError(f"“{key}” is empty; write it, or take the key out.")
        if len(words) > self.longest:
            raise ValueError(f"“{key}” is too long; at most {self.longest} characters fit.")


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of a few words."""

    allowed: tuple[str, ...]

    def read(self, key: str, text: str) -> str:
        """The word."""
        if text not in self.allowed:
            raise UnreadableError(
                "shape", f"“{short(text)}” is not one of {either(self.allowed)}; write one of them."
            )
        return text

    def write(self, value: str) -> str:
        """The word."""
        return value

    def check(self, key: str, value: str) -> None:
        """One of those allowed."""
        if value not in self.allowed:
            raise ValueError(f"“{key}” must be {either(self.allowed)}, not “{short(value)}”.")


@dataclass(frozen=True, slots=True)
class Form:
    """A value with a form of writing of its own, and nothing else that could be wrong with it."""

    taken: Callable[[str], Any]
    """The value in a text; None if the text has another form."""
    write: Callable[[Any], str]
    wanted: str
    """The end of a sentence: what to write."""
    code: str = "shape"

    def read(self, key: str, text: str) -> Any:
        """The value."""
        value = self.taken(text.strip())
        if value is None:
            raise UnreadableError(self.code, f"“{key}” is “{short(text)}”; {self.wanted}.")
        return value

    def check(self, key: str, value: Any) -> None:
        """The writing must give the value again, which not every number of turns does."""
        if self.taken(self.write(value)) != value:
            raise ValueError(f"“{key}” cannot be {short(str(value))}; {self.wanted}.")


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure with its unit, as `7 1/2 in`."""

    kind: str
    """What it measures: "length" or "angle"."""
    signed: bool = False
    """Whether a minus is allowed."""
    some: bool = False
    """Whether it must be more than nothing."""

    def read(self, key: str, text: str) -> Quantity:
        """The measure, in the unit it is written in."""
        quick = _as_written(text, self.signed)
        if quick is not None and quick.kind == self.kind:
            return quick
        read = parse_signed if self.signed else parse
        try:
            found = read(text, self.kind)
        except MeasureError as error:
            raise UnreadableError("unit-wrong", str(error)) from None
        try:
            read(text, None)
        except MeasureError:
            unit = home_unit(self.kind, "inch")
            message = f"“{text}” has no unit; write one, as in “{text} {unit}”."
            raise UnreadableError("unit-wrong", message) from None
        return found

    def write(self, value: Quantity) -> str:
        """Its exact writing."""
        return write(value)

    def check(self, key: str, value: Quantity) -> None:
        """Of this kind, and more than nothing if it must be."""
        if value.kind != self.kind:
            raise ValueError(
                f"“{key}” needs a unit of {self.kind}, which {value} does not have; write one."
            )
        if self.some and value.base <= 0:
            raise ValueError(f"“{key}” must be more than nothing, not {value}.")


def _as_written(text: str, signed: bool) -> Quantity | None:
    """A measure in the exact writing of this program, such as `35 7/8 in`; None for any other.

    A sheet holds a hundred of them, and this is several times as quick as reading what a person may have typed.
    """
    size = text.removeprefix("-") if signed else text
    *numbers, unit = size.split(" ")
    if not 1 <= len(numbers) <= 2 or unit not in UNITS or len(text) > _QUICK:
        return None
    over, slash, under = numbers[-1].partition("/")
    whole = numbers[0] if len(numbers) == 2 else "0"
    digits = over + under + whole
    if not (digits.isdecimal() and digits.isascii() and over and whole) or len(digits) > 10:
        return None
    if not slash:
        magnitude = Fraction(int(over)) if len(numbers) == 1 else None
    elif under and int(over) < int(under):
        magnitude = int(whole) + Fraction(int(over), int(under))
    else:
        magnitude = None
    if magnitude is None:
        return None
    return Quantity(magnitude if size == text else -magnitude, unit)


@dataclass(frozen=True, slots=True)
class Span:
    """Two lengths, the shorter first, as `8 in to 12 1/4 in`; one where they are equal."""

    end: Measure

    def read(self, key: str, text: str) -> tuple[Quantity, Quantity]:
        """The shorter and the longer."""
        shorter, _, longer = text.partition(" to ")
        first = self.end.read(key, shorter)
        return first, self.end.read(key, longer) if longer else first

    def write(self, value: tuple[Quantity, Quantity]) -> str:
        """One length where both are written the same."""
        return " to ".join(dict.fromkeys(write(one) for one in value))

    def check(self, key: str, value: tuple[Quantity, Quantity]) -> None:
        """Two lengths that rise."""
        shorter, longer = value
        for one in value:
            self.end.check(key, one)
        if shorter > longer:
            raise ValueError(f"“{key}” goes from {shorter} to {longer}; write the shorter first.")


@dataclass(frozen=True, slots=True)
class AtLeast:
    """How few entries a list may have."""

    least: int
    entry: str
    """What one entry is, a phrase."""

    def check(self, key: str, count: int) -> None:
        """Raise ValueError if there are fewer."""
        if count < self.least:
            raise ValueError(f"“{key}” needs at least one {self.entry}; write it.")


_NAME = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", re.ASCII)
_SIZES = re.compile(r"([1-9])(?: to ([1-9]))?", re.ASCII)
_WHOLE = re.compile(r"\d{1,9}", re.ASCII)
_TURNS = re.compile(
    r"(?P<number>\d{1,3}(?:\.\d{1,3})?)|(?:(?P<whole>\d{1,3}) )?(?P<part>\d{1,2}/[1-9]\d?)",
    re.ASCII,
)
_YES_NO = {"yes": True, "true": True, "no": False, "false": False}


def _sizes(text: str) -> tuple[int, int] | None:
    found = _SIZES.fullmatch(text)
    return None if found is None else (int(found[1]), int(found[2] or found[1]))


def _sizes_written(sizes: tuple[int, int]) -> str:
    return " to ".join(dict.fromkeys(map(str, sizes)))


def _turns(text: str) -> Fraction | None:
    found = _TURNS.fullmatch(text)
    # 21/2 is most likely 2 1/2 with its space left out.
    if found is None or Fraction(found["part"] or 0) >= 1:
        return None
    return Fraction(found["number"] or found["whole"] or 0) + Fraction(found["part"] or 0)


def _turns_written(turns: Fraction) -> str:
    whole, part = divmod(turns, 1)
    if part.denominator > 99:
        return f"{float(turns):.3f}"
    return " ".join(str(one) for one in (whole, part) if one) or "0"


def _signed_turns(text: str) -> Fraction | None:
    found = _turns(text.removeprefix("-"))
    return -found if found is not None and text.startswith("-") else found


def written_turns(turns: Fraction) -> str:
    """Turns as a sheet has them, such as “-1 1/2”."""
    return f"-{_turns_written(-turns)}" if turns < 0 else _turns_written(turns)


Words: TypeAlias = Annotated[str, Prose(2000)]
"""A sentence or a few."""
Line: TypeAlias = Annotated[str, Prose(400)]
"""A phrase."""
Name: TypeAlias = Annotated[
    str,
    Form(
        lambda text: text if _NAME.fullmatch(text) and len(text) <= 60 else None,
        str,
        "write small letters and digits joined by hyphens, beginning with a letter, 60 at most",
    ),
]
"""What a file is called by, as `generic-a`."""
Mount: TypeAlias = Annotated[str, OneOf(MOUNTS)]
"""One of `MOUNTS`."""
YesNo: TypeAlias = Annotated[
    bool, Form(_YES_NO.get, lambda value: "yes" if value else "no", "write yes or no")
]
Whole: TypeAlias = Annotated[
    int,
    Form(lambda text: int(text) if _WHOLE.fullmatch(text) else None, str, "write a whole number"),
]
EnSizes: TypeAlias = Annotated[
    tuple[int, int], Form(_sizes, _sizes_written, "write the sizes as “1 to 6”, or one number")
]
"""Weakest and strongest, as `1 to 6`; `3` where they are equal."""
Turns: TypeAlias = Annotated[
    Fraction, Form(_turns, _turns_written, "write turns as 4, 2.5 or 2 1/2", "turns-wrong")
]
"""Full turns of a screw, as `2 1/2`."""
SignedTurns: TypeAlias = Annotated[
    Fraction,
    Form(_signed_turns, written_turns, "write turns as 4, 2 1/2 or -1 1/2", "turns-wrong"),
]
"""Full turns of a screw either way, as `-1 1/2`."""
Length: TypeAlias = Annotated[Quantity, Measure("length")]
SomeLength: TypeAlias = Annotated[Quantity, Measure("length", some=True)]
"""A length that is more than nothing."""
Offset: TypeAlias = Annotated[Quantity, Measure("length", signed=True)]
"""A length that may lie on either side of its line."""
Angle: TypeAlias = Annotated[Quantity, Measure("angle")]
RodLength: TypeAlias = Annotated[tuple[Quantity, Quantity], Span(Measure("length", some=True))]
"""Shortest and longest of a rod, as `8 in to 12 1/4 in`; one length where it does not adjust."""
