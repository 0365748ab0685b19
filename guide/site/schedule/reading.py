"""What one cell comes to: facts, questions, and what of it was not understood."""

from collections.abc import Mapping
from dataclasses import dataclass, field

FACT, QUESTION, NOT_UNDERSTOOD, LEFT_OUT = "fact", "question", "not understood", "left out"
"""What a cell can end as."""


@dataclass(frozen=True, slots=True)
class Question:
    """Something that must be found out before the door is started, or at the door."""

    text: str
    """A sentence."""
    where: str = ""
    """The cell it came from; empty if it came from none."""
    fact: str = ""
    """The fact of a procedure that the answer gives; empty if none."""
    supposed: Mapping[str, str] = field(default_factory=dict)
    """What is planned with until it is answered, by fact."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a reader of one column makes of a cell's text."""

    facts: Mapping[str, str] = field(default_factory=dict)
    """Facts of a procedure, or one of `OF_THE_DOOR`, as they are written in a door file."""
    questions: tuple[Question, ...] = ()
    left: str = ""
    """The words that were not understood; empty if all were."""
    why: str = ""
    """Why not, the end of a sentence."""


NUMBER, PLACE, HARDWARE, CLOSER_WANTED, CORE = (
    "number",
    "place",
    "hardware",
    "closer wanted",
    "core",
)
OF_THE_DOOR = (NUMBER, PLACE, HARDWARE, CLOSER_WANTED, CORE)
"""What is known of a door beside a procedure's facts. A core belongs to a wood or a steel leaf, and is a fact of its
own for each."""


@dataclass(frozen=True, slots=True)
class ReadCell:
    """A filled cell, and what became of it."""

    where: str
    heading: str
    text: str
    became: str
    """`FACT`, `QUESTION`, `NOT_UNDERSTOOD` or `LEFT_OUT`; the last but one wherever any word was not understood."""
    facts: tuple[str, ...] = ()
    """The names of the facts it gave."""
    questions: tuple[str, ...] = ()
    left: str = ""
    """The words that were not understood."""
    why: str = ""


def not_understood(text: str, why: str = "") -> Reading:
    """The reading of a text that says nothing here."""
    return Reading(left=text, why=why)


def asked(text: str, fact: str = "", supposed: Mapping[str, str] | None = None) -> Reading:
    """The reading of a text that raises one question."""
    return Reading(questions=(Question(text, "", fact, supposed or {}),))


def together(*readings: Reading) -> Reading:
    """Several readings of parts of one cell as one."""
    facts: dict[str, str] = {}
    for one in readings:
        facts.update(one.facts)
    return Reading(
        facts,
        tuple(question for one in readings for question in one.questions),
        "; ".join(one.left for one in readings if one.left),
        next((one.why for one in readings if one.why), ""),
    )
