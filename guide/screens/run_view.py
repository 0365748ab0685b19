"""The keys and clicks of a run, without the terminal: each becomes a command or an answer; `run_screen` renders it.

Nothing is acknowledged before `Session.send` has returned, which is when it is on the disk. Whatever
is refused leaves the typed text as it was.
"""

from guide.measures import write
from guide.procedure.facts import WrongAnswer
from guide.run.journal import JournalError
from guide.run.outcomes import DRAWING, KNOWN
from guide.run.overview import known
from guide.run.prompt import suggested
from guide.run.state import occurrence_of
from guide.run.step_drawing import DRAWN_FROM
from guide.run.stepper import stepped
from guide.run.swings import Timed
from guide.screens.held import DELIBERATE, REPEAT
from guide.screens.menu import stepped_mark
from guide.screens.run_keys import CUTTING, DRAWING_KEYS, READ_FIRST, YES_OR_NO, command_of
from guide.screens.shown_run import BEGINS_NUMBER, CHOOSING, MEASURED, ShownRun
from guide.translation import _

SCROLLING = ("pageup", "pagedown", "space", "up", "down")
"""Keys that move a text longer than the screen, where they mean nothing else."""
READ_ON = _("Read the card to the end first: Space.")
LONGEST = 2000
"""Characters kept of a typed line, so that a slipped paste cannot fill the journal."""


class RunView(ShownRun):
    """One run, and the person's hands on it."""

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
            self._held.let_go("enter")
            self.message, self.refused = "", False
            if self.desk.ending:
                self.desk.reason = ""  # it is written on, and entered once more

    def pick(self, number: int) -> None:
        """Accept one of the answers listed, counted from 0, as a click on it does."""
        self.message, self.refused = "", False
        if self.card_unread:
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

    def enter_line(self) -> None:
        """Enter the text of the line, as its key does; what is refused stays there."""
        try:
            self._submit()
        except JournalError as error:
            self._refuse(str(error))

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

    def _line_key(self, key: str, character: str | None) -> bool:
        ending = self.desk.ending
        if ending and (name := YES_OR_NO.get(key.lower())):
            self._command(name)
            return True
        if ending and key != "enter":
            self.desk.reason = ""  # it is written on, and entered once more
        if key in ("t", "T", "space") and self._holds_watched_time():
            self._stopwatch()
        elif self.card_unread and character and character.isprintable():
            self._refuse(READ_ON)
        elif key == "enter":
            if not self._held.again("enter"):
                self._submit()
        elif key in ("tab", "escape"):
            self._leave_line()
        elif key in ("up", "down") and not self.desk.purpose and self.desk.accepts.kind in MEASURED:
            self._step_value(key == "up")
        elif not self.text and not self.desk.purpose and key in ("left", "right"):
            self._command(command_of(key, self.desk.accepts.kind))
        elif ending and character and character.isprintable():
            self.write(self.text + character)
        else:
            return False
        return True

    def _leave_line(self) -> None:
        if self.desk.purpose:
            self._command("cancel")
        elif self.desk.accepts.kind == "text":
            self.commanding = True
        else:
            self.text = ""

    def _step_key(self, key: str, character: str | None) -> bool:
        accepts = self.desk.accepts
        key = key.lower() if len(key) == 1 else key  # caps lock changes no command
        number = int(character) if character and character in "123456789" else 0
        if key == "space":
            if accepts.measure != "time":
                return False  # it never answers
            self._stopwatch()
        elif self.desk.together and key == "n":
            self._command("no")  # it speaks for nothing on the card
        elif self.card_unread and _answers(key, character):
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
        elif number:
            self.take(self.desk.enter(str(number)))  # refused, with what would be accepted
        elif key in YES_OR_NO:
            self._yes_or_no(key)
        elif name := command_of(key, accepts.kind):
            self._held.again(key)  # it may lead to another screen, where it means something else
            self._command(name)
        else:
            return False
        return True

    def _enter(self) -> None:
        """What Enter means here: the answer that is marked, what is timed or offered, or that the step is done."""
        kind = self.desk.accepts.kind
        if kind in CHOOSING and self.picked >= 0:
            self.take(self.desk.pick(self.picked))
        elif kind in MEASURED and self.desk.accepts.measure == "time":
            self._answer("")
        else:
            self._command(command_of("enter", kind))

    def _yes_or_no(self, key: str) -> None:
        """Y or N; if the work cuts it must be a press of its own, after everything was shown."""
        kind = self.desk.accepts.kind
        name = command_of(key, kind)
        deliberate = name in CUTTING
        if self._held.again(key, DELIBERATE if deliberate else REPEAT):
            if deliberate:
                self._refuse(_("Read it first, let go of the key, then press Y."))
        elif name in READ_FIRST and not self.read_through:
            self._refuse(_("Read the values below first: Space."))
        else:
            self._command(name)

    def _mark(self, by: int) -> None:
        count = len(self.desk.accepts.choices)
        if count:
            self.picked = stepped_mark(self.picked, by > 0, count)
            accepts = self.desk.accepts
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
        start, _ = suggested(state, fact, self.desk.at or state.at)
        self.text = stepped(fact, self.text, up, state.units, start)

    def _timed(self) -> Timed | None:
        """The readings of the stopwatch where the run is; a swing that was not finished ends here."""
        if self.desk.accepts.measure != "time":
            return None
        if self.watch.running:
            self.watch.end_swing()
        return self.watch.taken(self._fact())

    def _submit(self) -> None:
        """Enter on the line: what was typed becomes an event, or stays to be corrected."""
        if self.desk.purpose:
            self.take(self.desk.enter(self.text))
        elif self.card_unread:
            self._refuse(READ_ON)
        else:
            self._answer(self.text)

    def put_by(self) -> None:
        """Write to the journal that the job is paused. Raises JournalError if that cannot be stored."""
        self._command("pause")


def _answers(key: str, character: str | None) -> bool:
    """Whether a key would begin or give an answer."""
    digit = bool(character) and str(character) in BEGINS_NUMBER
    return digit or key == "enter" or key in YES_OR_NO
