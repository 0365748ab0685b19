"""A practice door on the screen, without the terminal: keys in, what is done to the model door, words out.

The leaf moves in real time by the clock handed in. The apprentice times it with the stopwatch; the
model's own times are not shown before the debrief.
"""

import time
from collections.abc import Callable

from guide.drawing.plot import Plot
from guide.practice.debrief import debrief
from guide.practice.practice import Impossible, Practice, PracticeSwing
from guide.practice.push import PushResult
from guide.practice.score import Score
from guide.practice.wording import SCREW_WORDS
from guide.run.step_drawing import DrawnOpening
from guide.run.stopwatch import Stopwatch
from guide.run.swing_plot import swing_plot
from guide.screens import practice_menus as menus
from guide.screens import practice_words as words
from guide.screens.held import HeldKeys
from guide.screens.key_hint import KeyHint
from guide.screens.menu import Menu
from guide.screens.played_leaf import PlayedLeaf
from guide.screens.run_keys import watch_hint
from guide.screens.words_shown import Piece
from guide.trade.swing.path import TWELVE
from guide.translation import _

HELD, MOVING, STOOD = "held", "moving", "stood"
PUSHING, PUSHED = "pushing", "pushed"
"""The stages besides the menus of `practice_menus`."""
TO_MARK, TO_SHUT = "to the mark", "to shut"
"""The parts of a swing that the watch times."""
NOTICE = _("A model to teach with; place, people and closer are invented.")
SKIPPED = _("Skipped: not timed.")
_BACK = ("left", "escape", "backspace")
Keep = Callable[[Practice, Score], str]
"""Keeps a result; returns a sentence if it could not, else nothing."""


class PracticeView:
    """One apprentice at one practice door."""

    def __init__(
        self,
        practice: Practice,
        clock: Callable[[], float] = time.monotonic,
        keep: Keep | None = None,
        held: HeldKeys | None = None,
    ) -> None:
        self.practice = practice
        self.stage = menus.MAIN
        self.menu: Menu[menus.Choice] = menus.main_menu()
        self.said: tuple[str, ...] = (practice.at.about,)
        """The result of the last act."""
        self.message = NOTICE
        self.reading: list[Piece] = []
        """What is to be read now; with a score, the debrief."""
        self.leaving = False
        """Whether the apprentice has finished with the door."""
        self.start, self.hand, self.screw = 90.0, False, ""
        """How the leaf is let go next, and the screw that is turned."""
        self.leaf = PlayedLeaf(practice.at, clock)
        self.watch = Stopwatch(clock)
        self.score: Score | None = None
        self._keep = keep
        self._held = held or HeldKeys(clock)
        self.plot: Plot | None = None
        """With the debrief: how the leaf swung."""
        self._may_leave = False

    @property
    def ticking(self) -> bool:
        """Whether the leaf moves or the watch runs."""
        return self.stage in (MOVING, PUSHING) or self.watch.running

    def settle(self) -> None:
        """The swing or the push is over once its time has passed."""
        if self.ticking and self.leaf.over:
            self.stage = {MOVING: STOOD, PUSHING: PUSHED}.get(self.stage, self.stage)

    @property
    def swung(self) -> PracticeSwing | None:
        """The swing that is played or was played last."""
        movement = self.leaf.movement
        return movement if isinstance(movement, PracticeSwing) else None

    @property
    def heading(self) -> str:
        """What is before the apprentice, in one sentence; empty at a menu."""
        hand = _(", a hand on the leaf") if self.hand else ""
        where = _("from {start:g} degrees{hand}").format(start=self.start, hand=hand)
        said, count = " ".join(self.said), len(self.practice.swings)
        return {
            HELD: _(
                "The leaf is held at {start:g} degrees{hand}. T lets it go and times it; Enter does not time it."
            ).format(start=self.start, hand=hand),
            MOVING: _("Let go {where}.").format(where=where),
            STOOD: _("Swing {count} {where}: {said}").format(count=count, where=where, said=said),
            PUSHING: _("Pushed briskly open."),
            PUSHED: said,
        }.get(self.stage, "")

    @property
    def way(self) -> str:
        """The leaf on its way, where it is before the apprentice, and what belongs beneath; else nothing."""
        if not self.heading:
            return ""
        lines = [words.way_words(self.angle, self.practice.at.opens_to)]
        if self.stage == HELD:
            lines.append(words.mark_words(self.practice.at))
        swung = self.swung
        if self.stage == STOOD and swung is not None and not self.watch.running:
            lines.append(words.read_of(swung) if swung.read else words.UNTIMED)
        return "\n".join(lines)

    @property
    def picture(self) -> DrawnOpening | None:
        """The plan with the leaf where it is; None at a menu but the one of the angles."""
        moves = (menus.START, HELD, MOVING, STOOD, PUSHING, PUSHED)
        return self.leaf.picture(self.angle) if self.stage in moves else None

    def shown_keys(self) -> list[KeyHint]:
        """The keys that matter now."""
        if self.stage in (MOVING, PUSHING):
            return [*(words.MOVING if self.stage == MOVING else words.PUSHING)]
        stood = words.STOOD if not self.watch.running else (words.MOVING[0], *words.STOOD)
        first = {HELD: words.LET_GO, STOOD: stood, PUSHED: stood}.get(self.stage, (words.PICK,))
        back = [] if self.stage in (STOOD, PUSHED) else [words.BACK]
        return [*first, *back, words.KNOWN, words.HELP]

    def hint(self) -> str:
        """What the next press of the stopwatch's key means."""
        return watch_hint(self.watch) if self.watch.running else ""

    # The leaf

    @property
    def angle(self) -> float:
        """How far the leaf is open [deg]: at a menu it is shut."""
        if self.stage == HELD:
            return self.start
        return self.leaf.angle if self.stage in (MOVING, STOOD, PUSHING, PUSHED) else 0.0

    def _release(self, *, timed: bool) -> None:
        self._play(MOVING, self.practice.swing(self.start, hand=self.hand))
        self.watch.reset()
        if timed:
            self.watch.press(*self._parts())

    def _play(self, stage: str, movement: PracticeSwing | PushResult) -> None:
        self.leaf.play(movement)
        self.said = self.practice.acts[-1].said
        self.stage = stage

    def _parts(self) -> tuple[str, ...]:
        return (TO_MARK, TO_SHUT) if self.start > TWELVE else (TO_SHUT,)

    def _note_reading(self) -> None:
        """Keep the watch's times of this swing, once the leaf has stopped."""
        swung = self.swung
        if swung is None or self.watch.running or swung.read or not self.watch.swings:
            return
        read = list(self.watch.swings)
        if len(self._parts()) > 1:
            self.watch.stand_at(TO_SHUT)
            read += self.watch.swings
        swung.read = tuple(read)
        self.watch.reset()

    # Keys

    def press(self, key: str, character: str | None = None) -> None:
        """Do what a key means."""
        self.settle()
        key = key.lower() if len(key) == 1 else key
        self.message, may_leave, self._may_leave = "", self._may_leave, False
        key = "t" if key == "space" and self.stage in (HELD, MOVING, STOOD) else key
        if key in ("enter", "t") and self._held.again(key):
            return
        if may_leave and key == "y":
            self.leaving = True
        elif key == "question_mark" and self.stage not in (MOVING, PUSHING):
            self.reading = words.help_on_practice()
        elif key == "s" and self.stage not in (MOVING, PUSHING):
            self.reading = words.done_so_far(self.practice)
        elif self.stage == HELD:
            self._held_key(key)
        elif self.stage in (MOVING, PUSHING):
            self._moving_key(key)
        elif self.stage in (STOOD, PUSHED):
            self._stood_key(key)
        elif key in _BACK:
            self._menu_before()
        elif key == "t":
            self.message = _("Let the leaf go first: the watch starts with it.")
        elif character and character in "123456789"[: len(self.menu.items)]:
            if not self._held.again(character):
                self.pick(int(character) - 1)
        elif character and character.isprintable():
            self.message = _("Pick by a number, 1 to {last}.").format(last=len(self.menu.items))

    def pick(self, number: int) -> None:
        """Pick an item of the menu, counted from 0."""
        if number < len(self.menu.items):
            self.message = ""
            try:
                self._act(self.menu.items[number].value)
            except Impossible as error:
                self.message = str(error)

    def _held_key(self, key: str) -> None:
        if key == "t":
            self._release(timed=True)
        elif key == "enter":
            self._release(timed=False)
        elif key == "h":
            self.hand = not self.hand
        elif key in _BACK:
            self._to(menus.START)

    def _moving_key(self, key: str) -> None:
        if key == "t" and self.stage == MOVING:
            self._press_watch()
        elif key == "f":
            self.message = SKIPPED if self.stage == MOVING else ""
            self.watch.reset()
            self.leaf.skip()
            self.settle()

    def _press_watch(self) -> None:
        self.message = self.watch.press(*self._parts())
        self._note_reading()

    def _stood_key(self, key: str) -> None:
        if key == "t" and self.watch.running:
            self._press_watch()
        elif key in ("enter", "a", *_BACK):
            self.watch.end_swing()
            self._note_reading()
            self.watch.reset()
            if key != "a":
                self._to(menus.MAIN)
            elif self.stage == PUSHED:
                self._play(PUSHING, self.practice.push())
            else:
                self.stage = HELD

    def _menu_before(self) -> None:
        if self.stage == menus.MAIN:
            self._may_leave = True
            self.message = _("Y leaves this door without a verdict; nothing is kept.")
        else:
            self._to(menus.SCREW if self.stage == menus.AMOUNT else menus.MAIN)

    def _act(self, choice: menus.Choice) -> None:
        practice = self.practice
        match self.stage, choice:
            case menus.MAIN, "gauge":
                practice.measure()
                self.said = practice.acts[-1].said
            case menus.MAIN, "push":
                self._play(PUSHING, self.practice.push())
            case menus.MAIN, "feel":
                self.said = practice.feel()
            case menus.MAIN, str(stage):
                self._to(stage)
            case menus.INSPECT, str(place):
                self.said = practice.look(place)
                self._to(menus.MAIN)
            case menus.START, float(start):
                self.start, self.hand, self.stage = start, False, HELD
            case menus.SCREW, str(screw):
                self.screw, self.said = screw, (f"{SCREW_WORDS[screw]}.",)
                self._to(menus.AMOUNT)
            case menus.AMOUNT, (str(direction), float(steps)):
                self.said = practice.turn(self.screw, direction, steps)
                self._to(menus.MAIN)
            case menus.PUT_RIGHT, str(cause):
                self.said = practice.put_right(cause)
                self._to(menus.MAIN)
            case menus.VERDICT, str(verdict):
                self._finish(verdict)

    def _finish(self, verdict: str) -> None:
        self.practice.finish(verdict)
        self.score, sections = debrief(self.practice)
        told = self._keep(self.practice, self.score) if self._keep is not None else ""
        self.reading = [*([f"{told}\n\n"] if told else []), *words.debrief_words(sections)]
        self.plot = swing_plot(self.practice)
        self.leaving = True

    def _to(self, stage: str) -> None:
        self.stage = stage
        self.menu = menus.menu_of(stage, self.practice, self.screw)
