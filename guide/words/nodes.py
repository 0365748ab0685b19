"""The nodes of a spoken context-free grammar. Recognition, parsing and speech all use one tree of them.

A node is a set of phrases, and each phrase yields values, in order: a plain word none, a word of a `Lexicon`
one, a concatenation those of its parts, and a `Meant` the one that its semantic action makes of them.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from guide.measures import Quantity

Value = Fraction | Quantity | str
"""A number, a measure, or a name: of a unit, a command, a choice."""


@dataclass(frozen=True, slots=True, eq=False)
class Word:
    """A word without a value, such as "and" in "three and a half feet"."""

    text: str


@dataclass(frozen=True, slots=True, eq=False)
class LexiconEntry:
    """Words that have one value together, such as "sixty fourths"."""

    words: tuple[str, ...]
    value: Value


@dataclass(frozen=True, slots=True, eq=False)
class Lexicon:
    """One of several words or phrases, each with its value; the likeliest to be spoken first."""

    entries: tuple[LexiconEntry, ...]
    by_first: Mapping[str, tuple[LexiconEntry, ...]] = field(init=False, repr=False)
    """The entries by their first word."""
    by_value: Mapping[Value, LexiconEntry] = field(init=False, repr=False)
    """The first entry of each value."""

    def __post_init__(self) -> None:
        found: dict[str, tuple[LexiconEntry, ...]] = {}
        for entry in self.entries:
            found[entry.words[0]] = (*found.get(entry.words[0], ()), entry)
        object.__setattr__(self, "by_first", found)
        backwards = reversed(self.entries)
        object.__setattr__(self, "by_value", {entry.value: entry for entry in backwards})


@dataclass(frozen=True, slots=True, eq=False)
class Ref:
    """The rule of this name."""

    rule: str


@dataclass(frozen=True, slots=True, eq=False)
class Maybe:
    """An optional node."""

    of: "Node"


@dataclass(frozen=True, slots=True, eq=False)
class Concatenation:
    """Nodes one after the other."""

    items: tuple["Node", ...]


@dataclass(frozen=True, slots=True, eq=False)
class Either:
    """One of several nodes; the likeliest to be spoken first."""

    items: tuple["Node", ...]


@dataclass(frozen=True, slots=True, eq=False)
class Meant:
    """A semantic action: what an operation (`OPERATIONS` in `language.py`) makes of the values of a node."""

    operation: str
    of: "Node"
    by: Fraction = Fraction(1)
    """For a sum: the left part is a multiple of it, the right part smaller."""
    into: str = ""
    """For a compound: the smaller unit."""


Node = Word | Lexicon | Ref | Maybe | Concatenation | Either | Meant
