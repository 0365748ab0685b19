"""The desk of one run: the presentation model that all front ends share, with every command of a person.

Each front end translates a key, a line or a word into a command by a table of its own, gives it to the desk, and
renders the outcome. The desk keeps what is looked at and what is being changed. Every event goes through `step`.
"""

from collections.abc import Callable, Mapping
from typing import Any

from guide.procedure.facts import WrongAnswer
from guide.run import desk_commands, desk_words, replies
from guide.run.desk_view import DeskView
from guide.run.desk_words import KEYS, Way
from guide.run.outcomes import (
    NOTE,
    PHOTO,
    RESOLVE,
    SAFE,
    SHOWS,
    TAKE_UP,
    Outcome,
    Refusal,
)
from guide.run.step import CUT_REPORTS, RESOLUTIONS, Refused
from guide.text import printable

ANSWERED = ("choice", "measure", "count", "text", "values")
"""What a question waits for: an answer, which can be changed later."""
_NUMBERS = ("1", "2", "3")
_MOST_TOLD = 40
"""The most characters of a typed line that a message quotes."""


class Desk(DeskView):
    """One run, its commands and its answers: what each does is decided here and in `desk_commands`."""

    # What the person does

    def command(self, name: str, words: str = "", by: Way = KEYS) -> Outcome:
        """Do a command by its name in the lexicon; `words` are what was given with it.

        Raises JournalError if an event cannot be kept.
        """
        does = desk_commands.COMMANDS.get(name)
        if does is None:
            return Refusal(self.not_here(name, by))
        if name not in desk_commands.BESIDE:
            self.over = ""
        return self._tried(lambda: does(self, name, words, by), by)

    def enter(self, text: str, by: Way = KEYS, swings: Mapping[str, Any] | None = None) -> Outcome:
        """Accept what was typed: words that are wanted, or an answer. `swings` as in `replies.answer`.

        Raises JournalError if an event cannot be kept.
        """
        return self._tried(lambda: self._entered(text, by, swings), by, text)

    def pick(self, number: int, by: Way = KEYS) -> Outcome:
        """Accept one of the answers listed, counted from 0. Raises JournalError as `enter` does."""
        choices = self.accepts.choices
        if number >= len(choices):
            picks = by.tell("{pick}", self.accepts)
            return Refusal(f"There are {len(choices)} answers; {picks}.")
        return self._tried(lambda: self._picked(choices[number].value, by), by)

    # Within

    def _tried(self, does: Callable[[], Outcome], by: Way, text: str = "") -> Outcome:
        accepts = self.accepts
        try:
            return does()
        except Refused as refused:
            return Refusal(str(refused))
        except WrongAnswer as wrong:
            if not text.strip():
                return Refusal(by.waits(accepts))
            if accepts.kind != "choice":
                return Refusal(str(wrong))
            said = by.tell(desk_words.NOT_LISTED, accepts, text=_short(text))
            return Refusal(said)

    # Answers

    def _entered(self, text: str, by: Way, swings: Mapping[str, Any] | None) -> Outcome:
        state, kind = self.session.state, self.accepts.kind
        if self.purpose:
            return self.worded(text, by)
        if self.at is not None and not self.changing:
            if not text.strip():
                return self.look(None)
            answered = self.shown.accepts.kind in ANSWERED
            raise Refused(
                by.tell(desk_words.CHANGE_FIRST if answered else desk_words.NOTHING_ASKED)
            )
        if kind in ANSWERED and (text.strip() or not self.accepts.suggestion):
            return self.answer(text, swings)
        if not text.strip():
            return desk_commands.done(self, "", "", by)
        if kind == "read-back" and text.strip() in _NUMBERS:
            return self.pick(int(text) - 1, by)
        how, _, note = text.strip().partition(" ")
        how = how.casefold().rstrip(":,")
        if kind == "report":
            return self.send(replies.report(state, _listed(how, CUT_REPORTS)))
        if kind == "resolve":
            return self._resolve(_listed(how, RESOLUTIONS), note, by)
        if how == "stop":
            raise Refused(by.tell(desk_words.NOT_STOPPED))
        raise Refused(
            by.tell(desk_words.NOT_UNDERSTOOD, text=_short(text), instead=by.instead(self.accepts))
        )

    def worded(self, text: str, by: Way) -> Outcome:
        """The words that were wanted."""
        if self.purpose == NOTE:
            return desk_commands.noted(self, text)
        if self.purpose in (PHOTO, SHOWS):
            from guide.run import desk_photos  # few jobs have a photo

            add = desk_photos.file_named if self.purpose == PHOTO else desk_photos.shown
            return add(self, text)
        if self.purpose == SAFE:
            return desk_commands.safe(self, "", text, by)
        if self.purpose == TAKE_UP:
            return desk_commands.take_up(self, "", text, by)
        return self._resolve(self.how, text, by)

    def _resolve(self, how: str, note: str, by: Way) -> Outcome:
        if not note.strip() and how in RESOLUTIONS and self.purpose != RESOLVE:
            self.how = how
            return self.wants(RESOLVE, desk_words.WRITE_WORK.format(how=how.capitalize()))
        return self.send(replies.resolve(self.session.state, how, note), desk_words.RESOLVED)

    def _picked(self, value: str, by: Way) -> Outcome:
        state, kind = self.session.state, self.accepts.kind
        if kind == "read-back":
            return self.send(replies.confirm(state, value == "yes"))
        if kind == "report":
            return self.send(replies.report(state, value))
        if kind == "resolve":
            return self._resolve(value, "", by)
        return self.answer(value)


def _listed(text: str, of: tuple[str, ...]) -> str:
    """The word of a list by its number; any other text unchanged."""
    return of[int(text) - 1] if text in _NUMBERS else text


def _short(text: str) -> str:
    return printable(text.strip()[:_MOST_TOLD])
