"""Copying a maker's sheet line by line: asks number by number, and keeps every answer in a draft.

What is asked is decided in `sheet_paper`; here it is shown, read and kept, and at the end the check of the sheet offers
each number that it finds to be typed again.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from guide.plain.loop import Print, ReadLine
from guide.plain.render import wrapped
from guide.plain.sheet_draft import Draft
from guide.plain.sheet_paper import (
    NotAnAnswer,
    Question,
    WhichSide,
    Wrong,
    answered,
    next_of,
    question_at,
)
from guide.text import printable, short
from guide.trade.sheet.codec import Path
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.finding import SheetFinding
from guide.translation import _

Check = Callable[[Sheet], "tuple[SheetFinding, ...]"]

INTRODUCTION = _("""\
Have the maker's sheet in front of you. Type each number as the paper has it.
If a number is on one side of a line, say the side: “4 3/4 below”, “2 up”.
Enter alone accepts what is shown, or says that the paper does not have it.
Every answer is kept at once.
?          where on the paper it is
back       take the last answer back
list       the last answers with their numbers; “list all” has all of them
change 12  answer number 12 again
keep       leave the rest of what is offered as it is
stop       pause; start again the same way to continue""")
LISTED = 15
"""Answers that “list” shows."""


class Ended(Exception):
    """The lines have ended before the sheet was whole: by “stop”, the end of the input, or Ctrl-C."""


@dataclass(slots=True)
class SheetDialogue:
    """One sheet that is being copied."""

    draft: Draft
    read: ReadLine
    show: Print
    check: Check
    _place: str | None = None
    """The heading that is shown above the question."""
    _wrong: Wrong | None = None
    """What did not go together when it was last looked at."""
    _left: set[tuple[str, Path, str]] = field(default_factory=set)
    """Findings that the person left as they are: code, place and text."""
    slips: int = 0
    """Answers that were refused, taken back or corrected."""

    def whole(self) -> tuple[dict[str, Any], tuple[SheetFinding, ...]]:
        """Ask until the sheet is whole and every finding is corrected or left.

        Gives the sheet as plain data, and the findings that remain. Raises Ended, OSError.
        """
        while True:
            found = next_of(self.draft.answers)
            if isinstance(found, Question):
                self._ask(found)
            elif isinstance(found, Wrong):
                self._take_back(found)
            else:
                findings = self.check(Sheet.from_json(found))
                if self._all_left(findings):
                    return found, findings

    def _ask(self, question: Question) -> None:
        """Ask until it is answered, or another answer is to be given again."""
        place = question.place or _("The sheet")
        if place != self._place:
            self._place = place
            self.show("")
            self.show(printable(place))
        before = self.draft.before.get(question.path)
        while True:
            for line in wrapped(_asked(question, before)):
                self.show(f"  {line}")
            typed = self.line()
            if typed == "?":
                self._help(question)
            elif typed.casefold() in ("list", "list all"):
                self._list(LISTED if typed.casefold() == "list" else None)
            elif typed.casefold() == "back" or typed.casefold().startswith("change "):
                if self._again(typed.casefold()):
                    return
            elif typed.casefold() == "keep" and self.draft.before:
                self.draft.take_offered()
                self.draft.keep()
                return
            elif self._answered(question, typed, before):
                return

    def _answered(self, question: Question, typed: str, before: str | None) -> bool:
        try:
            offered = not typed and before is not None
            text = question.read(before or "") if offered else question.typed(typed)
        except WhichSide as number:
            return self._on_a_side(question, str(number))
        except NotAnAnswer as error:
            self._refuse(error)
            return False
        self._give(question.path, text)
        return True

    def _on_a_side(self, question: Question, size: str) -> bool:
        """Ask for the side of a number; False where the number is to be typed again."""
        sides = question.words.sides
        assert sides is not None
        while True:
            for line in wrapped(f"{size}: 1 {sides.plus}, or 2 {sides.minus}?"):
                self.show(f"  {line}")
            typed = self.line()
            if typed == "?":
                self._help(question)
                continue
            if typed.casefold() in ("", "back"):
                return False
            try:
                sign = question.side(typed)
            except NotAnAnswer as error:
                self._refuse(error)
                continue
            if sign:
                self._give(question.path, question.on_side(size, sign))
                return True

    def _refuse(self, error: NotAnAnswer) -> None:
        self.slips += 1
        for line in wrapped(f"! {printable(str(error))}"):
            self.show(f"  {line}")

    def _list(self, most: int | None) -> None:
        rows = list(enumerate(self._known(), start=1))
        for number, one in rows[-most:] if most else rows:
            kept = self.draft.answers.get(one.path, self.draft.before.get(one.path, ""))
            text = short(one.shown(kept)) or one.usual or "(none)"
            place = f"{one.place}, {one.path[-1]}" if one.place else str(one.path[-1])
            self.show(printable(f"  {number:>4}  {place.replace('_', ' ')}: {text}"))

    def _known(self) -> list[Question]:
        """The questions that have an answer, or one that is offered, in the order of the paper."""
        return answered({**self.draft.before, **self.draft.answers})

    def _again(self, typed: str) -> bool:
        """Take an answer back, the last one or that of a number; whether there is one."""
        rows = self._known()
        number = typed.removeprefix("change ").strip()
        if typed == "back":
            if not self.draft.take_back_last():
                self.show(_("  This is the first question."))
                return False
        elif number.isdecimal() and 0 < int(number) <= len(rows):
            path = rows[int(number) - 1].path
            if path in self.draft.before:
                self.draft.take_offered([one.path for one in rows[: int(number) - 1]])
            else:
                self.draft.take_back_one(path)
        else:
            self.show(
                _("  Type the number of an answer, 1 to {count}; “list” shows them.").format(
                    count=len(rows)
                )
            )
            return False
        self.slips += 1
        self._place = None
        self.draft.keep()
        return True

    def _give(self, path: Path, text: str) -> None:
        self.draft.give(path, text)
        self.draft.keep()

    def line(self) -> str:
        """What the person types. Raises Ended."""
        typed = self.read()
        if typed is None or typed.strip().casefold() == "stop":
            raise Ended
        return typed.strip()

    def _help(self, question: Question) -> None:
        for line in wrapped(question.words.where):
            self.show(f"    {line}")

    def _take_back(self, wrong: Wrong) -> None:
        """Say what does not go together, and have it answered again: the line, or if that did not help, its part."""
        self.slips += 1
        self.show("")
        for line in wrapped(f"! {printable(wrong.message)}"):
            self.show(line)
        again = self._wrong is not None and self._wrong.message == wrong.message
        self.draft.take_back(wrong.path[:-1] if again and len(wrong.path) > 1 else wrong.path)
        self._wrong = wrong
        self._place = None
        self.draft.keep()

    def _all_left(self, findings: "tuple[SheetFinding, ...]") -> bool:
        """Offer each finding that is new; False as soon as a number is corrected, for then all is checked again."""
        for finding in findings:
            text = self.draft.answers.get(finding.path, "")
            key = (finding.code, finding.path, text)
            if key in self._left:
                continue
            self.show("")
            for line in wrapped(f"! {printable(finding.message)}"):
                self.show(line)
            question = question_at(self.draft.answers, finding.path)
            if question is not None and self._corrected(question, text):
                return False
            self._left.add(key)
        return True

    def _corrected(self, question: Question, text: str) -> bool:
        """Ask for one number again; whether it was changed."""
        while True:
            now = f"It is {printable(question.shown(text))}." if text else _("It was left out.")
            words = _(
                "Type it as the paper has it, Enter to leave it, or “list” for the other answers:"
            )
            for line in wrapped(f"{now} {words}"):
                self.show(f"  {line}")
            typed = self.line()
            if typed == "?":
                self._help(question)
                continue
            if typed.casefold() in ("list", "list all"):
                self._list(LISTED if typed.casefold() == "list" else None)
                continue
            if typed.casefold().startswith("change "):
                if self._again(typed.casefold()):
                    return True
                continue
            if not typed or typed.casefold() == "back":
                return False
            if self._answered(question, typed, None):
                changed = self.draft.answers[question.path] != text
                self.slips += changed
                return changed


def _left_out(question: Question) -> str:
    if question.usual and (question.options or question.yes_or_no):
        return _("for {usual}").format(usual=question.usual)
    return _("if none")


def _asked(question: Question, before: str | None) -> str:
    """The question as it is shown: the words, the choices or the unit with an example, and what Enter does."""
    words = question.words.ask
    parts = []
    if question.options:
        numbered = (f"{number} {one}" for number, one in question.options)
        words += f": {', '.join(numbered)}"
    elif question.unit:
        words += f" [{question.unit}]"
    if question.yes_or_no:
        parts.append(_("yes or no"))
    elif question.example and not question.options:
        parts.append(_("such as {example}").format(example=question.example))
    if before:
        parts.append(_("Enter for {short}").format(short=short(question.shown(before))))
    if not question.needed:
        parts.append(f"{'-' if before else 'Enter'} {_left_out(question)}")
    return printable(words + (f" ({'; '.join(parts)})" if parts else ""))
