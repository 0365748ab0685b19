"""The run screen without the terminal: keys in, events to the session, a page out.

Nothing is acknowledged before `Session.send` has returned, which is when it is on the disk. Whatever
is refused leaves the typed text as it was.
"""

import time
from collections.abc import Callable

from guide.measures import write
from guide.procedure.facts import UNSURE, Fact, WrongAnswer
from guide.run import replies
from guide.run.drawn import DRAWN_FROM, PLAN, SWINGS, TOO_LITTLE, door_of
from guide.run.journal import JournalError
from guide.run.prompt import Accepts, Prompt, done_steps, earlier, known, later, prompt, suggested
from guide.run.session import Session
from guide.run.settings import DETAILS
from guide.run.state import ENDED, Occurrence, label, occurrence_of
from guide.run.step import Refused
from guide.run.swings import Timed, goes_on
from guide.screens.door_picture import DoorPicture
from guide.screens.held import DELIBERATE, REPEAT, HeldKeys
from guide.screens.help_rows import help_rows
from guide.screens.line import TypedLine
from guide.screens.menu import stepped_mark
from guide.screens.page import KeyHint, Page
from guide.screens.paging import Paging
from guide.screens.rows import Row
from guide.screens.run_keys import (
    OVER_KEYS,
    WATCHED,
    drawing_hint,
    drawing_keys,
    key_hints,
    line_hint,
    numbers_of,
)
from guide.screens.step_rows import CHOOSING, known_rows, step_rows
from guide.screens.stepper import stepped
from guide.screens.stopwatch import Stopwatch
from guide.screens.watch_rows import watch_hint, watch_rows
from guide.words.commands import ANSWERS, COMMANDS

NOTHING = Accepts("nothing")
NOTE, SAFE, RESOLVE = "note", "safe", "resolve"
"""What a line is typed for besides an answer."""
HELP, KNOWN, DRAWING = "help", "known", "drawing"
"""What may lie over the step."""
_BY_KEY = {command.key: command.name for command in (*ANSWERS, *COMMANDS)}
_BEGINS_NUMBER = "0123456789.-½¼¾⅛⅜⅝⅞"
_SWINGS = {**SWINGS, "right": 1, "left": -1}
"""What swings the leaf in the drawing, by command and by key."""
_OVER = ("status", "help", "draw", *_SWINGS)
"""Commands that are about what lies over the step, or lay it there."""
_CUTTING = ("begin", "hold")
"""Kinds that a key must be meant for."""


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
        self.detail = detail
        self.at: Occurrence | None = None
        """An earlier block that is looked at; None where the run stands."""
        self.changing = False
        """Whether the earlier answer looked at is being given anew."""
        self.long = detail == "full"
        """Whether why, what to watch for and the rest are shown."""
        self.over = ""
        """HELP, KNOWN, DRAWING or nothing."""
        self.purpose = ""
        """NOTE, SAFE, RESOLVE, or an answer."""
        self.how = ""
        """With RESOLVE: what became of the cut."""
        self.ending = False
        """With SAFE: whether the reason was entered, and only a yes is wanted to end the job."""
        self.commanding = False
        """In a question for words: whether keys are commands, not typing."""
        self.picked = -1
        """The choice that is marked; -1 for none."""
        self.line = TypedLine()
        self.message = notice
        self.refused = False
        """Whether the message is a refusal."""
        self.voiced = False
        """Whether a voice listens, so that the help tells its words."""
        self.leaving = False
        """Whether the person has put the job by or looked at its end."""
        self.paging = Paging()
        self.watch = Stopwatch(clock)
        self._held = HeldKeys(clock)
        self.shown: Prompt = prompt(session.state)
        self.picture = self._picture()
        """What the step draws, where it draws and enough is known."""
        self.drawing: DoorPicture | None = None
        """With DRAWING: what lies over the step."""

    # What the app asks

    @property
    def offset(self) -> int:
        """The first line of the body to be shown."""
        return self.paging.offset

    @property
    def ticking(self) -> bool:
        """Whether a stopwatch runs."""
        return self.watch.running

    def fitted(self, offset: int, window: int, more: bool) -> None:
        """Told what was shown."""
        self.paging.fitted(offset, window, more)

    @property
    def accepts(self) -> Accepts:
        """What is taken now: nothing while an earlier block is only looked at."""
        return self.shown.accepts if self.at is None or self.changing else NOTHING

    @property
    def typing(self) -> bool:
        """Whether letters go to the line."""
        if self.purpose or self.line.text:
            return True
        return self.accepts.kind == "text" and not self.commanding

    def page(self, *, roomy: bool) -> Page:
        """What to show."""
        state = self.session.state
        door = str(state.about.get("door", ""))
        made = Page(
            f"{state.graph.title} · {door}" if door else state.graph.title,
            f"{self.detail} · {round(100 * self.shown.progress)} %",
            loud=self.shown.kind == "stop",
        )
        facts = known(state)
        if self.over == HELP:
            made.body = help_rows(voice=self.voiced)
        elif self.over == KNOWN:
            made.body = [Row("Known of this opening", "label"), *known_rows(facts, self.picked)]
            made.body += [
                Row("Done", "label"),
                *(Row(said, mark="- ") for said in done_steps(state)),
            ]
        elif self.over == DRAWING:
            made.picture = self.drawing
        else:
            made.body = self._step_rows(roomy)
            made.picture, made.picture_at = self.picture, self._picture_at(roomy)
            if not made.loud:
                made.side = [Row("Known of this opening", "label"), *known_rows(facts)]
        if self.message:
            style = "error" if self.refused else "ok"
            made.message = Row(
                self.message, style, mark="! " if self.refused else "- ", mark_style=style
            )
        if self.typing or (self.accepts.kind in ("measure", "count") and not self.over):
            made.typed, made.cursor = self.line.text, self.line.cursor
        if self.watch.running:
            made.hint = watch_hint(self.watch)
        elif self.over == DRAWING and self.drawing is not None:
            made.hint = drawing_hint(self.drawing.view, self.drawing.angle)
        elif self.over:
            made.hint = (
                "Mark an answer with ↑ ↓ to go to it." if self.over == KNOWN and facts else ""
            )
        else:
            made.hint = line_hint(self.accepts, self.purpose, looking=self.at is not None)
        made.keys = self._keys()
        return made

    def _step_rows(self, roomy: bool) -> list[Row]:
        timing = self.accepts.measure == "time" and (self.watch.running or self.watch.swings)
        long = self.long and not timing
        rows = step_rows(self.shown, self.detail, long=long, picked=self.picked, roomy=roomy)
        if timing:
            rows += watch_rows(self.watch, self._fact())
        if self.at is not None:
            rows.insert(0, Row("Looked at again.", "label"))
        return rows

    def _picture(self) -> DoorPicture | None:
        """The step's drawing; where it asks for what is drawn, with the answer that is marked."""
        draws, accepts = self.shown.draws, self.shown.accepts
        if draws is None:
            return None
        door = draws.door
        if accepts.kind == "choice" and accepts.fact in DRAWN_FROM and self.picked >= 0:
            marked = accepts.choices[self.picked].value
            door = door_of(self.session.state, {accepts.fact: marked})
        return None if door is None else DoorPicture(door, draws.view)

    def _picture_at(self, roomy: bool) -> int:
        """The row of the step that its picture stands before: the first of the long words."""
        if self.picture is None:
            return 0
        rows = step_rows(self.shown, self.detail, long=False, picked=self.picked, roomy=roomy)
        return len(rows) + (self.at is not None)

    def _keys(self) -> list[KeyHint]:
        if self.over == DRAWING and self.drawing is not None:
            return drawing_keys(self.drawing.view)
        if self.over:
            marked = self.over == KNOWN and self.picked >= 0
            return [*OVER_KEYS, KeyHint("enter", "Enter", "Go back to it" if marked else "Close")]
        if self._holds_watched_time():
            return [*WATCHED]
        changeable = self.at is not None and self.shown.accepts.kind != "nothing"
        return key_hints(
            self.accepts,
            typing=self.typing,
            ending=self.ending,
            looking=self.at is not None and not self.changing,
            changeable=changeable and not self.changing,
            ended=self.session.state.status == ENDED,
            draws=self.picture is not None,
        )

    # Keys

    def paste(self, text: str) -> None:
        """Take a pasted text as if it were typed."""
        if self.typing or self.accepts.kind in ("measure", "count"):
            self.line.put(text)

    def press(self, key: str, character: str | None) -> None:
        """Do what a key means where the run stands."""
        if self.over:
            self._over_key(key)
            return
        self.message, self.refused = "", False
        try:
            if self.typing:
                self._line_key(key, character)
            else:
                self._step_key(key, character)
        except (Refused, WrongAnswer, JournalError) as error:
            self.message, self.refused = str(error), True

    def command(self, name: str) -> None:
        """Do a command by its name in the table, as a voice does."""
        self.message, self.refused = "", False
        if name not in _OVER:
            self.over = ""
        try:
            if name == "done" and self.typing:
                self._submit()
            else:
                self._command(name)
        except (Refused, WrongAnswer, JournalError) as error:
            self.message, self.refused = str(error), True

    def hear(self, text: str) -> None:
        """Take an answer that was heard: it is read back, and counts after a yes."""
        try:
            at = self.at if self.changing else None
            self._send(replies.answer(self.session.state, text, at, heard=True))
        except (Refused, WrongAnswer, JournalError) as error:
            self.message, self.refused = str(error), True

    def renew(self) -> None:
        """The run has gone on by other means than a key: show where it stands."""
        self._look(None)

    def _over_key(self, key: str) -> None:
        facts = known(self.session.state)
        if self.over == DRAWING:
            self._drawing_key(key.lower() if len(key) == 1 else key)
        elif self.over == KNOWN and facts and key in ("up", "down"):
            self.picked = stepped_mark(self.picked, key == "down", len(facts))
        elif not self.paging.scroll(key):
            picked = facts[self.picked] if self.over == KNOWN and self.picked >= 0 else None
            self._look(self.at)
            if picked is not None and key == "enter":
                self._look(occurrence_of(self.session.state.graph, picked.at))

    def _drawing_key(self, key: str) -> None:
        """Swing the leaf or show the other view; any other key closes the drawing."""
        name = _BY_KEY.get(key, "")
        if key in _SWINGS or name in _SWINGS:
            self._draw(key if key in _SWINGS else name)
        elif name == "draw":
            self._draw(name)
        else:
            self._held.again(key)  # held down, it does nothing in the step beneath
            self.over = ""
            self.paging.anew()

    def _draw(self, name: str) -> None:
        """Lay the drawing over the step; where it lies there, its other view, or the leaf swung."""
        if self.over != DRAWING or self.drawing is None:
            door = self.picture.door if self.picture else door_of(self.session.state)
            if door is None:
                raise Refused(TOO_LITTLE)
            self.drawing = DoorPicture(door, self.shown.draws.view if self.shown.draws else PLAN)
            self.over = DRAWING
            self.paging.anew()
        elif name == "draw":
            self.drawing = self.drawing.other_view()
        if name in _SWINGS:
            self.drawing = self.drawing.swung(_SWINGS[name])

    def _line_key(self, key: str, character: str | None) -> None:
        ending, self.ending = self.ending, False
        if ending and key in ("y", "Y"):
            self._send(replies.make_safe(self.session.state, self.line.text))
        elif key in ("t", "T", "space") and self._holds_watched_time():
            self._stopwatch()
        elif key == "enter":
            if not self._held.again("enter"):
                self._submit()
        elif key in ("tab", "escape"):
            self._leave_line()
        elif (
            key in ("up", "down") and not self.purpose and self.accepts.kind in ("measure", "count")
        ):
            self._step_value(key == "up")
        elif key in ("pageup", "pagedown"):
            self.paging.scroll(key)
        elif not self.line.text and key in ("left", "right") and not self.purpose:
            self._command("back" if key == "left" else "forward")
        elif not self.line.key(key) and character and character.isprintable():
            self.line.put(character)

    def _leave_line(self) -> None:
        if self.purpose:
            self.purpose = ""
            self.line.set("")
            self.message = "Nothing was written."
        elif self.accepts.kind == "text":
            self.commanding = True
        else:
            self.line.set("")

    def _step_key(self, key: str, character: str | None) -> None:
        accepts = self.accepts
        key = key.lower() if len(key) == 1 else key  # caps lock changes no command
        number = int(character) if character and character in "123456789" else 0
        if key in ("enter", "space"):
            if accepts.measure == "time" and key == "space":
                self._stopwatch()
            elif not self._held.again("enter"):
                self._enter()
        elif key == "tab" and accepts.kind == "text":
            self.commanding = False
        elif key in ("up", "down") and accepts.kind in ("measure", "count"):
            self._step_value(key == "up")
        elif key in ("up", "down") and accepts.kind in CHOOSING:
            self._mark(1 if key == "down" else -1)
        elif self.paging.scroll(key):
            self.picked = -1
        elif accepts.kind in CHOOSING and number:
            if not self._held.again(key):
                self._choose(number - 1)
        elif accepts.kind in ("measure", "count") and character and character in _BEGINS_NUMBER:
            self.line.put(character)
        elif key in ("y", "n"):
            self._yes_or_no(key == "y")
        elif (name := _BY_KEY.get(key)) is not None:
            self._command(name)

    # Answers

    def _enter(self) -> None:
        """What Enter means here; it never passes a hold and never begins a cut."""
        kind = self.accepts.kind
        if self.at is not None and not self.changing:
            self._look(None)
        elif self.shown.kind == "ended":
            self.leaving = True
        elif kind == "done":
            self._done()
        elif kind == "end":
            self._send(replies.done(self.session.state))
        elif kind in CHOOSING and self.picked >= 0:
            self._choose(self.picked)
        elif kind in ("measure", "count", "text") or (kind == "choice" and self.accepts.suggestion):
            self._answer("")
        else:
            raise Refused(
                _ENTER_WORDS.get(kind, "There is nothing to enter here; ? shows the keys.")
            )

    def _done(self) -> None:
        """The step is done; with cards, every step of its card, one after the other."""
        lines = self.shown.card_lines if self.detail == "cards" else []
        for line in lines[1:]:
            self._send(replies.done(self.session.state))
            if label(self.session.state.graph, self.session.state.at) != line.at:
                return
        self._send(replies.done(self.session.state))

    def _yes_or_no(self, yes: bool) -> None:
        kind = self.accepts.kind
        gap = DELIBERATE if kind in _CUTTING else REPEAT
        if self._held.again("y" if yes else "n", gap):
            if kind in _CUTTING:
                raise Refused("Read it first, let go of the key, then press Y.")
            return
        state = self.session.state
        if kind == "read-back":
            self._send(replies.confirm(state, yes))
        elif kind == "choice":
            labels = [choice.value for choice in self.accepts.choices]
            if ("yes" if yes else "no") in labels:
                self._answer("yes" if yes else "no")
        elif kind == "hold" and yes:
            if not self.paging.read_through:
                raise Refused("Read the values below first: Page Down.")
            self._send(replies.pass_hold(state), "Held and read back.")
        elif kind == "begin" and yes:
            self._send(replies.begin(state), "Begun. Enter when it is done.")
        elif kind == "hold":
            raise Refused("Go to the value that is wrong (S, or ←) and press C there.")

    def _mark(self, by: int) -> None:
        count = len(self.accepts.choices)
        if count:
            self.picked = stepped_mark(self.picked, by > 0, count)
            self.picture = self._picture()

    def _choose(self, number: int) -> None:
        choices = self.accepts.choices
        if number >= len(choices):
            raise Refused(f"There are {len(choices)} answers; press {numbers_of(choices)}.")
        value = choices[number].value
        kind = self.accepts.kind
        if kind == "choice":
            self._answer(value)
        elif kind == "read-back":
            self._send(replies.confirm(self.session.state, value == "yes"))
        elif kind == "report":
            self._send(replies.report(self.session.state, value))
        else:
            self.picked, self.how = number, value
            self._write(RESOLVE)

    def _answer(self, text: str) -> None:
        at = self.at if self.changing else None
        stopped = self.watch.running
        timed = self._timed()
        if stopped and timed is not None and not text:
            text = write(timed.value)
        swings = timed.body() if timed is not None and text == write(timed.value) else None
        draft = replies.answer(self.session.state, text, at, swings=swings)
        self._send(draft, "Changed." if draft[0] == "revised" else "")

    def _step_value(self, up: bool) -> None:
        fact = self._fact()
        state = self.session.state
        start, _ = suggested(state, fact, self.at or state.at)
        self.line.set(stepped(fact, self.line.text, up, state.units, start))

    def _fact(self) -> Fact:
        return self.session.state.graph.facts[self.accepts.fact]

    def _stopwatch(self) -> None:
        """Start the watch, mark, or stop it; the line shows the median of the swings so far."""
        here = self.shown.at.partition("#")[0]
        after = None if self.changing else goes_on(self.session.state)
        said = self.watch.press(here, after.id) if after is not None else self.watch.press(here)
        self.line.set("" if self.watch.running else self.watch.text(self._fact()))
        self.message = said

    def _holds_watched_time(self) -> bool:
        """Whether the line is as the stopwatch left it: then its key takes one swing more."""
        if self.purpose or self.accepts.measure != "time" or not self.watch.swings:
            return False
        return self.line.text == self.watch.text(self._fact())

    def _timed(self) -> Timed | None:
        """What the stopwatch has taken where the run stands; a swing that was not finished ends here."""
        if self.accepts.measure != "time":
            return None
        if self.watch.running:
            self.watch.end_swing()
        return self.watch.taken(self._fact())

    def _submit(self) -> None:
        """Enter on the line: what was typed becomes an event, or stays to be mended."""
        state, text = self.session.state, self.line.text
        if self.purpose == NOTE:
            at = self.at
            self._send(replies.note(state, text), "Noted.")
            self._look(at, keep=True)
        elif self.purpose == SAFE:
            replies.make_safe(state, text)  # refuses an empty reason
            self.ending = True
            self.message = "This ends the job, and it cannot be taken up again. Y ends it."
        elif self.purpose == RESOLVE:
            self._send(replies.resolve(state, self.how, text), "Written down. Go on from here.")
        else:
            self._answer(text)

    def _send(self, draft: replies.Draft, said: str = "") -> None:
        self.session.send(draft)
        self.message = said
        self.line.set("")
        self.purpose = self.how = ""
        self._look(None, keep=True)

    # Commands and looking about

    def _command(self, name: str) -> None:
        state = self.session.state
        if name == "back":
            before = earlier(state, self.at)
            if before is None:
                raise Refused("This is the first step.")
            self._look(before)
        elif name == "forward":
            if self.at is None:
                raise Refused("This is where the run stands.")
            self._look(later(state, self.at))
        elif name == "change":
            if self.at is None or self.shown.accepts.kind == "nothing":
                raise Refused("Go back (←) to the answer you want to change first.")
            self.changing = True
            self.message = "Give the new answer. What rests on it is asked again."
        elif name == "why":
            self.long = not self.long
        elif name == "detail":
            self.detail = DETAILS[(DETAILS.index(self.detail) + 1) % len(DETAILS)]
            self.long = self.detail == "full"
            self.message = f"Detail: {self.detail}."
        elif name == "repeat":
            self._look(None)
        elif name in ("status", "help"):
            self.over = KNOWN if name == "status" else HELP
            self.picked = -1
            self.paging.anew()
        elif name == "draw" or name in _SWINGS:
            self._draw(name)
        elif name in (NOTE, SAFE):
            if state.status == ENDED and name == SAFE:
                raise Refused("This run has ended already.")
            self._write(name)
        elif name == "pause":
            self.put_by()
        elif name == "done":
            self._enter()
        elif name in ("yes", "no"):
            if self.accepts.kind == "begin":
                raise Refused("This cannot be undone: say “begin” when you begin.")
            self._yes_or_no(name == "yes")
        elif name == "begin" and self.accepts.kind == "begin":
            self._yes_or_no(True)
        elif name == "unsure" and any(choice.value == UNSURE for choice in self.accepts.choices):
            self._answer(UNSURE)
        elif name == "watch" and self.accepts.measure == "time":
            self._stopwatch()

    def put_by(self) -> None:
        """Say in the journal that the job is put by. Raises JournalError where it cannot be kept."""
        if not self.session.state.ended and not self.session.state.paused:
            self.session.send(("paused", {}))
        self.leaving = True

    def _write(self, purpose: str) -> None:
        self.purpose = purpose
        self.line.set("")
        self.message = {
            NOTE: "Write the note, then Enter.",
            SAFE: "Stop, make it safe. Write why, for the foreman, then Enter.",
            RESOLVE: f"{self.how.capitalize()}. Write what was done, then Enter.",
        }[purpose]

    def _look(self, at: Occurrence | None, *, keep: bool = False) -> None:
        """Show a block, or where the run stands; `keep` leaves the message."""
        state = self.session.state
        self.at = at if at is not None and at in state.path and at != state.at else None
        self.changing = self.commanding = self.ending = False
        self.over = self.purpose = ""
        self.picked = -1
        self.line.set("")
        self.paging.anew()
        self.shown = prompt(state, self.at)
        self.watch.stand_at(self.shown.at.partition("#")[0])
        if self.watch.swings and self.accepts.measure == "time":
            self.line.set(self.watch.text(self._fact()))
        self.picture = self._picture()
        if not keep:
            self.message, self.refused = "", False


_ENTER_WORDS = {
    "choice": "Press the number of the answer, or mark it with ↓ and then Enter.",
    "report": "Press the number of what was drilled.",
    "resolve": "Press the number of what became of it.",
    "begin": "This cannot be undone. Press Y when you begin.",
    "hold": "Enter does not pass a hold. Press Y when every value is right.",
    "read-back": "Press Y if it is right, N if it is not.",
}
