"""The desk of one run: what is looked at, what is being changed, and what every command does.

Each front end translates a key, a line or a word into a command by a table of its own, gives it to the desk, and
renders what comes of it. The rules of the run itself are those of `step`; nothing here passes them by.
"""

from collections.abc import Callable, Mapping
from typing import Any

from guide.procedure.facts import UNSURE, Value, WrongAnswer
from guide.run import desk_commands, desk_words, replies
from guide.run.desk_words import KEYS, Way
from guide.run.outcomes import (
    NOTE,
    RESOLVE,
    SAFE,
    Asks,
    Look,
    Outcome,
    Refusal,
    Sent,
)
from guide.run.prompt import Accepts, Prompt, prompt
from guide.run.replies import Draft
from guide.run.session import Session
from guide.run.settings import DETAILS
from guide.run.state import Occurrence
from guide.run.step import CUT_REPORTS, RESOLUTIONS, Refused
from guide.run.step_drawing import DrawnOpening
from guide.text import printable

_LOOKED_AT = Accepts("nothing")
_ANSWERED = ("choice", "measure", "count", "text")
_NUMBERS = ("1", "2", "3")
_READ_FIRST = ("hold", "begin", "report", "resolve")
_MOST_TOLD = 40
"""Characters of a line that are told back."""


class Desk:
    """One run, as the person at it has it before them."""

    def __init__(self, session: Session, detail: str = "full") -> None:
        self.session = session
        self.detail = detail
        self.changing = False
        """Whether the answer looked at is being given anew."""
        self.purpose = ""
        """NOTE, SAFE or RESOLVE while words are wanted for it."""
        self.how = ""
        """With RESOLVE: what became of the cut."""
        self.reason = ""
        """With SAFE: the reason, once it was given and only a yes is wanted."""
        self.over = ""
        """HELP, KNOWN or DRAWING while it is shown in the place of the step."""
        self.drawing: DrawnOpening | None = None
        """With DRAWING: what is drawn."""
        self.supposed: dict[str, Value] = {}
        """An answer that is only marked, for the drawing."""
        self.left = False
        """Whether the job was put by, or its end was seen."""
        self._at: Occurrence | None = None
        self._of: tuple[object, Occurrence | None] = (None, None)
        self._shown = prompt(session.state)

    # What is before the person

    @property
    def at(self) -> Occurrence | None:
        """The earlier block that is looked at; None where the run stands."""
        at = self._at
        return at if at is not None and at in self.session.state.path else None

    @property
    def cards(self) -> bool:
        """Whether the steps of a card are shown together, and so are done together."""
        return self.detail == DETAILS[1]

    @property
    def ending(self) -> bool:
        """Whether only a yes is wanted to make the job safe and end it."""
        return self.purpose == SAFE and bool(self.reason)

    @property
    def read_first(self) -> bool:
        """Whether a hold or a cut is before the person: nothing that was typed before it was shown is meant for it."""
        cutting = self.session.state.open_cut() is not None
        return cutting or self.accepts.kind in _READ_FIRST

    @property
    def shown(self) -> Prompt:
        """What is looked at, or where the run stands."""
        state, at = self.session.state, self.at
        if self._of[0] is not state or self._of[1] != at:
            self._of, self._shown = (state, at), prompt(state, at)
        return self._shown

    @property
    def accepts(self) -> Accepts:
        """What is taken now: nothing while an earlier block is only looked at."""
        return self.shown.accepts if self.at is None or self.changing else _LOOKED_AT

    # What the person does

    def command(self, name: str, words: str = "", by: Way = KEYS) -> Outcome:
        """Do a command by its name in the lexicon; `words` are what was given with it.

        Raises JournalError where an event cannot be kept.
        """
        does = desk_commands.COMMANDS.get(name)
        if does is None:
            return Refusal(self.not_here(name, by))
        if name not in desk_commands.BESIDE:
            self.over = ""
        return self._tried(lambda: does(self, name, words, by), by)

    def enter(self, text: str, by: Way = KEYS, swings: Mapping[str, Any] | None = None) -> Outcome:
        """Take what was typed: words that are wanted, or an answer. `swings` as in `replies.answer`.

        Raises JournalError where an event cannot be kept.
        """
        return self._tried(lambda: self._entered(text, by, swings), by, text)

    def pick(self, number: int, by: Way = KEYS) -> Outcome:
        """Take one of the answers listed, counted from 0. Raises JournalError as `enter` does."""
        choices = self.accepts.choices
        if number >= len(choices):
            picks = by.tell("{pick}", self.accepts)
            return Refusal(f"There are {len(choices)} answers; {picks}.")
        return self._tried(lambda: self._picked(choices[number].value, by), by)

    def look(self, at: Occurrence | None, *, changing: bool = False) -> Look:
        """Look at a block, or where the run stands."""
        state = self.session.state
        self._at = at if at in state.path and at != state.at else None
        self.changing = changing and self.at is not None
        self.leave_words()
        self.over = ""
        return Look()

    def send(self, draft: Draft, told: str = "") -> Sent:
        """Send one event; the run is shown where it stands then.

        Raises Refused where the run does not take it and JournalError where it cannot be kept.
        """
        self.session.send(draft)
        self.look(None)
        return Sent((draft[0],), told)

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

    def leave_words(self) -> None:
        """Want no words any more."""
        self.purpose = self.how = self.reason = ""
        self.supposed = {}

    def not_here(self, name: str, by: Way) -> str:
        """Why a command is not taken, and what would be."""
        instead = by.instead(self.accepts)
        return by.tell(desk_words.NOT_HERE, name=by.names.get(name, name), instead=instead)

    def wants(self, purpose: str, told: str) -> Asks:
        """Want words for a purpose."""
        self.purpose, self.reason = purpose, ""
        return Asks(purpose, told)

    # Answers

    def _entered(self, text: str, by: Way, swings: Mapping[str, Any] | None) -> Outcome:
        state, kind = self.session.state, self.accepts.kind
        if self.purpose:
            return self.worded(text, by)
        if self.at is not None and not self.changing:
            if not text.strip():
                return self.look(None)
            answered = self.shown.accepts.kind in _ANSWERED
            raise Refused(
                by.tell(desk_words.CHANGE_FIRST if answered else desk_words.NOTHING_ASKED)
            )
        if kind in _ANSWERED:
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
        raise Refused(
            by.tell(desk_words.NOT_UNDERSTOOD, text=_short(text), instead=by.instead(self.accepts))
        )

    def worded(self, text: str, by: Way) -> Outcome:
        """The words that were wanted."""
        state, at = self.session.state, self.at
        if self.purpose == NOTE:
            changing = self.changing
            sent = self.send(replies.note(state, text), desk_words.NOTED)
            self.look(at, changing=changing)
            return sent
        if self.purpose == SAFE:
            return desk_commands.safe(self, "", text, by)
        return self._resolve(self.how, text, by)

    def _resolve(self, how: str, note: str, by: Way) -> Outcome:
        if not note.strip() and how in RESOLUTIONS and self.purpose != RESOLVE:
            self.how = how
            return self.wants(RESOLVE, desk_words.WRITE_WORK.format(how=how.capitalize()))
        return self.send(replies.resolve(self.session.state, how, note), desk_words.RESOLVED)

    def answer(self, text: str, swings: Mapping[str, Any] | None = None) -> Sent:
        """Answer what is asked, or what is being changed. Raises WrongAnswer and Refused."""
        accepts, at = self.accepts, self.at
        last = accepts.choices[-1].value if accepts.kind == "choice" else ""
        if last == UNSURE and text.strip() == str(len(accepts.choices)):
            text = UNSURE  # a fact knows the numbers of its own answers, and this is none of them
        draft = replies.answer(self.session.state, text, at, swings=swings)
        return self.send(draft, desk_words.CHANGED if draft[0] == "revised" else "")

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
    """A word of a list, where its number was given."""
    return of[int(text) - 1] if text in _NUMBERS else text


def _short(text: str) -> str:
    return printable(text.strip()[:_MOST_TOLD])
