"""How one computation is described: its inputs with units and limits, its output, its source."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias, TypeVar

from guide.measures import KINDS, Quantity
from guide.trade.answer import Answer, BadInput, Value

if TYPE_CHECKING:
    from guide.trade.sheet.sheet import Sheet  # most computations read none

Given: TypeAlias = "Value | float | Sheet"
"""What an input may hold: a value, a bare decimal, or the sheet of one closer model."""

Limit: TypeAlias = Quantity | int | None
"""An inclusive end of a domain; None leaves that end open."""

OTHER_KINDS = ("choice", "yesno", "count", "number", "sheet", "text")
"""The kinds of input that are not measures. A number is a decimal without a unit; its limits are
the computation's own to check. So is the whole of a text, which alone may be given several times
over: then its lines are what was given, oldest first."""


@dataclass(frozen=True, slots=True)
class Extent:
    """Between which numbers an input or an answer lies, both included; None for an end that is not known."""

    low: Limit
    high: Limit


RangedInput: TypeAlias = "Given | Extent"
Ranged: TypeAlias = "Mapping[str, RangedInput]"
"""Inputs, each with its value or between which numbers it lies."""

T = TypeVar("T", bound="Given")


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a computation."""

    name: str
    """Snake case, as typed before the equals sign."""
    kind: str
    """A kind of measure ("length", "mass"...) or one of `OTHER_KINDS`."""
    required: bool
    about: str
    """What it is and from where it is measured, as a phrase."""
    options: tuple[str, ...] = ()
    """The labels of a choice; empty for other kinds."""
    low: Limit = None
    """The least value allowed, inclusive."""
    high: Limit = None
    """The greatest value allowed, inclusive."""
    signed: bool = False
    """Whether the measure may be typed below zero, as in -2 3/4 in."""
    columns: tuple["Input", ...] = ()
    """For a text given several times over: what is in each of its lines between commas. A
    procedure can then fill a line with the answers of one round; all but the first may be empty."""
    tidy: Callable[[str], str] | None = None
    """Brings what people type to a form the kind can read, as "No. 7" to "0.201 in"."""

    def __post_init__(self) -> None:
        if self.kind not in KINDS and self.kind not in OTHER_KINDS:
            raise ValueError(f"Input {self.name} has the unknown kind {self.kind}.")
        if (self.kind == "choice") != bool(self.options):
            raise ValueError(f"Input {self.name} needs options if it is a choice, and only then.")


@dataclass(frozen=True, slots=True)
class Output:
    """What a computation gives."""

    kind: str
    """A kind of measure, "choice", "yesno", "count", "number", "mapping" for several named parts, or
    "rows" for a list of mappings, which no fact of a procedure can hold."""
    options: tuple[str, ...] = ()
    """The labels of a choice, or the names of the parts of a mapping or of each row."""
    low: Limit = None
    high: Limit = None
    counts: tuple[str, ...] = ()
    """For a mapping: the parts that are whole numbers."""
    labels: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """For a mapping: the labels of each part that is a choice, so that a procedure can branch on it."""
    measures: tuple[tuple[str, str], ...] = ()
    """For a mapping: the kind of each part that is a measure, such as "length"."""

    def labels_of(self, part: str) -> tuple[str, ...]:
        """The labels a part can have; empty unless it is a choice."""
        return dict(self.labels).get(part, ())

    def kind_of(self, part: str) -> str:
        """The kind of a part of a mapping: a choice, a count, a measure or else a text."""
        if self.labels_of(part):
            return "choice"
        return "count" if part in self.counts else dict(self.measures).get(part, "text")


@dataclass(frozen=True, slots=True)
class Computation:
    """One row of the registry."""

    name: str
    """Kebab case."""
    about: str
    inputs: tuple[Input, ...]
    output: Output
    compute: Callable[[Mapping[str, Given]], Answer]
    """Called by `registry.run` alone, with inputs already checked for kind, options and limits."""
    source: str
    """Where the rule or table comes from; "common practice" where there is nothing to cite."""
    thresholds: tuple[tuple[str, Quantity], ...] = ()
    """Where the answer changes: (input name, value), the value itself on the lower side."""
    grows_with: tuple[str, ...] = ()
    """Inputs with which the answer, a measure or a count, never falls."""
    falls_with: tuple[str, ...] = ()
    """Inputs with which the answer never grows."""
    extent: Callable[[Ranged, str], Extent] | None = None
    """Where the answer does not simply grow or fall: between which numbers it lies, or the named part of it."""
    always_answers: bool = False
    """Whether there is an answer wherever every input is within its own limits."""
    example: str = ""
    """Inputs of a real door as they are typed after the name in a shell; shown by `work NAME --help`."""

    def input(self, name: str) -> Input | None:
        """The input of that name, or None."""
        return next((one for one in self.inputs if one.name == name), None)


def given(inputs: Mapping[str, Given], name: str, kind: type[T]) -> T | None:
    """The input `name` if it was given; BadInput if it is not a `kind`."""
    value = inputs.get(name)
    if value is None or isinstance(value, kind):
        return value
    raise BadInput(f"{name} cannot be worked with as it stands; give it again.")


def given_sheet(inputs: Mapping[str, Given]) -> "Sheet | None":
    """The input `sheet` if it was given; BadInput if it is not a sheet."""
    if "sheet" not in inputs:
        return None
    from guide.trade.sheet.sheet import Sheet

    return given(inputs, "sheet", Sheet)


def needed(inputs: Mapping[str, Given], name: str, kind: type[T]) -> T:
    """The input `name`; BadInput if it is missing or is not a `kind`."""
    value = given(inputs, name, kind)
    if value is None:
        raise BadInput(f"{name} is missing; give it as {name}=...")
    return value
