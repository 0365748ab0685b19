"""The first screen: the jobs of this device in a table, and what can be begun.

The table is filled in after the screen is up: what the catalogue knows at once, the rest as it is read.
"""

from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from guide.run import bin as thrown_away
from guide.run.catalogue import RunSummary
from guide.run.when import when
from guide.screens.held import DELIBERATE
from guide.screens.home_table import door_of, has_words, stage_of, to_take_up
from guide.screens.listing_screen import FIND, HELP, OF_LISTS, Column, ListingScreen
from guide.screens.page_screen import key
from guide.screens.words_shown import Words
from guide.site.new_job import NewJob, begin_new
from guide.site.site_files import site_paths
from guide.translation import _, ngettext

MOST = 300
"""Jobs in the table, the latest ones; each takes a millisecond to be put there. The others are found by words."""
ABOUT = _(
    "Hingeside leads you through fitting, adjusting and servicing a surface door closer, a step at a time. "
    "The maker's sheet governs."
)
FIRST_TIME = _("First time here? At a practice door nothing can break.")
JOBS, BIN = "jobs", "bin"
_COLUMNS = (Column(_("Door")), Column(_("Job"), 72), Column(_("Stage")), Column(_("When"), 56))


class HomeScreen(ListingScreen[RunSummary]):
    """The choice of what to do, before a run is open."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "put_back", _("Put back")),
        key("e", "empty", _("Empty the bin")),
        key(
            "enter",
            "go_on",
            _("Go on"),
            _("Go on with the job that is highlighted; so does a click"),
        ),
        key("enter", "record", _("Record"), _("Read the record of a job that ended")),
        key("a", "take_up", _("Take up"), _("Take up again a job that was not done")),
        key("n", "new", _("New job"), _("Begin a new job")),
        key("p", "practise", _("Practise"), _("Practise on a model door")),
        key("l", "site", _("Site"), _("The list of a site's doors, and what became of each")),
        key(
            "d",
            "same_door",
            _("Same door"),
            _("Begin another job at the same door, or at one like it: its answers are offered"),
        ),
        FIND,
        key("h", "handbook", _("Handbook"), _("The handbook")),
        key("s", "settings", _("Settings"), _("Measures, rules, colours, voice")),
        key("delete,backspace", "delete", _("Delete"), _("Move a job to the bin, after Y")),
        key("b", "bin", _("Bin"), _("Look into the bin; Enter puts a job back, E empties it")),
        key("escape,left", "jobs", _("Jobs")),
        HELP,
        *OF_LISTS,
    ]
    finds = _("Find a door, a job or a step")

    def __init__(self, notice: str = "", job: NewJob | None = None) -> None:
        super().__init__(notice)
        self.showing = JOBS
        self._job = job
        self._sites = bool(site_paths())

    def body(self) -> ComposeResult:
        """The table, and what the program is for."""
        yield from super().body()
        yield Words(FIRST_TIME, classes="first", id="first")
        yield Words(ABOUT, classes="why", id="about")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool:
        """What can be done with the job that is lit, if one is."""
        run, jobs = self.lit, self.showing == JOBS
        if action in ("put_back", "empty"):
            return run is not None and not jobs
        if action in ("go_on", "record"):
            ended = run is not None and bool(run.outcome) and not run.problem
            return run is not None and jobs and ended == (action == "record")
        if action in ("take_up", "same_door", "delete"):
            return run is not None and jobs and (action != "take_up" or to_take_up(run))
        return True

    def shows(self, action: str) -> bool:
        """In the bin only what is done there; and nothing that is of no use yet."""
        jobs = self.showing == JOBS
        of_use = {
            "site": self._sites,
            "find": self.lit is not None,
            "bin": self.lit is not None,
        }.get(action, True)
        in_bin = action in ("put_back", "empty", "jobs", "all_keys")
        return of_use and (in_bin if not jobs else action != "jobs") and super().shows(action)

    def on_mount(self) -> None:
        """Ask the name of the door, where the job is given."""
        if self._job is not None:
            self.call_later(self._ask_for_job, self._job)

    # The table

    def fill(self) -> None:
        """Fill the table anew, the same job lit."""
        words = self.find.value.casefold().split()
        runs = self.runs if self.showing == JOBS else thrown_away.in_bin()
        found = [run for run in runs if has_words(run, words)]
        lines = [
            (run, (door_of(run), run.title, stage_of(run), when(run.updated)))
            for run in found[:MOST]
        ]
        self.lay(_COLUMNS, lines, self.lit)
        self._head(words, len(found) - len(lines))

    def named(self, one: RunSummary) -> object:
        """Its file."""
        return one.path

    def _head(self, words: list[str], further: int) -> None:
        if self.showing == BIN:
            asked = _("In the bin") if self.shown else _("The bin is empty.")
        elif self.shown:
            more = (
                _(" The latest {most}; / finds {further:,} more.").format(
                    most=MOST, further=further
                )
                if further
                else ""
            )
            asked = _("Go on with which job?{more}").format(more=more)
        else:
            asked = (
                _("No job has these words.") if words else _("Begin with N, or practise with P.")
            )
        self.tell("ask", asked)
        self.tell("first", "" if self.runs else FIRST_TIME)

    # What the person does

    def action_go_on(self) -> None:
        if self.lit is not None:
            self.go_on(self.lit.path)

    action_take_up = action_go_on

    def action_record(self) -> None:
        if self.lit is not None:
            self.read_record(self.lit.path)

    def action_new(self) -> None:
        self._ask_for_job()

    def action_same_door(self) -> None:
        if self.lit is not None and not self.lit.problem:
            self._ask_for_job(like=self.lit.path, door=self.lit.door)

    def _ask_for_job(
        self, job: NewJob | None = None, like: Path | None = None, door: str = ""
    ) -> None:
        from guide.screens.new_job_screen import NewJobScreen

        def begins(asked: NewJob) -> None:
            self.begin(lambda: begin_new(asked, self.hingeside.settings))

        self.ask_on(NewJobScreen(job, like=like, door=door), begins)

    def action_practise(self) -> None:
        if self.hingeside.held.again("p", DELIBERATE):
            self.say(self._notice)
            return
        from guide.screens.practice_doors import practice_doors, practice_of

        def opens(door: Path | str) -> None:
            self.tried(lambda: self.hingeside.open_practice(practice_of(door)))

        self.ask_on(practice_doors(), opens)

    def action_site(self) -> None:
        from guide.screens.pick_site import opens_site

        opens_site(self)

    def action_handbook(self) -> None:
        from guide.screens.handbook_screen import HandbookScreen

        self.app.push_screen(HandbookScreen())

    def action_settings(self) -> None:
        from guide.screens.settings_screen import SettingsScreen

        self.app.push_screen(SettingsScreen())

    # The bin

    def action_jobs(self) -> None:
        self.clear_find()
        self.showing = JOBS
        self.fill()

    def action_bin(self) -> None:
        self.showing = BIN
        self.fill()

    def action_put_back(self) -> None:
        run = self.lit
        if run is not None:
            self.tried(lambda: thrown_away.put_back(run.path))
            self.read_anew(run.path)

    def action_delete(self) -> None:
        run = self.lit
        if run is None:
            return

        def deletes() -> None:
            if self.tried(lambda: thrown_away.throw_away(run.path)):
                self.read_anew(run.path)
                self.say(_("In the bin. B shows it."))

        self.ask(
            _("Y moves {job} to the bin; B shows the bin.").format(job=run.door or run.name),
            deletes,
        )

    def action_empty(self) -> None:
        """Ask whether the bin is to be emptied."""

        def empties() -> None:
            if self.tried(thrown_away.empty):
                self.say(_("The bin is empty."))
            self.fill()

        count = len(self.shown)
        told = ngettext(
            "Y deletes {count} job for good, record and all.",
            "Y deletes {count} jobs for good, records and all.",
            count,
        )
        self.ask(told.format(count=count), empties)
