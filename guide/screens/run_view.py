"""The run screen without the terminal: keys in, events to the session; `run_screen` renders it.

Nothing is acknowledged before `Session.send` has returned, which is when it is on the disk. Whatever
is refused leaves the typed text as it was.
"""

import time
from collections.abc import Callable
from typing import TYPE_CHECKING

from guide.measures import write
from guide.procedure.facts import Fact, WrongAnswer
from guide.run.desk import Desk
from guide.run.journal import JournalError
from guide.run.outcomes import (
    DETAIL,
    DRAWING,
    ENDING,
    KNOWN,
    PAGE,
    PAPERS,
    WATCH,
    WHY,
    Asks,
    Look,
    Notice,
    Outcome,
    Refusal,
    Sent,
)
from guide.run.overview import known
from guide.run.pages.page import Section, page
from guide.run.prompt import Accepts, Prompt, suggested
from guide.run.session import Session
from guide.run.state import ENDED, Occurrence, occurrence_of
from guide.run.step_drawing import DRAWN_FROM, door_of
from guide.run.swings import Timed, goes_on
from guide.screens.door_picture import DoorPicture
from guide.screens.held import DELIBERATE, REPEAT, HeldKeys
from guide.screens.key_hint import KeyHint
from guide.screens.menu import stepped_mark
from guide.screens.run_keys import (
    CUTTING,
    DRAWING_KEYS,
    OVER_KEYS,
    READ_FIRST,
    WATCHED,
    YES_OR_NO,
    command_of,
    drawing_hint,
    drawing_keys,
    key_hints,
    line_hint,
    watch_hint,
)
from guide.screens.stepper import stepped
from guide.screens.stopwatch import Stopwatch

if TYPE_CHECKING:
    from guide.drawing.plot import Plot

_BEGINS_NUMBER = "0123456789.-½¼¾⅛⅜⅝⅞"
MEASURED = ("measure", "count")
TYPED = (*MEASURED, "values")
"""What is typed on the line, beginning with a digit."""
CHOOSING = ("choice", "report", "resolve", "read-back")
"""What is answered by picking one of the choices."""
SCROLLING = ("pageup", "pagedown", "space", "up", "down")
"""Keys that move a text longer than the screen, where they mean nothing else."""
READ_ON = "Read the card to the end first: Space."
LONGEST = 2000
"""Characters kept of a typed line, so that a slipped paste cannot fill the journal."""


class RunView:
    """One run on the screen."""

    def __init__(
        self,
        session: Session,
        detail: str = "full",
        notice: str = "",
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.session = session
        self.desk = Desk(session, detail)
        self.long = detail == "full"
        """Whether why, what to watch for and the rest are shown."""
        self._asked_long = False
        """The same on the card of questions that is shown: there they would be in the way of its answer."""
        self.picked = -1
        """The choice that is marked; -1 for none."""
        self.text = ""
        """What is typed and not entered yet."""
        self.retype = False
        """Whether the line holds what was refused, so that the next character takes its place."""
        self.message = notice
        self.refused = False
        """Whether the message is a refusal."""
        self.wanted = ""
        """While words are wanted: for what, as a sentence."""
        self.voiced = False
        """Whether a voice listens, so that the help shows its words."""
        self.read_through = True
        """Whether the last line of the step was on the screen; the screen says so."""
        self.watch = Stopwatch(clock)
        self._held = HeldKeys(clock)
        self.picture = self._picture()
        """The drawing of the step, if it has one and enough is known."""
        self.plot = self._plotted()
        """The tests so far of the reading that is asked."""
        self.drawing: DoorPicture | None = None
        """With DRAWING: what lies over the step."""

    # What is shown

    @property
    def ticking(self) -> bool:
        """Whether a stopwatch runs."""
        return self.watch.running

    @property
    def shown(self) -> Prompt:
        """The prompt that the desk shows."""
        return self.desk.shown

    @property
    def accepts(self) -> Accepts:
        """The answers accepted now."""
        return self.desk.accepts

    @property
    def at(self) -> Occurrence | None:
        """The earlier block that is looked at; None at the run's own place."""
        return self.desk.at

    @property
    def detail(self) -> str:
        """How much of a step is shown."""
        return self.desk.detail

    @property
    def leaving(self) -> bool:
        """Whether the person has paused the job or looked at its end."""
        return self.desk.left

    @property
    def tells_long(self) -> bool:
        """Whether why, what to watch for and the rest are shown now."""
        return self._asked_long if self.shown.asked else self.long

    @property
    def typing(self) -> bool:
        """Whether letters go to the line."""
        if self.desk.purpose or self.text:
            return True
        return self.accepts.kind == "text" and not self.commanding

    def takes(self, character: str) -> bool:
        """Whether a character that prints goes to the line, rather than being a key of the step."""
        if self.desk.over or self.desk.ending or not character.isprintable():
            return False
        if (character in "tT " and self._holds_watched_time()) or self._card_unread():
            return False
        return self.typing or (self.accepts.kind in TYPED and character in _BEGINS_NUMBER)

    def answer_pictures(self, *, ascii_only: bool) -> list[tuple[str, ...]]:
        """A sketch for each of the answers, where they are the mounts; else none."""
        accepts = self.accepts
        if accepts.kind != "choice" or accepts.fact != "mount":
            return []
        from guide.drawing.mount_sketches import SKETCHES, sketch_of

        right = self.session.state.known("knuckles") == "right"
        return [
            tuple(sketch_of(one.value, hinges_right=right, ascii_only=ascii_only))
            if one.value in SKETCHES
            else ()
            for one in accepts.choices
        ]

    def shown_keys(self) -> list[KeyHint]:
        """The keys that matter now, the one that leads to all the others last."""
        if self.desk.over == DRAWING and self.drawing is not None:
            return drawing_keys(self.drawing.view)
        if self.desk.over:
            marked = self.desk.over == KNOWN and self.picked >= 0
            return [*OVER_KEYS, KeyHint("enter", "Enter", "Go back to it" if marked else "Close")]
        if self._holds_watched_time():
            return [*WATCHED]
        looking = self.at is not None and not self.desk.changing
        return key_hints(
            self.accepts,
            typing=self.typing,
            ending=self.desk.ending,
            looking=looking,
            changeable=looking and self.shown.accepts.kind != "nothing",
            ended=self.session.state.status == ENDED,
            draws=self.picture is not None,
            follows=bool(self.shown.next_title),
            again=self.shown.again,
            tested=self.plot is not None,
        )

    def hint(self, *, narrow: bool = False) -> str:
        """What the line is for, or what the next key means; in fewer words for a `narrow` window."""
        if self.watch.running:
            return watch_hint(self.watch)
        if self.desk.over == DRAWING and self.drawing is not None:
            return drawing_hint(self.drawing.view, self.drawing.angle)
        if self.desk.over:
            return ""
        desk, looking = self.desk, self.at is not None
        return line_hint(
            self.accepts, desk.purpose, looking=looking, ending=desk.ending, narrow=narrow
        )

    def _picture(self) -> DoorPicture | None:
        """The step's drawing; if it asks for what is drawn, with the answer that is marked."""
        draws = self.shown.draws
        if draws is None:
            return None
        supposed = self.desk.supposed
        door = door_of(self.session.state, supposed) if supposed else draws.door
        return None if door is None else DoorPicture(door, draws.view)

    def _plotted(self) -> "Plot | None":
        """The tests so far of the reading that the step asks; None where there is none to show."""
        accepts = self.shown.accepts
        if self.at is not None or accepts.measure not in ("time", "force"):
            return None
        from guide.run.pages.readings import plot_for  # with the trade's rules

        return plot_for(self.session.state, self._fact())

    # Keys

    def press(self, key: str, character: str | None = None) -> bool:
        """Do what a key means where the run is; whether it means anything."""
        if self.desk.over:
            return self._over_key(key)
        before = self.message, self.refused
        self.message, self.refused = "", False
        try:
            used = self._line_key(key, character) if self.typing else self._step_key(key, character)
        except (WrongAnswer, JournalError) as error:
            self._refuse(str(error))
            return True
        if not used:
            self.message, self.refused = before
        return used

    def write(self, text: str) -> None:
        """What is on the line now, typed or pasted."""
        if text != self.text:
            self.text, self.retype = text[:LONGEST], False
            self.message, self.refused = "", False
            if self.desk.ending:
                self.desk.reason = ""  # it is written on, and entered once more

    def pick(self, number: int) -> None:
        """Accept one of the answers listed, counted from 0, as a click on it does."""
        self.message, self.refused = "", False
        if self._card_unread():
            self._refuse(READ_ON)
            return
        try:
            self.take(self.desk.pick(number))
        except JournalError as error:
            self._refuse(str(error))

    def go_to(self, number: int) -> None:
        """Go back to the answer of one of the values that are known, counted from 0."""
        at = known(self.session.state)[number].at
        self.take(self.desk.look(occurrence_of(self.session.state.graph, at)))

    def take(self, outcome: Outcome) -> None:
        """Show an outcome of the desk."""
        self.message, self.refused = outcome.told, isinstance(outcome, Refusal)
        self.retype = self.refused
        match outcome:
            case Sent() | Look():
                self._afresh()
            case Asks():
                self.text = self.desk.reason if outcome.what == ENDING else ""
                self.wanted = outcome.told
            case Notice():
                _BESIDE.get(outcome.what, RunView._lay_over)(self)

    def enter_line(self) -> None:
        """Enter the text of the line, as its key does; what is refused stays there."""
        try:
            self._submit()
        except JournalError as error:
            self._refuse(str(error))

    def renew(self) -> None:
        """The run has gone on by other means than a key: show where it is."""
        self.message, self.refused = "", False
        self._afresh()

    def _refuse(self, told: str) -> None:
        self.message, self.refused, self.retype = told, True, True

    def _command(self, name: str) -> None:
        self.take(self.desk.command(name))

    def _over_key(self, key: str) -> bool:
        facts = known(self.session.state)
        if self.desk.over == DRAWING:
            self._drawing_key(key.lower() if len(key) == 1 else key)
        elif self.desk.over == KNOWN and facts and key in ("up", "down"):
            self.picked = stepped_mark(self.picked, key == "down", len(facts))
        elif self.desk.over == KNOWN and self.picked >= 0 and key == "enter":
            self.go_to(self.picked)
        elif key in SCROLLING:
            return False
        else:
            self._close_over()
            self.message, self.refused = "", False
        return True

    def _drawing_key(self, key: str) -> None:
        """Swing the leaf or show the other view; any other key closes the drawing."""
        name = DRAWING_KEYS.get(key)
        if name is not None:
            self._command(name)
        else:
            self._held.again(key)  # held down, it does nothing in the step beneath
            self._close_over()

    def _close_over(self) -> None:
        self.desk.over = ""
        self.picked, self.commanding = -1, False

    def _lay_over(self) -> None:
        """Lay over the step what the desk shows in its place."""
        drawing = self.desk.drawing
        if self.desk.over == DRAWING and drawing is not None:
            self.drawing = DoorPicture(
                drawing.door, drawing.view, drawing.angle, swinging=drawing.swinging
            )
        else:
            self.picked = -1

    def _line_key(self, key: str, character: str | None) -> bool:
        ending = self.desk.ending
        if ending and (name := YES_OR_NO.get(key.lower())):
            self._command(name)
            return True
        if ending and key != "enter":
            self.desk.reason = ""  # it is written on, and entered once more
        if key in ("t", "T", "space") and self._holds_watched_time():
            self._stopwatch()
        elif self._card_unread() and character and character.isprintable():
            self._refuse(READ_ON)
        elif key == "enter":
            if not self._held.again("enter"):
                self._submit()
        elif key in ("tab", "escape"):
            self._leave_line()
        elif key in ("up", "down") and not self.desk.purpose and self.accepts.kind in MEASURED:
            self._step_value(key == "up")
        elif not self.text and not self.desk.purpose and key in ("left", "right"):
            self._command(command_of(key, self.accepts.kind))
        elif key == "backspace":
            self.text = "" if self.retype else self.text[:-1]
            self.retype = False
        elif character and character.isprintable():
            self.text = (character if self.retype else self.text + character)[:LONGEST]
            self.retype = False
        else:
            return False
        return True

    def _leave_line(self) -> None:
        if self.desk.purpose:
            self._command("cancel")
        elif self.accepts.kind == "text":
            self.commanding = True
        else:
            self.text = ""

    def _step_key(self, key: str, character: str | None) -> bool:
        accepts = self.accepts
        key = key.lower() if len(key) == 1 else key  # caps lock changes no command
        number = int(character) if character and character in "123456789" else 0
        if key == "space":
            if accepts.measure != "time":
                return False  # it never answers
            self._stopwatch()
        elif self.desk.together and key == "n":
            self._command("no")  # it speaks for nothing on the card
        elif self._card_unread() and _answers(key, character):
            self._refuse(READ_ON)
        elif key == "enter":
            if not self._held.again("enter"):
                self._enter()
        elif key == "tab" and accepts.kind == "text":
            self.commanding = False
        elif key in ("up", "down") and accepts.kind in MEASURED:
            self._step_value(key == "up")
        elif key in ("up", "down") and accepts.kind in CHOOSING:
            self._mark(1 if key == "down" else -1)
        elif accepts.kind in CHOOSING and number:
            if not self._held.again(key):
                self.take(self.desk.pick(number - 1))
        elif accepts.kind in TYPED and character and character in _BEGINS_NUMBER:
            self.text = character
        elif key in YES_OR_NO:
            self._yes_or_no(key)
        elif name := command_of(key, accepts.kind):
            self._command(name)
        else:
            return False
        return True

    # Answers

    def _enter(self) -> None:
        """What Enter means here: the answer that is marked, what is timed or offered, or that the step is done."""
        kind = self.accepts.kind
        if kind in CHOOSING and self.picked >= 0:
            self.take(self.desk.pick(self.picked))
        elif kind in MEASURED and self.accepts.measure == "time":
            self._answer("")
        else:
            self._command(command_of("enter", kind))

    def _yes_or_no(self, key: str) -> None:
        """Y or N; if the work cuts it must be a press of its own, after everything was shown."""
        kind = self.accepts.kind
        name = command_of(key, kind)
        deliberate = name in CUTTING
        if self._held.again(key, DELIBERATE if deliberate else REPEAT):
            if deliberate:
                self._refuse("Read it first, let go of the key, then press Y.")
        elif name in READ_FIRST and not self.read_through:
            self._refuse("Read the values below first: Space.")
        else:
            self._command(name)

    def _card_unread(self) -> bool:
        """Whether an answer would speak for steps or questions that were not all on the screen."""
        return (self.desk.closes_card or self.desk.together) and not self.read_through

    def _mark(self, by: int) -> None:
        count = len(self.accepts.choices)
        if count:
            self.picked = stepped_mark(self.picked, by > 0, count)
            accepts = self.accepts
            if accepts.kind == "choice" and accepts.fact in DRAWN_FROM:
                self.desk.supposed = {accepts.fact: accepts.choices[self.picked].value}
            self.picture = self._picture()

    def _answer(self, text: str) -> None:
        stopped = self.watch.running
        timed = self._timed()
        if stopped and timed is not None and not text:
            text = write(timed.value)
        swings = timed.body() if timed is not None and text == write(timed.value) else None
        self.take(self.desk.enter(text, swings=swings))

    def _step_value(self, up: bool) -> None:
        fact = self._fact()
        state = self.session.state
        start, _ = suggested(state, fact, self.at or state.at)
        self.text = stepped(fact, self.text, up, state.units, start)

    def _fact(self) -> Fact:
        return self.session.state.graph.facts[self.accepts.fact]

    def _stopwatch(self) -> None:
        """Start the watch, mark, or stop it; the line shows the median of the swings so far."""
        here = self.shown.at.partition("#")[0]
        after = None if self.desk.changing else goes_on(self.session.state)
        said = self.watch.press(here, after.id) if after is not None else self.watch.press(here)
        self.text = "" if self.watch.running else self.watch.text(self._fact())
        self.message = said

    def _holds_watched_time(self) -> bool:
        """Whether the line is as the stopwatch left it: then its key takes one swing more."""
        if self.desk.purpose or self.accepts.measure != "time" or not self.watch.swings:
            return False
        return self.text == self.watch.text(self._fact())

    def _timed(self) -> Timed | None:
        """The readings of the stopwatch where the run is; a swing that was not finished ends here."""
        if self.accepts.measure != "time":
            return None
        if self.watch.running:
            self.watch.end_swing()
        return self.watch.taken(self._fact())

    def _submit(self) -> None:
        """Enter on the line: what was typed becomes an event, or stays to be corrected."""
        if self.desk.purpose:
            self.take(self.desk.enter(self.text))
        elif self._card_unread():
            self._refuse(READ_ON)
        else:
            self._answer(self.text)

    def put_by(self) -> None:
        """Write to the journal that the job is paused. Raises JournalError if that cannot be stored."""
        self._command("pause")

    # Looking about

    def _afresh(self) -> None:
        """Show what the desk shows, from its first line."""
        self.commanding = self._asked_long = False
        self.picked = -1
        self.text, self.retype = "", False
        self.watch.stand_at(self.shown.at.partition("#")[0])
        if self.watch.swings and self.accepts.measure == "time":
            self.text = self.watch.text(self._fact())
        self.picture = self._picture()
        self.plot = self._plotted()

    def _put_papers(self) -> None:
        from guide.papers.papers_folder import put_papers

        self.desk.page = page("Record and template", Section("", put_papers(self.session)))
        self.desk.over = PAGE  # the foot has no room for paths

    def _turn_long(self) -> None:
        if self.shown.asked:
            self._asked_long = not self._asked_long
        else:
            self.long = not self.long

    def _as_detailed(self) -> None:
        self.long = self.detail == "full"


def _answers(key: str, character: str | None) -> bool:
    """Whether a key would begin or give an answer."""
    digit = bool(character) and str(character) in _BEGINS_NUMBER
    return digit or key == "enter" or key in YES_OR_NO


_BESIDE: dict[str, Callable[[RunView], None]] = {
    WHY: RunView._turn_long,
    DETAIL: RunView._as_detailed,
    WATCH: RunView._stopwatch,
    PAPERS: RunView._put_papers,
}
"""What is shown with the step; anything else lies over it."""
