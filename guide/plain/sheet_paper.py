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
from guide.plain.sheet_sides import NotASide
from guide.text import either, tidy
from guide.trade.sheet.codec import BadSheetError, Field, Path, SheetFault, from_plain
from guide.trade.sheet.kinds import (
    EnSizes,
    Kind,
    Measure,
    Name,
    OneOf,
    Prose,
    Span,
    UnreadableError,
    Whole,
    YesNo,
)
from guide.trade.sheet.sheet import Sheet
from guide.translation import _

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
_OTHER_UNIT = re.compile(r"(?<=\d)\s*[\[(][^\[\]()]*[\])]$")
"""The same in the other system of units, which papers add in brackets."""
_WORD = re.compile(r"[a-z]+")
_SAYS_NOTHING = ("the", "of", "screw", "screws", "valve", "speed", "arm", "mount", "mounting")
_ALSO = {
    "mm": "metric",
    "millimetres": "metric",
    "millimeters": "metric",
    "in": "inch",
    "door": "leaf",
    "cw": "clockwise",
    "ccw": "anticlockwise",
    "counterclockwise": "anticlockwise",
    "closing": "sweep",
}
"""What people say for a word of an option."""
_LONGER = {"y": "yes", "n": "no"}


_MEASURE_IT = _("If the paper does not have it, measure it on the part itself, in the box.")
_LACKING = {
    "SheetBody": _MEASURE_IT,
    "SheetShoe": _MEASURE_IT,
    "SheetArm": _MEASURE_IT,
    "Hole": _MEASURE_IT,
    "OpeningRange": _(
        "A row that lacks it cannot be used: “change” the number of rows, and leave this one out."
    ),
}
"""What to do where the paper is silent on a number that no hole can be set out without."""


class NotAnAnswer(HingesideError):
    """A text that does not answer the question; the message says why."""

    status = FOUND


class WhichSide(HingesideError):
    """A number without its side; the message is the number as a sheet has it."""

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
    lacking: str = ""
    """What to do if it must be answered and the paper does not have it, a sentence."""

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

    def shown(self, text: str) -> str:
        """An answer as it is shown: with its side in words."""
        sides = self.words.sides
        return text if sides is None else sides.told(text)

    def typed(self, typed: str) -> str:
        """The text of an answer that a person typed, with its side in words. Raises WhichSide, NotAnAnswer."""
        text, sides = tidy(typed), self.words.sides
        if sides is None or text in ("", "-"):
            return self.read(text)
        try:
            number, sign = sides.split(text)
        except NotASide as error:
            raise NotAnAnswer(str(error)) from None
        size = self.read(number)
        if sign == 0 and any(one in "123456789" for one in size):
            raise WhichSide(size)
        return self.on_side(size, sign)

    def on_side(self, size: str, sign: int) -> str:
        """The answer with that size, on the side of 1 or -1."""
        size = size.removeprefix("-")
        return self.read(f"-{size}") if sign < 0 and size[:2] != "0 " else self.read(size)

    def side(self, typed: str) -> int:
        """1 or -1 for a side in words or by its number; 0 for none. Raises NotAnAnswer."""
        assert self.words.sides is not None
        if typed in ("1", "2"):
            return 1 if typed == "1" else -1
        try:
            return self.words.sides.sign(typed)
        except NotASide as error:
            raise NotAnAnswer(str(error)) from None

    def read(self, typed: str) -> str:
        """The text of the answer as a sheet has it. Raises NotAnAnswer."""
        text = tidy(typed)
        if not text or text == "-":
            if self.needed:
                hint = f" {self.lacking}" if self.lacking else ""
                raise NotAnAnswer(
                    _("The sheet needs this one; type it, or “?” to see where it is.{hint}").format(
                        hint=hint
                    )
                )
            return ""
        if not isinstance(self.kind, Prose | OneOf):
            text = text.replace("−", "-").removeprefix("+").lstrip()
        text = {str(number): option for number, option in self.options}.get(text, text)
        if isinstance(self.kind, OneOf):
            text = _option_meant(text, self.kind.allowed)
        if isinstance(self.kind, Measure | Span):
            text = _OTHER_UNIT.sub("", text)
        if isinstance(self.kind, Span) or self.kind is _SIZES:
            text = _DASH.sub(r"\1 to \2", text)
        if self.kind is _YES_NO:
            text = _LONGER.get(text.casefold(), text.casefold())
        key = str(self.path[-1]).replace("_", " ")
        try:
            value = self.kind.read(key, self._with_unit(text))
            self.kind.check(key, value)
        except (UnreadableError, ValueError) as error:
            message = str(error).removeprefix(f"“{key}” is ")
            raise NotAnAnswer(message) from None
        if self.least is not None and not self.least <= value <= self.words.most:
            raise NotAnAnswer(
                _("A sheet has {least} to {most} of them; count again.").format(
                    least=self.least, most=self.words.most
                )
            )
        options = [option for _, option in self.options]
        if options and text not in options:
            raise NotAnAnswer(
                _("Here it is {either}; choose one of them.").format(either=either(options))
            )
        return self.kind.write(value)

    def _with_unit(self, text: str) -> str:
        """Bare numbers with the unit that was shown with the question."""
        if not self.unit:
            return text
        ends = text.split(" to ") if isinstance(self.kind, Span) else [text]
        bare = all(set(end) <= set("0123456789/. -") and end for end in ends)
        return " to ".join(f"{end} {self.unit}" for end in ends) if bare else text


def _option_meant(text: str, allowed: tuple[str, ...]) -> str:
    """The one option that the words typed can mean, such as “frame” for “frame face”; the text itself if none, or
    several."""
    if text in allowed:
        return text
    said = [one for one in _WORD.findall(text.casefold()) if one not in _SAYS_NOTHING]
    said = [_ALSO.get(one, one) for one in said]
    found = [
        option
        for option in allowed
        if said
        and all(any(_same_word(one, word) for word in _WORD.findall(option)) for one in said)
    ]
    return found[0] if len(found) == 1 else text


def _same_word(one: str, other: str) -> bool:
    """Whether one begins with the other, as “inches” with “inch”."""
    short, long = sorted((one, other), key=len)
    return len(short) > 1 and long.startswith(short)


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
    """The questions that have an answer, in the order of the paper, also past what is missing or contradicts itself."""
    copy = _Copy(answers, onward=True)
    copy.sheet()
    return copy.answered


def answers_of(sheet: Mapping[str, Any]) -> Answers:
    """The answers that give this sheet, in the order in which they are asked."""
    copy = _Copy({}, copied=sheet)
    with suppress(_DoNotAgree):
        copy.sheet()
    return {one.path: _read_again(one, _on_sheet(sheet, one)) for one in copy.answered}


def _on_sheet(sheet: Mapping[str, Any], question: Question) -> str:
    """What a sheet answers: a line, a count, or yes for a part; empty if it is silent."""
    found: Any = sheet
    for step in question.path:
        found = found.get(step) if isinstance(found, Mapping) else found[step]
        if found is None:
            return ""
    if isinstance(found, list):
        return str(len(found))
    return "yes" if isinstance(found, Mapping) else str(found)


def question_at(answers: Mapping[Path, str], path: Path) -> Question | None:
    """The question of that place; None if none is asked there."""
    return next((one for one in answered(answers) if one.path == path), None)


@dataclass(slots=True)
class _Copy:
    """Walks through the classes of a sheet by the answers."""

    answers: Mapping[Path, str]
    onward: bool = False
    """Whether to go on past what is missing or contradicts itself; then only `answered` counts."""
    copied: Mapping[str, Any] | None = None
    """A whole sheet, which gives the answers instead."""
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
            # Going onward, an answer that decides on this one may be missing.
            with suppress(*((KeyError,) if self.onward else ())):
                if words.wanted(within):
                    here = words.here(within)
                    self._field(one, here, (*path, one.key), (owner.__name__, place), within)
            if owner is Sheet and not self.onward:
                _agree_so_far(data)
        if owner is not Sheet and not self.onward:
            _agree(owner, data, path)
        return data

    def _field(
        self, one: Field, words: Words, path: Path, at: tuple[str, str], within: Around
    ) -> None:
        """Put the field into the data of its part, if it is on the paper. `at` is the class, and where it is shown."""
        owner, place = at
        needed = one.default is MISSING
        data: dict[str, Any] = within[0]  # type: ignore[assignment]
        if one.kind is not None:
            text = words.follows(within) or self._line(one, one.kind, words, path, at, within)
            if text:
                data[one.key] = text
        elif one.several is not None:
            least = one.several.least
            question = self._question(path, _WHOLE, words, (owner, place), needed=least > 0)
            count = int(self._answer(replace(question, least=least)) or 0)
            if count:
                rows = data[one.key] = []
                for number in range(count):
                    entry = f"{place}{place and ', '}{words.entry} {number + 1} of {count}"
                    rows.append(self._part(_part_of(one), (*path, number), entry, within))
        elif needed or self._answer(self._question(path, _YES_NO, words, at)) == "yes":
            entry = f"{place}{place and ', '}{words.entry}"
            data[one.key] = self._part(_part_of(one), path, entry, within)

    def _line(
        self,
        one: Field,
        kind: Kind,
        words: Words,
        path: Path,
        at: tuple[str, str],
        within: Around,
    ) -> str:
        question = self._question(path, kind, words, at, needed=one.default is MISSING)
        options = tuple(enumerate(kind.allowed, start=1)) if isinstance(kind, OneOf) else ()
        if words.once:
            used = [row.get(one.key) for row in within[1][str(path[-3])]]
            options = tuple(option for option in options if option[1] not in used)
        elif one.key == "mount":
            mounts = [row.get("mount") for row in self._seen.get("mounts", ())]
            options = tuple(option for option in options if option[1] in mounts) or options
        usual = "" if one.default in (MISSING, None) else kind.write(one.default)
        if options or usual:
            question = replace(question, options=options, usual=usual)
        return self._answer(question)

    def _question(
        self, path: Path, kind: Kind, words: Words, at: tuple[str, str], *, needed: bool = False
    ) -> Question:
        owner, place = at
        units = self._seen.get("units", "")
        lacking = _LACKING.get(owner, "")
        return Question(path, kind, words, place, needed, units, lacking=lacking)

    def _answer(self, question: Question) -> str:
        """The answer. _Missing if there is none, or one that does not suit: a draft may be of an older program."""
        if self.copied is not None:
            text = _read_again(question, _on_sheet(self.copied, question))
        else:
            try:
                text = _read_again(question, self.answers[question.path])
            except (KeyError, NotAnAnswer):
                if self.onward:
                    return ""
                raise _Missing(question) from None
        self.answered.append(question)
        return text


@lru_cache(maxsize=4096)
def _read_again(question: Question, text: str) -> str:
    """The text of an answer that is kept; read again with every answer after it, and worked out once."""
    return question.read(text)


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
    "along_from": _("hinge edge"),
    "datum": _("top of the leaf"),
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
