"""The first screen: the jobs of this device in a table, and what can be begun.

The table is filled in after the screen is up: what the catalogue knows at once, the rest as it is read.
"""

from collections.abc import Callable, Sequence
from pathlib import Path

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.widgets import DataTable, Input

from guide.errors import HingesideError
from guide.files.library import runs_folder
from guide.procedure.outcomes import ACHIEVED
from guide.run import bin as thrown_away
from guide.run.catalogue import RunSummary, summary_of
from guide.run.journal import Damaged
from guide.run.prompt import OUTCOME_WORDS
from guide.run.run_list import in_order
from guide.run.store import open_run
from guide.run.when import when
from guide.screens import opening
from guide.screens.held import HeldKeys
from guide.screens.key_hint import KeyHint
from guide.screens.listing_screen import ListingScreen, put_in
from guide.screens.requests import NewJob
from guide.screens.words_shown import Words
from guide.site.site_files import site_paths

MOST = 300
"""Jobs in the table, the latest ones; each takes a millisecond to be put there. The others are found by words."""
ABOUT = (
    "Hingeside leads you through fitting, adjusting and servicing a surface door closer, a step at a time. "
    "The maker's sheet governs."
)
FIRST_TIME = "First time here? P opens a practice door: nothing can break. N begins your own job."
JOBS, BIN = "jobs", "bin"
_WIDE, _MEDIUM = 72, 56
"""Columns of the window from which the table has four columns, and three."""
_KEYS = (
    ("Enter", "Go on with the job that is lit; read the record of one that ended"),
    ("↑ ↓", "Light another job"),
    ("N", "Begin a new job"),
    (
        "D",
        "Begin another job at the same door, or at one that is its like: its answers are offered",
    ),
    ("A", "Take up again a job that was not done"),
    ("P", "Practise on a model door"),
    ("L", "The list of a site's doors, and what became of each"),
    ("/", "Find jobs by words of the door, the job or the step"),
    ("H", "Handbook"),
    ("S", "Settings: measures, rules, colours, voice"),
    ("Delete", "Move a job to the bin, after Y"),
    ("B", "Look into the bin; Enter puts a job back, E empties it"),
    ("Ctrl+Q", "Close"),
)
"""The keys of this screen, for its help."""
_DELETE_KEYS = ("delete", "backspace")


class HomeScreen(ListingScreen):
    """The choice of what to do, before a run is open."""

    def __init__(self, notice: str = "", job: NewJob | None = None) -> None:
        super().__init__()
        self.shown: list[RunSummary] = []
        """Those of the table, row by row."""
        self._further = 0
        """How many more there are than the table has."""
        self.showing = JOBS
        self._notice, self._job = notice, job
        self._yes_to: tuple[str, Path] | None = None
        """What Y does, to which job, once it was asked."""
        self._opens = False
        self._sites = bool(site_paths())

    def body(self) -> ComposeResult:
        """The table, and what the program is for."""
        yield Words(classes="ask", id="ask")
        yield Input(placeholder="Find a door, a job or a step", id="find")
        table: DataTable[Text] = DataTable(cursor_type="row", id="jobs")
        yield table
        yield Words(FIRST_TIME, classes="first", id="first")
        yield Words(ABOUT, classes="why", id="about")

    def keys(self) -> Sequence[KeyHint]:
        """What can be done with the job that is lit, and what needs none."""
        run = self.lit
        help_ = KeyHint("question_mark", "?", "Help")
        if self.showing == BIN:
            back = [KeyHint("enter", "Enter", "Put back")] if run is not None else []
            empty = [KeyHint("e", "E", "Empty the bin")] if run is not None else []
            return [*back, *empty, KeyHint("escape", "Esc", "Jobs"), help_]
        new = [KeyHint("n", "N", "New job"), KeyHint("p", "P", "Practise")]
        new += [KeyHint("l", "L", "Site")] if self._sites else []
        if run is None:
            return [*new, KeyHint("h", "H", "Handbook"), KeyHint("s", "S", "Settings"), help_]
        opens = KeyHint("enter", "Enter", "Record" if run.outcome else "Go on")
        again = [KeyHint("a", "A", "Take up")] if _to_take_up(run) else []
        more = [KeyHint("d", "D", "Same door"), KeyHint("slash", "/", "Find")]
        rest = [KeyHint("h", "H", "Handbook"), KeyHint("s", "S", "Settings")]
        bins = [KeyHint("delete", "Del", "Delete"), KeyHint("b", "B", "Bin")]
        return [opens, *again, *new, *more, *rest, *bins, help_]

    # The table

    def on_mount(self) -> None:
        """Show what is known at once, and read the rest."""
        self._held = HeldKeys(self.hingeside.clock)
        self.query_one("#find", Input).display = False
        self.say(self._notice)
        self.know_at_once()
        self.fill()
        self.query_one("#jobs", DataTable).focus()
        self.call_after_refresh(self.read_on)
        if self._job is not None:
            from guide.screens.new_job_screen import NewJobScreen

            self.app.push_screen(NewJobScreen(self._job), self._begin)

    def fill(self) -> None:
        """Fill the table anew, the same job lit."""
        before = self.lit
        words = self.query_one("#find", Input).value.casefold().split()
        runs = self.runs if self.showing == JOBS else thrown_away.in_bin()
        found = [run for run in runs if _has(run, words)]
        self.shown, self._further = found[:MOST], len(found[MOST:])
        table = self.query_one("#jobs", DataTable)
        width = self.app.size.width
        places = (0, 1, 2, 3) if width >= _WIDE else (0, 2, 3) if width >= _MEDIUM else (0, 2)
        room = max(8, (width - 12 - 14 * (3 in places)) // (len(places) - (3 in places)))
        heads = [("Door", "Job", "Stage", "When")[place] for place in places]
        told = [(_door(run), run.title, _stage(run), when(run.updated)) for run in self.shown]
        put_in(table, heads, [[self.cell(one[place], room) for place in places] for one in told])
        lit = next((n for n, run in enumerate(self.shown) if before and run.path == before.path), 0)
        if self.shown:
            table.move_cursor(row=lit)
        table.display = bool(self.shown)
        if self.shown and self.focused is None:
            self.set_focus(table)
        self._head(words)
        self.renew_keys()

    def _head(self, words: list[str]) -> None:
        if self.showing == BIN:
            asked = "In the bin" if self.shown else "The bin is empty."
        elif self.shown:
            more = f" The latest {MOST}; / finds {self._further:,} more." if self._further else ""
            asked = f"Go on with which job?{more}"
        else:
            asked = "No job has these words." if words else "Begin with N, or practise with P."
        self.query_one("#ask", Words).tell(asked)
        self.query_one("#first", Words).tell("" if self.runs else FIRST_TIME)

    @property
    def lit(self) -> RunSummary | None:
        """The job that is lit."""
        if not self.shown or not self.is_mounted:
            return None
        row = self.query_one("#jobs", DataTable).cursor_row
        return self.shown[row] if 0 <= row < len(self.shown) else None

    @on(DataTable.RowHighlighted)
    def _lights(self) -> None:
        self._yes_to = None
        self.renew_keys()

    @on(Input.Changed, "#find")
    def _finds(self) -> None:
        self.fill()

    # What the person does

    @on(DataTable.RowSelected)
    def _row_selected(self) -> None:
        if not self._held.again("enter"):
            self._open_lit()

    def pressed(self, key: str, character: str | None) -> bool:
        """Do what a key means."""
        find = self.query_one("#find", Input)
        asked, self._yes_to = self._yes_to, None
        if self.focused is find:
            return self._find_key(key, find)
        does = {
            "n": self._new,
            "p": self._practise,
            "l": self._site,
            "d": self._same_door,
            "a": self._take_up,
            "b": self._to_bin,
            "e": self._ask_to_empty,
            "h": self._handbook,
            "s": self._settings,
            "slash": self._find,
            "escape": self._to_jobs,
            "left": self._to_jobs,
            "question_mark": self._help,
        }.get(key.lower() if len(key) == 1 else key)
        if key in _DELETE_KEYS and self.showing == JOBS:
            does = self._ask_to_delete
        if key.lower() == "y" and asked is not None:
            self._yes(*asked)
        elif does is not None:
            self.say("")
            does()
        else:
            return False
        return True

    def _find_key(self, key: str, find: Input) -> bool:
        if key in ("escape", "tab") or (key in ("enter", "down") and self.shown):
            if key == "escape":
                find.value = ""
            find.display = bool(find.value)
            self.query_one("#jobs", DataTable).focus()
            return True
        return False

    def _find(self) -> None:
        find = self.query_one("#find", Input)
        find.display = True
        self.set_focus(find)

    def _to_jobs(self) -> None:
        self.query_one("#find", Input).value = ""
        self.query_one("#find", Input).display = False
        self.showing = JOBS
        self.fill()
        self.query_one("#jobs", DataTable).focus()

    def _to_bin(self) -> None:
        self.showing = BIN
        self.fill()

    def _open_lit(self) -> None:
        run = self.lit
        if run is None:
            return
        if self.showing == BIN:
            self._tried(lambda: thrown_away.put_back(run.path))
            self._again(run.path)
        elif run.outcome and not run.problem:
            self._open_record(run.path)
        else:
            self._go_on(run.path)

    def _take_up(self) -> None:
        run = self.lit
        if run is not None and _to_take_up(run):
            self._go_on(run.path)

    def _go_on(self, path: Path) -> None:
        try:
            session = open_run(path, self.hingeside.settings.name)
        except Damaged as error:
            self._yes_to = ("set aside", path)
            self.say(f"{error} Y sets it aside and saves what can be read.", refused=True)
            return
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return
        self.hingeside.open_run(session, session.told)

    def _open_record(self, path: Path) -> None:
        from guide.screens.text_screen import TextScreen

        record = self.hingeside.record_text
        try:
            text = opening.record_of(path, record)
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return
        self.app.push_screen(TextScreen(path.stem, text))

    def _new(self) -> None:
        from guide.screens.new_job_screen import NewJobScreen

        self.app.push_screen(NewJobScreen(), self._begin)

    def _same_door(self) -> None:
        run = self.lit
        if run is None or run.problem:
            return
        from guide.screens.new_job_screen import NewJobScreen

        self.app.push_screen(NewJobScreen(like=run.path, door=run.door), self._begin)

    def _begin(self, job: object) -> None:
        if not isinstance(job, NewJob):
            return
        self.say("One moment…")

        def begins() -> None:
            try:
                session = opening.begin(job, self.hingeside.settings)
            except (HingesideError, OSError) as error:
                self.say(str(error), refused=True)
                return
            self.hingeside.open_run(session, session.told)

        self.call_after_refresh(begins)

    def _practise(self) -> None:
        from guide.screens.pick_screen import practice_doors

        self.app.push_screen(practice_doors(), self._practise_at)

    def _practise_at(self, picked: object) -> None:
        if picked is None:
            return
        try:
            practice = opening.practice_of(picked if isinstance(picked, Path) else None)
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return
        self.hingeside.open_practice(practice)

    def _site(self) -> None:
        from guide.screens.pick_site import opens_site

        opens_site(self)

    def _handbook(self) -> None:
        from guide.screens.handbook_screen import HandbookScreen

        self.app.push_screen(HandbookScreen())

    def _settings(self) -> None:
        from guide.screens.settings_screen import SettingsScreen

        self.app.push_screen(SettingsScreen())

    def _help(self) -> None:
        from guide.screens.text_screen import HelpScreen

        self.app.push_screen(HelpScreen(_KEYS))

    # The bin

    def _ask_to_delete(self) -> None:
        run = self.lit
        if run is not None:
            self._yes_to = ("delete", run.path)
            self.say(f"Y moves {run.door or run.name} to the bin; B shows the bin.")

    def _ask_to_empty(self) -> None:
        if self.showing == BIN and self.shown:
            self._yes_to = ("empty", self.shown[0].path)
            several = "1 job" if len(self.shown) == 1 else f"{len(self.shown)} jobs"
            self.say(f"Y deletes {several} for good, records and all.")

    def _yes(self, what: str, path: Path) -> None:
        if what == "delete":
            if self._tried(lambda: thrown_away.throw_away(path)):
                self.runs = [run for run in self.runs if run.path != path]
                self.say("In the bin. B shows it.")
        elif what == "empty":
            if self._tried(thrown_away.empty):
                self.say("The bin is empty.")
        else:
            told = ""
            try:
                told = opening.set_aside(path, self.hingeside.settings.name)
            except (HingesideError, OSError) as error:
                told = str(error)
            self._again(path)
            self.say(told)
        self.fill()

    def _again(self, path: Path) -> None:
        """Read one run's file anew: it was changed, or has come back."""
        self.runs = [run for run in self.runs if run.path.name != path.name]
        if (runs_folder() / path.name).is_file():
            self.runs = in_order([*self.runs, summary_of(runs_folder() / path.name)])
        self.fill()

    def _tried(self, does: Callable[[], object]) -> bool:
        try:
            does()
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return False
        return True


def _to_take_up(run: RunSummary) -> bool:
    return bool(run.outcome) and run.outcome not in ACHIEVED


def _has(run: RunSummary, words: list[str]) -> bool:
    told = f"{_door(run)} {run.place} {run.title} {_stage(run)} {run.name}".casefold()
    return all(word in told for word in words)


def _door(run: RunSummary) -> str:
    """The door's number or name, and its site: many a building has a 104."""
    door = run.door or "no name"
    return f"{door}, {run.site}" if run.site else door


def _stage(run: RunSummary) -> str:
    """Where the job stands, and what is odd about its file."""
    if run.problem:
        return run.problem
    said = OUTCOME_WORDS[run.outcome].partition(" and ")[0] if run.outcome else run.step
    said = f"STOPPED: {said}" if run.stopped else said
    twin = f"; also in {run.twin}" if run.twin else ""
    said = f"DIVERGED: {said}; the other is {run.diverged}" if run.diverged else said
    twin += f"; also on another device, {run.elsewhere}" if run.elsewhere else ""
    return f"{said}{twin}; {run.missing}" if run.missing else f"{said}{twin}"
