"""The first screen: a new job, a job to go on with, a past job to read.

The list of runs is filled in after the screen is up: what the catalogue knows at once, the rest as it is read.
"""

import time
from collections.abc import Callable
from pathlib import Path

from guide.files.library import catalogue
from guide.files.titles import PRACTICE, title_in
from guide.procedure.outcomes import ACHIEVED
from guide.run.catalogue import RunSummary, in_order, summary_of
from guide.run.door_name import ASKS, EXAMPLE
from guide.run.prompt import OUTCOME_WORDS
from guide.screens.held import HeldKeys
from guide.screens.help_rows import help_rows
from guide.screens.line import TypedLine
from guide.screens.menu import Item, Menu
from guide.screens.page import KeyHint, Page
from guide.screens.paging import Paging
from guide.screens.requests import GoOn, NewJob, Practise, ReadRecord, Request, SetAside
from guide.screens.rows import Row
from guide.screens.run_keys import OVER_KEYS
from guide.screens.text_view import TextView

NEW, LATEST, OPEN, AGAIN, PAST, PRACTISE = "new", "latest", "open", "again", "past", "practise"
FIRST, PROCEDURE, DOOR, SHEET = "first", "procedure", "door", "sheet"
"""Where the person is; OPEN, AGAIN, PAST and PRACTISE are stages too."""

Picked = str | Path | None


class HomeView:
    """The first screen: the choice of what to do, before a run is open."""

    def __init__(self, notice: str = "", clock: Callable[[], float] = time.monotonic) -> None:
        self.stage = FIRST
        self.message = notice
        self.refused = False
        self.request: Request | None = None
        """What the app is to do; the request is then removed."""
        self.runs: list[RunSummary] = []
        self.filling = True
        """Whether runs are still being read."""
        self.line = TypedLine()
        self.helping = False
        self.reading: TextView | None = None
        """The record of a past job that is being read."""
        self.damaged: Path | None = None
        """A damaged run that was picked once: Y sets it aside."""
        self.paging = Paging()
        self._held = HeldKeys(clock)
        self._job = NewJob(Path(), "", None)
        self._chosen = False
        """Whether the sheet is chosen before the door is named."""
        self.menu: Menu[Picked] = self._first()

    # What the app asks

    @property
    def offset(self) -> int:
        """The first line of the body to be shown."""
        return self.reading.offset if self.reading is not None else self.paging.offset

    @property
    def ticking(self) -> bool:
        """Nothing here moves by itself."""
        return False

    def fitted(self, offset: int, window: int, more: bool) -> None:
        """Told what was shown."""
        (self.reading or self).paging.fitted(offset, window, more)

    def add_runs(self, runs: list[RunSummary]) -> None:
        """More runs are known."""
        self.runs = in_order([*self.runs, *runs])
        if self.stage in (FIRST, OPEN, AGAIN, PAST):
            self._renew()

    def all_read(self) -> None:
        """Every run has been read."""
        self.filling = False
        if self.stage == FIRST:
            self._renew()

    def forget(self, path: Path) -> None:
        """A run file was set aside; what was saved of it is listed as any other run."""
        self.runs = [run for run in self.runs if run.path != path]
        if path.is_file():
            self.runs = in_order([*self.runs, summary_of(path)])
        self._renew()

    def read(self, title: str, text: str) -> None:
        """Show the record of a past job."""
        self.reading = TextView(title, text)

    def name_door_of(self, job: NewJob) -> None:
        """Ask what the door of a job is called, its procedure and sheet being chosen."""
        self._job, self._chosen = job, True
        self._to(DOOR)

    def say(self, message: str, *, refused: bool = False) -> None:
        """Show a sentence at the foot of the screen."""
        self.message, self.refused = message, refused

    def page(self, *, roomy: bool) -> Page:
        """The page to show."""
        if self.reading is not None:
            return self.reading.page()
        made = Page("Hingeside", "reading the jobs" if self.filling else "")
        if self.helping:
            made.body = help_rows()
        elif self.stage == DOOR:
            made.body = [Row(ASKS, "bold"), Row(EXAMPLE)]
        else:
            made.body = self.menu.rows()
        if roomy:
            made.body.insert(0, Row())
        if self.message:
            style = "error" if self.refused else "ok"
            made.message = Row(self.message, style)
        if self.stage == DOOR and not self.helping:
            made.typed, made.cursor = self.line.text, self.line.cursor
            made.keys = [KeyHint("enter", "Enter", "Go on"), KeyHint("tab", "Tab", "Back")]
        elif self.helping:
            made.keys = [*OVER_KEYS, KeyHint("enter", "Enter", "Close")]
        else:
            back = [] if self.stage == FIRST else [KeyHint("left", "←", "Back")]
            made.keys = [KeyHint("enter", "Enter", "Open"), KeyHint("down", "↑↓", "Move"), *back]
            made.keys += [
                KeyHint("ctrl+q", "Ctrl+Q", "Close"),
                KeyHint("question_mark", "?", "Help"),
            ]
        return made

    # Keys

    def paste(self, text: str) -> None:
        """Accept a pasted text as if it were typed."""
        if self.stage == DOOR:
            self.line.put(text)

    def press(self, key: str, character: str | None) -> None:
        """Do what a key means."""
        if self.reading is not None:
            if self.reading.press(key):
                self.reading = None
            return
        if self.helping:
            if not self.paging.scroll(key):
                self.helping = False
                self.paging.anew()
            return
        damaged, self.damaged = self.damaged, None
        self.say("")
        if key == "enter" and self._held.again("enter"):
            return
        if self.stage == DOOR:
            self._door_key(key, character)
        elif key == "y" and damaged is not None:
            self.request = SetAside(damaged)
        elif key == "question_mark":
            self.helping = True
            self.paging.anew()
        elif key in ("left", "escape", "backspace"):
            self._to(DOOR if self.stage == SHEET else FIRST)
        else:
            item = self.menu.press(key, character)
            if item is not None:
                self._picked(item)

    def _door_key(self, key: str, character: str | None) -> None:
        if key == "enter":
            self._job = self._job._replace(door=self.line.text.strip())
            if catalogue("sheet") and not self._chosen:
                self._to(SHEET)
            else:
                self.request = self._job
        elif key in ("tab", "escape"):
            self._chosen = False
            self._to(PROCEDURE)
        elif not self.line.key(key) and character and character.isprintable():
            self.line.put(character)

    def _picked(self, item: Item[Picked]) -> None:
        value = item.value
        if self.stage == FIRST:
            if value == NEW:
                self._to(PROCEDURE)
            elif value in (OPEN, AGAIN, PAST, PRACTISE):
                self._to(str(value))
            elif isinstance(value, Path):
                self.request = GoOn(value)
        elif self.stage == PROCEDURE and isinstance(value, Path):
            self._job = NewJob(value, "", None)
            self._to(DOOR)
        elif self.stage == SHEET:
            sheet = value if isinstance(value, Path) else None
            self.request = NewJob(self._job.procedure, self._job.door, sheet)
        elif self.stage in (OPEN, AGAIN) and isinstance(value, Path):
            self.request = GoOn(value)
        elif self.stage == PAST and isinstance(value, Path):
            self.request = ReadRecord(value)
        elif self.stage == PRACTISE:
            self.request = Practise(value if isinstance(value, Path) else None)

    def offer_set_aside(self, path: Path, why: str) -> None:
        """Say that a run cannot be read, and what can be done about it."""
        self.damaged = path
        self.say(f"{why} Y sets it aside and saves what can be read.", refused=True)

    # Stages

    def _to(self, stage: str) -> None:
        self.stage = stage
        self.line.set(self._job.door if stage == DOOR else "")
        self.paging.anew()
        self._renew(keep=False)

    def _renew(self, *, keep: bool = True) -> None:
        """Make the stage's list anew, the mark where it was."""
        before = self.menu.items[self.menu.picked].value if keep and self.menu.items else None
        makers = {
            FIRST: self._first,
            OPEN: self._open_runs,
            AGAIN: self._stopped_runs,
            PAST: self._past_runs,
            PROCEDURE: _procedures,
            SHEET: _sheets,
            PRACTISE: _practice_doors,
        }
        if self.stage in makers:
            self.menu = makers[self.stage]()
            values = [item.value for item in self.menu.items]
            if before in values:
                self.menu.picked = values.index(before)

    def _first(self) -> Menu[Picked]:
        unfinished, past = self._unfinished(), self._past()
        items: list[Item[Picked]] = [Item("New job", NEW)]
        latest = next((run for run in unfinished if not run.problem), None)
        if latest is not None:
            items.append(Item(f"Go on with {_named(latest)}", latest.path, _standing(latest)))
        items.append(Item(f"All unfinished jobs ({len(unfinished)})", OPEN))
        again = self._to_take_up()
        if again:
            items.append(Item(f"Jobs to take up again ({len(again)})", AGAIN))
        items.append(Item(f"Past jobs ({len(past)})", PAST))
        items.append(Item("Practise on a model door", PRACTISE))
        return Menu("What do you want to do?", items)

    def _unfinished(self) -> list[RunSummary]:
        return [run for run in self.runs if not run.outcome]

    def _past(self) -> list[RunSummary]:
        return [run for run in self.runs if run.outcome]

    def _open_runs(self) -> Menu[Picked]:
        items: list[Item[Picked]] = [
            Item(run.name, run.path, run.problem)
            if run.problem
            else Item(_named(run), run.path, _standing(run))
            for run in self._unfinished()
        ]
        return Menu("Go on with which job?" if items else "No job is unfinished.", items)

    def _to_take_up(self) -> list[RunSummary]:
        return [run for run in self.runs if run.outcome and run.outcome not in ACHIEVED]

    def _stopped_runs(self) -> Menu[Picked]:
        items: list[Item[Picked]] = [
            Item(_named(run), run.path, _ended(run)) for run in self._to_take_up()
        ]
        return Menu("Take up which job again?" if items else "No job waits for that.", items)

    def _past_runs(self) -> Menu[Picked]:
        items: list[Item[Picked]] = [
            Item(_named(run), run.path, _ended(run)) for run in self._past()
        ]
        return Menu("Whose record?" if items else "No job has been ended yet.", items)


def _procedures() -> Menu[Picked]:
    found = [(title_in(entry.path), entry) for entry in catalogue("procedure")]
    items: list[Item[Picked]] = [
        Item(title, entry.path, f"{entry.name}, your own" if entry.own else entry.name)
        for title, entry in found
        if title is not None
    ]
    return Menu("Which procedure?" if items else "There is no procedure.", items)


def _sheets() -> Menu[Picked]:
    items: list[Item[Picked]] = [Item("No sheet: I have the paper from the box", None)]
    items += [Item(entry.name, entry.path) for entry in catalogue("sheet")]
    return Menu("Which closer's sheet?", items)


def _practice_doors() -> Menu[Picked]:
    items: list[Item[Picked]] = [Item("A door by chance", None)]
    items += [
        Item(title_in(entry.path, PRACTICE) or entry.name, entry.path, entry.name)
        for entry in catalogue("practice door")
    ]
    return Menu("Which door? They begin with the easiest.", items)


def _named(run: RunSummary) -> str:
    return f"{run.title} · {run.door}" if run.door else run.title


def _ended(run: RunSummary) -> str:
    words = OUTCOME_WORDS[run.outcome].partition(" and ")[0]
    return f"{words}, {_day(run.updated)}{_beside(run)}"


def _standing(run: RunSummary) -> str:
    stop = "STOPPED, " if run.stopped else ""
    return f"{stop}at “{run.step}”, {_day(run.updated)}{_beside(run)}"


def _beside(run: RunSummary) -> str:
    """That another file holds the same run or an earlier state of it, and what is missing."""
    twin = f"; also in {run.twin}" if run.twin else ""
    return f"{twin}; {run.missing}" if run.missing else twin


def _day(utc: str) -> str:
    """Day and minute of an event, as it was written: UTC."""
    return f"{utc[:10]} {utc[11:16]} UTC"
