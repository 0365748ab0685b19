"""The next question of a maker's sheet that is copied number by number.

The answers are texts by their place on the sheet. From them alone follows what is asked next, or what is wrong, or the
whole sheet as plain data (`codec`), so that any answer can be taken back or changed in its place.
"""

import json
import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import MISSING, dataclass, field, replace
from functools import lru_cache
from typing import Any, TypeAlias, get_args

from guide.errors import FOUND, HingesideError
from guide.plain.sheet_questions import WORDS, Around, Words, asked
from guide.text import either, tidy
from guide.trade.sheet.codec import BadSheetError, Field, Path, SheetFault, from_plain
from guide.trade.sheet.kinds import (
    EnSizes,
    Kind,
    Measure,
    Name,
    OneOf,
    Span,
    UnreadableError,
    Whole,
    YesNo,
)
from guide.trade.sheet.sheet import Sheet

Answers: TypeAlias = "dict[Path, str]"
"""Texts by their place, in the order in which they were given; empty where the paper has nothing."""

_CLASSES = {owner.__name__: owner for owner in WORDS}
_YES_NO: Kind = get_args(YesNo)[1]
_WHOLE: Kind = get_args(Whole)[1]
_SIZES: Kind = get_args(EnSizes)[1]
_DASH = re.compile(r"([\d)a-z])\s*[-–]\s*(\d)")
"""Between two ends, as papers write it."""
NAME: Kind = get_args(Name)[1]
"""What a sheet can be called."""
_LONGER = {"y": "yes", "n": "no"}


class NotAnAnswer(HingesideError):
    """A text that does not answer the question; the message says why."""

    status = FOUND


@dataclass(frozen=True, slots=True)
class Question:
    """One line of the paper."""

    path: Path
    kind: Kind
    words: Words
    place: str
    """Part and number, as “Body, hole 2 of 6”; empty at the top of the sheet."""
    needed: bool
    """Whether it must be answered."""
    units: str
    """"inch" or "metric"; empty if not known yet."""
    options: tuple[tuple[int, str], ...] = ()
    """The words to choose from with their numbers; those of other entries are left out."""
    usual: str = ""
    """What the sheet has if it is left out; empty if nothing."""
    least: int | None = None
    """Of a count of entries, the fewest."""

    @property
    def unit(self) -> str:
        """The unit that a bare number is given; empty if it takes none."""
        if isinstance(self.kind, Measure) and self.kind.kind == "angle":
            return "deg"
        if isinstance(self.kind, Measure | Span):
            return "mm" if self.units == "metric" else "in"
        return ""

    @property
    def yes_or_no(self) -> bool:
        """Whether it is answered with yes or no."""
        return self.kind is _YES_NO

    @property
    def example(self) -> str:
        """An answer from another paper."""
        return (self.units == "metric" and self.words.metric) or self.words.inch

    def read(self, typed: str) -> str:
        """The text of the answer as a sheet has it. Raises NotAnAnswer."""
        text = tidy(typed)
        if not text or text == "-":
            if self.needed:
                raise NotAnAnswer("The sheet needs this one; type it, or “?” to see where it is.")
            return ""
        text = {str(number): option for number, option in self.options}.get(text, text)
        if isinstance(self.kind, Span) or self.kind is _SIZES:
            text = _DASH.sub(r"\1 to \2", text)
        if self.kind is _YES_NO:
            text = _LONGER.get(text.casefold(), text.casefold())
        key = str(self.path[-1])
        try:
            value = self.kind.read(key, self._with_unit(text))
            self.kind.check(key, value)
        except (UnreadableError, ValueError) as error:
            raise NotAnAnswer(str(error)) from None
        if self.least is not None and not self.least <= value <= self.words.most:
            raise NotAnAnswer(
                f"A sheet has {self.least} to {self.words.most} of them; count again."
            )
        options = [option for _, option in self.options]
        if options and text not in options:
            raise NotAnAnswer(f"Here it is {either(options)}; choose one of them.")
        return self.kind.write(value)

    def _with_unit(self, text: str) -> str:
        """Bare numbers with the unit that was shown with the question."""
        if not self.unit:
            return text
        ends = text.split(" to ") if isinstance(self.kind, Span) else [text]
        bare = all(set(end) <= set("0123456789/. -") and end for end in ends)
        return " to ".join(f"{end} {self.unit}" for end in ends) if bare else text


@dataclass(frozen=True, slots=True)
class Wrong:
    """Answers that do not go together."""

    path: Path
    """Of the line to answer again, or of the part all of whose lines are."""
    message: str


@dataclass(slots=True)
class _Missing(Exception):
    question: Question


@dataclass(slots=True)
class _DoNotAgree(Exception):
    wrong: Wrong


def next_of(answers: Mapping[Path, str]) -> "Question | Wrong | dict[str, Any]":
    """What is to be asked after these answers, what is wrong with them, or the sheet as plain data."""
    try:
        return _Copy(answers).sheet()
    except _Missing as missing:
        return missing.question
    except _DoNotAgree as error:
        return error.wrong


def answered(answers: Mapping[Path, str]) -> list[Question]:
    """The questions that have an answer, in the order of the paper, as far as the answers go together."""
    copy = _Copy(answers)
    with suppress(_Missing, _DoNotAgree):
        copy.sheet()
    return copy.answered


def question_at(answers: Mapping[Path, str], path: Path) -> Question | None:
    """The question of that place; None if none is asked there."""
    return next((one for one in answered(answers) if one.path == path), None)


@dataclass(slots=True)
class _Copy:
    """Walks through the classes of a sheet by the answers."""

    answers: Mapping[Path, str]
    answered: list[Question] = field(default_factory=list)
    """Those that have an answer, in the order of the paper."""
    _seen: dict[str, Any] = field(default_factory=dict)

    def sheet(self) -> dict[str, Any]:
        return self._part(Sheet, (), "", ())

    def _part(self, owner: type[Any], path: Path, place: str, around: Around) -> dict[str, Any]:
        data: dict[str, Any] = {}
        if owner is Sheet:
            self._seen = data
        for one, words in asked(owner):
            within = (data, *around)
            if not words.wanted(within):
                continue
            self._field(one, words, (*path, one.key), place, within)
            if owner is Sheet:
                _agree_so_far(data)
        if owner is not Sheet:
            _agree(owner, data, path)
        return data

    def _field(self, one: Field, words: Words, path: Path, place: str, within: Around) -> None:
        """Put the field into the data of its part, if it is on the paper."""
        needed = one.default is MISSING
        data: dict[str, Any] = within[0]  # type: ignore[assignment]
        if one.kind is not None:
            text = words.follows(within) or self._line(one, one.kind, words, path, place, within)
            if text:
                data[one.key] = text
        elif one.several is not None:
            least = one.several.least
            question = self._question(path, _WHOLE, words, place, needed=least > 0)
            count = int(self._answer(replace(question, least=least)) or 0)
            if count:
                rows = data[one.key] = []
                for number in range(count):
                    entry = f"{place}{place and ', '}{words.entry} {number + 1} of {count}"
                    rows.append(self._part(_part_of(one), (*path, number), entry, within))
        elif needed or self._answer(self._question(path, _YES_NO, words, place)) == "yes":
            entry = f"{place}{place and ', '}{words.entry}"
            data[one.key] = self._part(_part_of(one), path, entry, within)

    def _line(
        self, one: Field, kind: Kind, words: Words, path: Path, place: str, within: Around
    ) -> str:
        question = self._question(path, kind, words, place, needed=one.default is MISSING)
        options = tuple(enumerate(kind.allowed, start=1)) if isinstance(kind, OneOf) else ()
        if words.once:
            used = [row[one.key] for row in within[1][str(path[-3])]]
            options = tuple(option for option in options if option[1] not in used)
        elif one.key == "mount":
            mounts = [row["mount"] for row in self._seen.get("mounts", ())]
            options = tuple(option for option in options if option[1] in mounts) or options
        usual = "" if one.default in (MISSING, None) else kind.write(one.default)
        return self._answer(replace(question, options=options, usual=usual))

    def _question(
        self, path: Path, kind: Kind, words: Words, place: str, *, needed: bool = False
    ) -> Question:
        return Question(path, kind, words, place, needed, self._seen.get("units", ""))

    def _answer(self, question: Question) -> str:
        """The answer. _Missing if there is none, or one that does not suit: a draft may be of an older program."""
        try:
            text = question.read(self.answers[question.path])
        except (KeyError, NotAnAnswer):
            raise _Missing(question) from None
        self.answered.append(question)
        return text


def _part_of(one: Field) -> type[Any]:
    assert one.part is not None
    return one.part


def _agree(owner: type[Any], data: Mapping[str, Any], path: Path) -> None:
    """Raise _DoNotAgree if the lines of a part contradict each other."""
    fault = _fault(owner.__name__, json.dumps(data))
    if fault is not None:
        raise _DoNotAgree(Wrong((*path, *fault.path), fault.message))


@lru_cache(maxsize=1024)
def _fault(owner: str, data: str) -> SheetFault | None:
    """What is wrong with a part; looked at again with every answer, and worked out once."""
    try:
        from_plain(_CLASSES[owner], json.loads(data))
    except BadSheetError as error:
        return error.faults[0]
    return None


_FIRST = ("sheet", "about", "units", "sizes", "adjustable")
_A_MOUNT = {
    "mount": "regular",
    "along_from": "hinge edge",
    "datum": "top of the leaf",
    "valves_toward": "hinge",
    "arm_rests": "-",
    "ranges": [
        {
            "up_to": "90 deg",
            **dict.fromkeys(("body_along", "body_datum", "shoe_along", "shoe_datum"), "1 in"),
        }
    ],
}
"""In place of the mounts until they are copied, so that what comes before them is checked at once."""


def _agree_so_far(data: Mapping[str, Any]) -> None:
    if all(key in data for key in _FIRST):
        _agree(Sheet, {"mounts": [_A_MOUNT], **data}, ())
