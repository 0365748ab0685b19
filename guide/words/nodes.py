"""What a spoken grammar is made of. One tree of these is heard by, read by and spoken from.

A node stands for some sayings, and each saying yields values, in order: a plain word none, a word of a
`Lexicon` one, a sequence those of its parts, and a `Meant` the one that its operation makes of them.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from guide.measures import Quantity

Value = Fraction | Quantity | str
"""A number, a measure, or a name: of a unit, a command, a choice."""


@dataclass(frozen=True, slots=True, eq=False)
class Word:
    """A word without a value, such as the "and" before a fraction."""

    text: str


@dataclass(frozen=True, slots=True, eq=False)
class Entry:
    """Words that have a value together, such as "sixty fourths"."""

    words: tuple[str, ...]
    value: Value


@dataclass(frozen=True, slots=True, eq=False)
class Lexicon:
    """One of several words or sayings, each with its value; the likeliest to be spoken first."""

    entries: tuple[Entry, ...]
    by_first: Mapping[str, tuple[Entry, ...]] = field(init=False, repr=False)
    """The entries by their first word."""
    by_value: Mapping[Value, Entry] = field(init=False, repr=False)
    """The first entry of each value."""

    def __post_init__(self) -> None:
        found: dict[str, tuple[Entry, ...]] = {}
        for entry in self.entries:
            found[entry.words[0]] = (*found.get(entry.words[0], ()), entry)
        object.__setattr__(self, "by_first", found)
        backwards = reversed(self.entries)
        object.__setattr__(self, "by_value", {entry.value: entry for entry in backwards})


@dataclass(frozen=True, slots=True, eq=False)
class Ref:
    """Whatever the rule of this name stands for."""

    rule: str


@dataclass(frozen=True, slots=True, eq=False)
class Maybe:
    """What may be left out."""

    of: "Node"


@dataclass(frozen=True, slots=True, eq=False)
class Seq:
    """One after the other."""

    items: tuple["Node", ...]


@dataclass(frozen=True, slots=True, eq=False)
class Either:
    """One of several; the likeliest to be spoken first."""

    items: tuple["Node", ...]


@dataclass(frozen=True, slots=True, eq=False)
class Meant:
    """What an operation of `meaning.py` makes of the values of a sequence."""

    operation: str
    of: "Node"
    by: Fraction = Fraction(1)
    """For a sum: the left part is a multiple of it, the right part smaller."""
    into: str = ""
    """For a compound: the smaller unit."""


Node = Word | Lexicon | Ref | Maybe | Seq | Either | Meant
