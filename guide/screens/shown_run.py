"""A run as the app shows it, without the terminal: what is before the person, and what became of the last outcome."""

import time
from collections.abc import Callable
from typing import TYPE_CHECKING

from guide.procedure.facts import Fact
from guide.run.desk import Desk
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
from guide.run.pages.page import Section, page
from guide.run.prompt import Prompt
from guide.run.session import Session
from guide.run.step_drawing import DrawnOpening, door_of
from guide.run.stopwatch import Stopwatch
from guide.run.swings import goes_on
from guide.screens.held import HeldKeys
from guide.screens.key_hint import KeyHint
from guide.screens.run_keys import (
    OVER_KEYS,
    WATCHED,
    drawing_hint,
    drawing_keys,
    key_hints,
    line_hint,
    watch_hint,
)
from guide.translation import _

if TYPE_CHECKING:
    from guide.drawing.plot import Plot

BEGINS_NUMBER = "0123456789.-½¼¾⅛⅜⅝⅞"
MEASURED = ("measure", "count")
TYPED = (*MEASURED, "values")
"""What is typed on the line, beginning with a digit."""
CHOOSING = ("choice", "report", "resolve", "read-back")
"""What is answered by picking one of the choices."""


class ShownRun:
    """One run on the screen."""

    def __init__(
        self,
        session: Session,
        detail: str = "full",
        notice: str = "",
        clock: Callable[[], float] = time.monotonic,
        held: HeldKeys | None = None,
    ) -> None:
        """`held` knows the keys of the screens before, and those after know the keys of this one."""
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
        self.commanding = False
        """Whether letters are keys although a text is asked."""
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
        self._held = held or HeldKeys(clock)
        self.picture = self._picture()
        """The drawing of the step, if it has one and enough is known."""
        self.plot = self._plotted()
        """The tests so far of the reading that is asked."""

    @property
    def shown(self) -> Prompt:
        """What the step's card shows: for what words are wanted, if they are; else what the desk shows."""
        return Prompt("words", "", self.wanted) if self.desk.purpose else self.desk.shown

    @property
    def tells_long(self) -> bool:
        """Whether why, what to watch for and the rest are shown now."""
        return self._asked_long if self.desk.shown.asked else self.long

    @property
    def card_unread(self) -> bool:
        """Whether an answer would speak for steps or questions that were not all on the screen."""
        return (self.desk.closes_card or self.desk.together) and not self.read_through

    @property
    def typing(self) -> bool:
        """Whether letters go to the line."""
        if self.desk.purpose or self.text:
            return True
        return self.desk.accepts.kind == "text" and not self.commanding

    def takes(self, character: str) -> bool:
        """Whether a character that prints goes to the line, rather than being a key of the step."""
        if self.desk.over or self.desk.ending or not character.isprintable():
            return False
        if (character in "tT " and self._holds_watched_time()) or self.card_unread:
            return False
        return self.typing or (self.desk.accepts.kind in TYPED and character in BEGINS_NUMBER)

    def answer_pictures(self, *, ascii_only: bool) -> list[tuple[str, ...]]:
        """A sketch for each of the answers, where they are the mounts; else none."""
        accepts = self.desk.accepts
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
        if self.desk.over == DRAWING and self.desk.drawing is not None:
            return drawing_keys(self.desk.drawing.view)
        if self.desk.over:
            marked = self.desk.over == KNOWN and self.picked >= 0
            return [*OVER_KEYS, KeyHint("enter", _("Go back to it") if marked else _("Close"))]
        if self._holds_watched_time():
            return [*WATCHED]
        draws, tested = self.picture is not None, self.plot is not None
        return key_hints(self.desk, typing=self.typing, draws=draws, tested=tested)

    def hint(self, *, narrow: bool = False) -> str:
        """What the line is for, or what the next key means; in fewer words for a `narrow` window."""
        if self.watch.running:
            return watch_hint(self.watch)
        if self.desk.over == DRAWING and self.desk.drawing is not None:
            return drawing_hint(self.desk.drawing.view, self.desk.drawing.angle)
        if self.desk.over:
            return ""
        return line_hint(self.desk, narrow=narrow)

    def _picture(self) -> DrawnOpening | None:
        """The step's drawing; if it asks for what is drawn, with the answer that is marked."""
        draws = self.desk.shown.draws
        if draws is None:
            return None
        supposed = self.desk.supposed
        door = door_of(self.session.state, supposed) if supposed else draws.door
        return None if door is None else DrawnOpening(door, draws.view)

    def _plotted(self) -> "Plot | None":
        """The tests so far of the reading that the step asks; None where there is none to show."""
        accepts = self.desk.shown.accepts
        if self.desk.at is not None or accepts.measure not in ("time", "force"):
            return None
        from guide.run.pages.readings import plot_for  # with the trade's rules

        return plot_for(self.session.state, self._fact())

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
                _BESIDE.get(outcome.what, ShownRun._lay_over)(self)

    def renew(self) -> None:
        """The run has gone on by other means than a key: show where it is."""
        self.message, self.refused = "", False
        self._afresh()

    def _refuse(self, told: str) -> None:
        self.message, self.refused, self.retype = told, True, True

    def _command(self, name: str) -> None:
        self.take(self.desk.command(name))

    def _close_over(self) -> None:
        self.desk.over = ""
        self.picked, self.commanding = -1, False

    def _lay_over(self) -> None:
        """Lay over the step what the desk shows in its place."""
        if self.desk.over != DRAWING:
            self.picked = -1

    def _fact(self) -> Fact:
        return self.session.state.graph.facts[self.desk.accepts.fact]

    def _stopwatch(self) -> None:
        """Start the watch, mark, or stop it; the line shows the median of the swings so far."""
        here = self.desk.shown.at.partition("#")[0]
        after = None if self.desk.changing else goes_on(self.session.state)
        said = self.watch.press(here, after.id) if after is not None else self.watch.press(here)
        self.text = "" if self.watch.running else self.watch.text(self._fact())
        self.message = said

    def _holds_watched_time(self) -> bool:
        """Whether the line is as the stopwatch left it: then its key takes one swing more."""
        if self.desk.purpose or self.desk.accepts.measure != "time" or not self.watch.swings:
            return False
        return self.text == self.watch.text(self._fact())

    def _afresh(self) -> None:
        """Show what the desk shows, from its first line."""
        self.commanding = self._asked_long = False
        self.picked = -1
        self.text, self.retype = "", False
        self.watch.stand_at(self.desk.shown.at.partition("#")[0])
        if self.watch.swings and self.desk.accepts.measure == "time":
            self.text = self.watch.text(self._fact())
        self.picture = self._picture()
        self.plot = self._plotted()

    def _put_papers(self) -> None:
        from guide.papers.papers_folder import put_papers

        self.desk.page = page(_("Record and template"), Section("", put_papers(self.session)))
        self.desk.over = PAGE  # the foot has no room for paths

    def _turn_long(self) -> None:
        if self.desk.shown.asked:
            self._asked_long = not self._asked_long
        else:
            self.long = not self.long

    def _as_detailed(self) -> None:
        self.long = self.desk.detail == "full"


_BESIDE: dict[str, Callable[[ShownRun], None]] = {
    WHY: ShownRun._turn_long,
    DETAIL: ShownRun._as_detailed,
    WATCH: ShownRun._stopwatch,
    PAPERS: ShownRun._put_papers,
}
"""What is shown with the step; anything else lies over it."""
