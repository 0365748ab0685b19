"""Words of a cell to facts, by a table of expressions.

Each row of a table is an expression and what it gives. What no row matches is left over, and a cell with words left
over is never called understood.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from guide.site.schedule.cells import quoted
from guide.site.schedule.reading import Question, Reading, not_understood

NOTHING = ("-", "–", "—", "--")
DASHES = (*NOTHING, "n/a", "na", "none", "nil", "no", "not applicable", "n.a.")
"""What is in a cell for “nothing”."""


@dataclass(frozen=True, slots=True)
class Word:
    """An expression in small letters, and what it gives."""

    pattern: re.Pattern[str]
    facts: Mapping[str, str] = field(default_factory=dict)
    asks: str = ""
    """A question that it raises; empty if none."""
    about: str = ""
    """The fact that the question is about; empty if none."""
    supposed: Mapping[str, str] = field(default_factory=dict)
    """What is planned with until the question is answered."""


def gives(pattern: str, **facts: str) -> Word:
    """An expression that says facts; it is a whole word or words."""
    return Word(_whole(pattern), facts)


def asks(pattern: str, question: str, about: str = "", **supposed: str) -> Word:
    """An expression that raises a question."""
    return Word(_whole(pattern), {}, question, about, supposed)


def _whole(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w])(?:{pattern})(?![\w])")


_SIGNS = " ,;:/&+().-"
_JOINTS = re.compile(
    r"(?:[\s,;:/&+().-]|\b(?:and|with|w|in|of|type|door|leaf|frame|at|the|for|a)\b)+"
)


def read_words(text: str, table: tuple[Word, ...]) -> Reading:
    """What a table makes of a text: the first place where each row matches, and the words that are left."""
    lower = text.lower()
    facts: dict[str, str] = {}
    questions: list[Question] = []
    for row in table:
        found = row.pattern.search(lower)
        if found is None:
            continue
        for name, value in row.facts.items():
            facts.setdefault(name, value)
        if row.asks:
            questions.append(Question(f"{quoted(text)}: {row.asks}", "", row.about, row.supposed))
        lower = f"{lower[: found.start()]}\n{lower[found.end() :]}"
    if not facts and not questions:
        return not_understood(text)
    rest = (part.strip(_SIGNS) for part in lower.split("\n"))
    left = "; ".join(part for part in rest if part and not _JOINTS.fullmatch(part))
    return Reading(facts, tuple(questions), left)


_YES = ("y", "yes", "x", "✓", "✔", "true", "1", "•", "●", "req", "required")
_NO = (*DASHES, "n", "false", "0")


def yes_or_no(text: str) -> bool | None:
    """What a tick, a dash or a word says; None if it says neither."""
    plain = text.lower().strip(" .")
    return True if plain in _YES else False if plain in _NO else None


def reader_of_yesno(fact: str, table: tuple[Word, ...] = ()) -> Callable[[str], Reading]:
    """A reader of a yes or no, with words beside ticks and dashes."""

    def read(text: str) -> Reading:
        said = yes_or_no(text)
        if said is not None:
            return Reading({fact: "yes" if said else "no"})
        return read_words(text, table)

    return read


read_exterior = reader_of_yesno(
    "exterior",
    (
        gives(r"ext(?:erior|ernal)?\.?|e|outside|outdoors?", exterior="yes"),
        gives(r"int(?:erior|ernal)?\.?|i|inside|indoors?", exterior="no"),
    ),
)
read_accessible = reader_of_yesno(
    "accessible", (gives(r"ada|accessible|barrier[ -]free", accessible="yes"),)
)
read_smoke = reader_of_yesno("smoke", (gives(r"s|sa|s200|smoke(?: seals?| rated)?", smoke="yes"),))
