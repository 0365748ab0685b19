"""The draft of a sheet that is being copied: a file beside it, written again after every answer."""

import json
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from guide.errors import FOUND, HingesideError
from guide.files.writing import write_beside
from guide.plain.sheet_paper import Answers
from guide.trade.sheet.codec import Path as Place
from guide.translation import _

_FORM = 1
_TABLES = ("spring_settings", "chart")
"""Tables whose lines are told apart by their own numbers."""


class BadDraft(HingesideError):
    """A file that is not a draft of this program."""

    status = FOUND


@dataclass(slots=True)
class Draft:
    """What has been answered so far."""

    path: Path
    answers: Answers = field(default_factory=dict)
    """In the order in which they were given."""
    before: Answers = field(default_factory=dict)
    """Answers that were taken back; Enter gives them again."""

    @staticmethod
    def of(path: Path) -> "Draft":
        """The draft in that file, or an empty one. Raises BadDraft, OSError."""
        try:
            data = json.loads(path.read_text("utf-8"))
        except FileNotFoundError:
            return Draft(path)
        except (ValueError, RecursionError):
            raise _bad(path) from None
        if not (isinstance(data, dict) and data.get("sheet_draft") == _FORM):
            raise _bad(path)
        try:
            return Draft(path, _read(data["answers"]), _read(data["before"]))
        except (KeyError, TypeError, ValueError):
            raise _bad(path) from None

    def keep(self) -> None:
        """Write it. Raises OSError."""
        data = {
            "sheet_draft": _FORM,
            "answers": _written(self.answers),
            "before": _written(self.before),
        }
        self.path.parent.mkdir(parents=True, exist_ok=True)
        write_beside(self.path, json.dumps(data, ensure_ascii=False).encode())

    def give(self, place: Place, text: str) -> None:
        """Put an answer in its place, as the last one given. Another answer for the first column of a table makes what
        was on its line before that of another line, which is not offered any more."""
        self.answers.pop(place, None)
        was = self.before.pop(place, None)
        if was not in (None, "", text) and place[0] in _TABLES:
            for one in [one for one in self.before if one[:2] == place[:2]]:
                del self.before[one]
        self.answers[place] = text

    def take_back(self, place: Place) -> None:
        """Take back the answer of a line, or all those of a part; they are offered when they are asked again."""
        while not (found := [one for one in self.answers if one[: len(place)] == place]):
            place = place[:-1]
        for one in found:
            self.before[one] = self.answers.pop(one)

    def take_back_last(self) -> bool:
        """Take back the answer that was given last; False if there is none."""
        if not self.answers:
            return False
        self.take_back_one(next(reversed(self.answers)))
        return True

    def offer(self, answers: Answers) -> None:
        """Have these offered when they are asked."""
        self.before.update(answers)

    def take_offered(self, places: Iterable[Place] | None = None) -> None:
        """Give again what is offered in these places, or all of it."""
        for place in list(self.before if places is None else places):
            if place in self.before:
                self.answers[place] = self.before.pop(place)

    def take_back_one(self, place: Place) -> None:
        """Take back that answer alone."""
        self.before[place] = self.answers.pop(place)


def _bad(path: Path) -> BadDraft:
    return BadDraft(
        _(
            "{path} is not a draft of a sheet; move it to another folder, or choose another file with -o."
        ).format(path=path)
    )


def _written(answers: Answers) -> list[list[Any]]:
    return [[list(place), text] for place, text in answers.items()]


def _read(rows: Any) -> Answers:
    found: Answers = {}
    for place, text in rows:
        if not (isinstance(text, str) and all(isinstance(one, str | int) for one in place)):
            raise TypeError
        found[tuple(place)] = text
    return found
