"""Facts: their kinds, options and ranges, and the parsing of a typed or spoken answer to a value.

A value is a label (choice and yes/no facts), a whole number (count), a Quantity (measured facts) or a
text. In files and journals every value is its exact writing.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, NamedTuple

from guide import measures
from guide.errors import FOUND, HingesideError
from guide.measures import MeasureError, Quantity
from guide.measures.mentioned import unit_asked_for
from guide.measures.parsing import parse_signed
from guide.text import nearest, printable, short, unseen

if TYPE_CHECKING:
    from guide.trade.computation import Given, Input

Value = Quantity | int | str
MEASURED = tuple(measures.KINDS)
UNSURE = "unsure"
INCH_UNITS = ("in", "ft", "lbf", "lb", "inH2O", "lbf ft")
NONE = "none"
"""The value of a worked fact whose computation has no answer."""
NOT_GIVEN = "not given"
"""The value of a text that was left out."""
UNSURE_WORDS = (UNSURE, "?", "i don't know", "don't know", "not sure")
"""The value of “I don't know”, for facts that offer it."""
LONGEST_TEXT = 200


class WrongAnswer(HingesideError, ValueError):
    """An answer the fact does not take; the message says what would be taken."""

    status = FOUND


class Option(NamedTuple):
    """One answer of a choice."""

    label: str
    text: str
    say: str
    also: tuple[str, ...] = ()
    """Other words people use for it."""


@dataclass(slots=True)
class SheetOffer:
    """The source of this number in the closer's sheet: a computation, and the facts that fill its inputs."""

    computation: str
    using: dict[str, str]


@dataclass(slots=True)
class Fact:
    """Something the run can know."""

    name: str
    kind: str
    """`choice`, `yesno`, `count`, `text`, `worked`, or a kind of measure."""
    ask: str = ""
    say: str = ""
    find_out: str = ""
    options: dict[str, Option] = field(default_factory=dict)
    unsure: bool = False
    low: Quantity | int | None = None
    high: Quantity | int | None = None
    step: Quantity | None = None
    usual: tuple[Quantity, Quantity] | None = None
    longest: int = LONGEST_TEXT
    may_be_left_out: bool = False
    """For a text: whether nothing entered is an answer, NOT_GIVEN."""
    schedule: bool = False
    once_a_visit: bool = False
    """Whether its answer holds for the whole visit, so that a job that follows another does not ask it again."""
    computation: str = ""
    """For a worked fact: the name `hingeside work` knows."""
    operation: str = ""
    """For a worked fact that is arithmetic and not a computation: `sum`, `difference` or `times`."""
    gives: str = ""
    """For a worked fact: the kind of value its computation gives."""
    gives_labels: tuple[str, ...] = ()
    """For a worked fact that gives a label: the labels there are."""
    using: dict[str, str] = field(default_factory=dict)
    """Input -> fact name, or `= text` for a fixed value; for arithmetic, the place of a term -> the term."""
    rounds: dict[str, list[str]] = field(default_factory=dict)
    """Input -> asked facts whose answers fill a line of it each time the first of them is answered."""
    optional: tuple[str, ...] = ()
    """For a worked fact: the inputs that its computation can do without."""
    part: str = ""
    """For a worked fact whose answer has several parts: the one that is meant."""
    offer: SheetOffer | None = None

    @property
    def worked(self) -> bool:
        """Whether the value is computed, never asked."""
        return self.kind == "worked"

    @property
    def measured(self) -> bool:
        """Whether the value is a Quantity."""
        return self.kind in MEASURED

    def question(self, system: str) -> str:
        """The question, its measures in the units of `system`."""
        return measures.with_quantities(self.ask, system)

    def short_question(self, system: str) -> str:
        """The short form of the question."""
        return measures.with_quantities(self.say or self.ask, system)

    def how_to_find_out(self, system: str) -> str:
        """How to find out what is asked."""
        return measures.with_quantities(self.find_out, system)

    def input_facts(self) -> list[str]:
        """The facts a worked fact is computed from."""
        used = [name for name in self.using.values() if not name.startswith("=")]
        return [*used, *(name for names in self.rounds.values() for name in names)]

    def to_json(self) -> dict[str, Any]:
        """The fact as the compiled graph stores it."""
        data: dict[str, Any] = {"name": self.name, "kind": self.kind}
        for key in ("ask", "say", "find_out", "computation", "operation", "gives", "part"):
            if getattr(self, key):
                data[key] = getattr(self, key)
        if self.options:
            data["options"] = [
                [o.label, o.text, o.say, list(o.also)] for o in self.options.values()
            ]
        if self.unsure:
            data["unsure"] = True
        if self.schedule:
            data["schedule"] = True
        if self.once_a_visit:
            data["once_a_visit"] = True
        if self.low is not None and self.high is not None:
            data["range"] = [str(self.low), str(self.high)]
        if self.step is not None:
            data["step"] = str(self.step)
        if self.usual is not None:
            data["usual"] = [str(self.usual[0]), str(self.usual[1])]
        if self.kind == "text":
            data["longest"] = self.longest
            if self.may_be_left_out:
                data["may_be_left_out"] = True
        if self.gives_labels:
            data["gives_labels"] = list(self.gives_labels)
        if self.optional:
            data["optional"] = list(self.optional)
        if self.using:
            data["using"] = self.using
        if self.rounds:
            data["rounds"] = self.rounds
        if self.offer is not None:
            data["offer"] = [self.offer.computation, self.offer.using]
        return data

    @staticmethod
    def from_json(data: dict[str, Any]) -> "Fact":
        """Read back what `to_json` wrote."""
        fact = Fact(data["name"], data["kind"])
        for key in ("ask", "say", "find_out", "computation", "operation", "gives", "part"):
            setattr(fact, key, data.get(key, ""))
        for label, text, say, also in data.get("options", ()):
            fact.options[label] = Option(label, text, say, tuple(also))
        fact.unsure = data.get("unsure", False)
        fact.schedule = data.get("schedule", False)
        fact.once_a_visit = data.get("once_a_visit", False)
        fact.longest = data.get("longest", LONGEST_TEXT)
        fact.may_be_left_out = data.get("may_be_left_out", False)
        fact.gives_labels = tuple(data.get("gives_labels", ()))
        fact.optional = tuple(data.get("optional", ()))
        fact.using = data.get("using", {})
        fact.rounds = data.get("rounds", {})
        if "range" in data:
            low, high = data["range"]
            fact.low, fact.high = fact.decode(low), fact.decode(high)  # type: ignore[assignment]
        if "step" in data:
            fact.step = measures.parse(data["step"], fact.kind)
        if "usual" in data:
            low, high = data["usual"]
            fact.usual = (measures.parse(low, fact.kind), measures.parse(high, fact.kind))
        if "offer" in data:
            fact.offer = SheetOffer(*data["offer"])
        return fact

    def decode(self, text: str) -> Value:
        """A value from its exact writing, as files of ours store it."""
        if text in (UNSURE, NONE):
            return text
        kind = self.gives if self.worked else self.kind
        if kind in MEASURED:
            return parse_signed(text, kind) if self.worked else measures.parse(text, kind)
        return int(text) if kind == "count" else text

    def read(self, text: str, system: str = "inch") -> Value:
        """A person's answer as a value. Raises WrongAnswer with what would be taken."""
        text = text.strip()
        if not text and self.may_be_left_out:
            return NOT_GIVEN
        if not text:
            raise WrongAnswer(f"Nothing was entered; {self.wanted(system)}.")
        if self.unsure and text.casefold().replace("’", "'") in UNSURE_WORDS:
            return UNSURE
        if self.kind in ("choice", "yesno"):
            return self._read_label(text)
        if self.kind == "count":
            return self._read_count(text)
        if self.kind == "text":
            return self._read_text(text)
        return self._read_measure(text, system)

    def _read_label(self, text: str) -> str:
        wanted = text.casefold()
        for option in self.options.values():
            names = (option.label, option.text, option.say, *option.also)
            if wanted in (name.casefold() for name in names):
                return option.label
        if self.kind == "yesno" and wanted in ("y", "n"):
            return "yes" if wanted == "y" else "no"
        offers = list(self.options)
        if text.isascii() and text.isdigit() and len(text) <= 4 and 1 <= int(text) <= len(offers):
            return offers[int(text) - 1]
        near = nearest(wanted, [name.casefold() for name in offers])
        hint = f"; did you mean “{near}”?" if near else "."
        raise WrongAnswer(
            f"“{_quoted(text)}” is not one of the answers ({', '.join(offers)}){hint}"
        )

    def _read_count(self, text: str) -> int:
        if not (text.isascii() and text.isdigit() and len(text) <= 9):
            raise WrongAnswer(f"“{_quoted(text)}” is not a whole number; {self.wanted('inch')}.")
        number = int(text)
        if not self._inside(number):
            raise WrongAnswer(f"{number} is out of range; {self.wanted('inch')}.")
        return number

    def _read_text(self, text: str) -> str:
        if len(text) > self.longest:
            raise WrongAnswer(f"That is too long; at most {self.longest} characters are kept.")
        if unseen(text) or "\n" in text or "\t" in text:
            raise WrongAnswer("That holds a control character; write it with plain letters.")
        return text

    def _read_measure(self, text: str, system: str) -> Quantity:
        try:
            quantity = measures.parse(text, self.kind, system)
        except MeasureError as error:
            raise WrongAnswer(self._refused(error, system)) from error
        if self._too_fine(quantity):
            near = measures.nearest(quantity, self.step)  # type: ignore[arg-type]
            raise WrongAnswer(
                f"{quantity} is finer than this is measured; write it to the nearest "
                f"{self.step}, such as {near}."
            )
        if not self._inside(quantity):
            raise WrongAnswer(
                f"{quantity} is out of range{self._did_you_mean(quantity)}; {self.wanted(system)}."
            )
        return quantity

    def _refused(self, error: MeasureError, system: str) -> str:
        """Why a measure was not understood, and of what it may have meant only what would be taken."""
        meant = [
            text for text in error.meant if self.takes(measures.parse(text, self.kind, system))
        ]
        advice = f"write {' or '.join(meant)}" if meant else self.wanted(system)
        return f"{error.why}; {advice}."

    def _too_fine(self, quantity: Quantity) -> bool:
        """Off the step, in units of the step's own kind: a tape in millimetres need not fit sixteenths."""
        if self.step is None:
            return False
        same_scale = (quantity.unit in INCH_UNITS) == (self.step.unit in INCH_UNITS)
        return same_scale and not measures.on_step(quantity, self.step)

    def takes(self, quantity: Quantity) -> bool:
        """Whether a measure lies in the range and in the fact's steps, not between two."""
        return self._inside(quantity) and not self._too_fine(quantity)

    def doubt(self, value: Value) -> str:
        """A question to put before an unusual value counts; empty if the value is usual."""
        if not isinstance(value, Quantity) or self.usual is None:
            return ""
        low, high = self.usual
        if low <= value <= high:
            return ""
        return f"{value} is unusual here{self._did_you_mean(value)}; is it right?"

    def doubt_of_unit(self, typed: str, value: Value, asked: Iterable[str], system: str) -> str:
        """A question to put before a number without a unit counts, where the question names a unit of the other system;
        empty if it does not. `asked` are further words of the question."""
        if not isinstance(value, Quantity) or not bare(typed):
            return ""
        for words in (self.ask, self.say, *asked):
            named = unit_asked_for(words, self.kind)
            if named is not None and system not in named[1].systems:
                return (
                    f"The question names {named[0].lower()}, and “{_quoted(typed.strip())}” without a unit is "
                    f"{value} here; is it {value}?"
                )
        return ""

    def _did_you_mean(self, quantity: Quantity) -> str:
        usual = self.usual
        if usual is None and isinstance(self.low, Quantity) and isinstance(self.high, Quantity):
            usual = (self.low, self.high)
        other = measures.misread(quantity, usual) if usual else None
        return f" (did you mean {other}?)" if other is not None else ""

    def _inside(self, value: Quantity | int) -> bool:
        low, high = self.low, self.high
        if low is None or high is None:
            return True
        return low <= value <= high  # type: ignore[operator]

    def wanted(self, system: str) -> str:
        """The answers that this fact accepts, as the end of a sentence."""
        if self.kind in ("choice", "yesno"):
            return f"one of {', '.join(self.options)} is wanted"
        if self.kind == "text":
            left_out = ", or Enter alone to leave it out" if self.may_be_left_out else ""
            return f"a few words are wanted{left_out}"
        if self.low is None or self.high is None:
            return f"a {self.kind} is wanted"
        if isinstance(self.low, Quantity) and isinstance(self.high, Quantity):
            low, high = (measures.show(edge, system) for edge in (self.low, self.high))
            return f"from {low} to {high} is accepted"
        return f"a whole number from {self.low} to {self.high} is wanted"

    def show(self, value: Value, system: str = "inch") -> str:
        """The value for a person, in the run's units; what was typed in others follows in brackets."""
        if isinstance(value, Quantity):
            shown = measures.show(value, system)
            typed = not self.worked and value.unit not in shown.split()
            return f"{shown} ({value})" if typed else shown
        if value == UNSURE and self.unsure:
            return "not known"
        if value == NONE and self.worked:
            return "no answer"
        if isinstance(value, str) and value in self.options:
            return self.options[value].text
        if value in self.gives_labels:
            return str(value).replace("-", " ")
        return str(value)


def writing(value: Value) -> str:
    """The exact writing of a value, as journals and scenarios store it."""
    return measures.write(value) if isinstance(value, Quantity) else str(value)


def bare(text: str) -> bool:
    """Whether a measure is written without its unit."""
    return all(char.isnumeric() or char in " .,/⁄-" for char in text)


def _quoted(text: str) -> str:
    return printable(short(text))


def as_input(wanted: "Input", value: Value | None) -> "Given | None":
    """A fact's value as the input takes it; None if it is not known, or means something else there."""
    if wanted.kind == "choice":
        return value if isinstance(value, str) and value in wanted.options else None
    if wanted.kind == "yesno":
        return value == "yes" if value in ("yes", "no") else None
    fits = isinstance(value, Quantity) and value.kind == wanted.kind
    return value if fits else None
