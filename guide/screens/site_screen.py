"""The doors of a site in a table: what became of each, the next one, and the job at the one that is lit. The same over
the doors of a round of inspections."""

from collections.abc import Callable
from pathlib import Path
from typing import ClassVar

from textual.binding import BindingType

from guide.errors import HingesideError
from guide.run.catalogue import RunSummary
from guide.run.door_name import ASKS, named
from guide.run.session import Session, utc_now
from guide.screens.listing_screen import FIND, HELP, OF_LISTS, ListingScreen
from guide.screens.page_screen import key
from guide.screens.site_table import NONE_SO, OVER, columns_of, counts_said, day_said, lines_of
from guide.site.begin import begin_at, job_of_list, open_job, to_begin, to_go_on_with
from guide.site.door_state import DoorState, door_states, next_door
from guide.site.round_state import RoundState, round_state
from guide.site.site import ROUND_PROCEDURE, Round, Site, to_inspect, with_door, with_round
from guide.site.site_files import change, read_site
from guide.translation import _, ngettext


class SiteScreen(ListingScreen[DoorState]):
    """The doors of one site."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "go_on", _("Go on"), _("Go on with the job at the door that is highlighted")),
        key("enter", "begin_here", _("Begin"), _("Begin the job at the door that is highlighted")),
        key("enter", "jobs", _("Jobs"), _("Read a record of a door that is done")),
        key(
            "d", "door", _("Door"), _("What the schedule knows of it, and its jobs over the years")
        ),
        key("n", "next", _("Next"), _("Light the next door")),
        key("r", "round", _("Round"), _("The latest round of inspections over these doors")),
        key("r", "rounds", _("Rounds"), _("In a round: the earlier ones, and a new one")),
        FIND,
        key("a", "add", _("Add"), _("Add a door")),
        key("o", "other_job", _("Other job"), _("Another job at this door")),
        key("escape,left", "doors", _("Doors")),
        key("escape,left", "leave", _("Back"), _("Back to the jobs")),
        HELP,
        *OF_LISTS,
    ]
    finds = _("Find a door")

    def __init__(self, path: Path, notice: str = "") -> None:
        super().__init__(notice)
        self.path = path
        self.site: Site = read_site(path)
        self.heading = self.site.name
        self.states: list[DoorState] = []
        self.round: RoundState | None = None
        """The round that is shown; None while the doors are."""
        self._to_next = True
        """Whether the next door is lit when the table is filled."""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool:
        """What can be done at the door that is lit, and with the list."""
        one = self.lit
        if one is None and action in ("door", "other_job"):
            return False
        if action in ("go_on", "begin_here", "jobs"):
            if one is None:
                return False
            begins = to_begin(one, self.site, self.round)
            does = (
                "go_on" if self._open_job(one) is not None else "begin_here" if begins else "jobs"
            )
            return action == does
        if action in ("doors", "leave"):
            searching = self.is_mounted and self.find.has_focus
            return (action == "doors") == (self.round is not None and not searching)
        if action in ("round", "rounds"):
            return (action == "round") == (self.round is None)
        return self.round is None or action != "add"

    # The table

    def fill(self) -> None:
        """Fill the table anew, the same door lit, or the next one."""
        lit = self.lit
        self.states = door_states(self.site, self.runs)
        if self.round is not None:
            self.round = round_state(self.site, self.round.round, self.states)
        lit = self._next() if self._to_next else lit
        self._to_next = False
        lines = lines_of(self.states if self.round is None else self.round, self.find.value)
        self.lay(columns_of(in_round=self.round is not None), lines, lit)
        self.tell(
            "ask",
            counts_said(self.states, self.round) if self.shown or not self.states else NONE_SO,
        )
        said = OVER if self._over else day_said(self.states, self._next())
        self.tell("day", said)

    def named(self, one: DoorState) -> object:
        """Its number, however it is written."""
        return one.door.key

    @property
    def _over(self) -> bool:
        return self.round is not None and self.round.over

    def _next(self) -> DoorState | None:
        if self.round is None:
            return next_door(self.states)
        return None if self.round.over or self.round.next is None else self.round.next.door

    # What the person does

    def _open_job(self, one: DoorState) -> RunSummary | None:
        return open_job(one, self.site, self.round)

    def action_go_on(self) -> None:
        job = None if self.lit is None else self._open_job(self.lit)
        if job is not None:
            self.go_on(job.path)

    def action_begin_here(self) -> None:
        one, procedure = self.lit, job_of_list(self.site, self.round)
        if one is None:
            return
        if one.set_aside and self.round is None:
            self.ask(
                _("{set_aside} Y begins it all the same.").format(set_aside=one.set_aside),
                lambda: self._begin(one, procedure),
            )
        else:
            self._begin(one, procedure)

    def _begin(self, one: DoorState, procedure: str) -> None:
        self.begin(lambda: begin_at(self.site, one, procedure, self.hingeside.settings))

    def open_job(self, session: Session) -> None:
        """Go to a job; it leads back here."""
        self.hingeside.site = self.path
        super().open_job(session)

    def action_other_job(self) -> None:
        from guide.screens.new_job_screen import procedures

        one = self.lit

        def begins(procedure: Path) -> None:
            assert one is not None
            if (job := to_go_on_with(one, procedure.stem)) is not None:
                self.go_on(job.path)
            else:
                self._begin(one, str(procedure))

        if one is not None:
            self.ask_on(procedures(), begins)

    def action_jobs(self) -> None:
        from guide.screens.site_pages import jobs_page

        if self.lit is not None:
            self.ask_on(jobs_page(self.site, self.lit), self.read_record)

    def action_door(self) -> None:
        from guide.screens.site_pages import door_page

        if self.lit is not None:
            self.app.push_screen(door_page(self.site, self.lit))

    def action_next(self) -> None:
        following = self._next()
        row = self.row_of(following)
        if row is not None:
            self.table.move_cursor(row=row)
        elif following is None:
            self.say(OVER if self._over else _("No door is left."))
        else:
            self.say(_("Next is {number}.").format(number=following.door.number))

    def action_doors(self) -> None:
        self.round, self._to_next = None, True
        self.fill()

    def action_leave(self) -> None:
        if self.find.has_focus:
            self.clear_find()
        else:
            self.hingeside.site = None
            self.hingeside.open_home()

    def action_add(self, text: str = "", wrong: str = "") -> None:
        """Ask for a door, once more with what is wrong with the one that was written."""
        from guide.screens.line_screen import LineScreen

        self.ask_on(LineScreen(self.site.name, ASKS, text, wrong and f"! {wrong}"), self._add)

    def _add(self, text: str) -> None:
        door, place = (about := named(text))["door"], about["place"]
        try:
            self._change(lambda site: with_door(site, door, place, {}))
        except (HingesideError, OSError) as error:
            self.action_add(text, str(error))
            return
        self.clear_find()
        self.say(_("Added: {door}.").format(door=door))
        self.fill()
        added = next((one for one in self.states if one.door.number == door), None)
        self.table.move_cursor(row=self.row_of(added) or 0)

    def _change(self, changes: Callable[[Site], Site]) -> None:
        self.site = change(self.path, changes)

    # Rounds

    def action_round(self) -> None:
        if self.site.rounds:
            self._show_round(self.site.rounds[-1])
        else:
            self._ask_to_begin_round()

    def _show_round(self, one: Round) -> None:
        self.round, self._to_next = round_state(self.site, one, self.states), True
        self.fill()

    def action_rounds(self) -> None:
        from guide.screens.site_pages import rounds_page

        def shows(one: Round | str) -> None:
            if isinstance(one, Round):
                self._show_round(one)
            else:
                self._ask_to_begin_round()

        self.ask_on(rounds_page(self.site, self.states, utc_now()[:4]), shows)

    def _ask_to_begin_round(self) -> None:
        year, doors = utc_now()[:4], to_inspect(self.site)
        if not doors:
            self.say(_("No door here may be a fire door: nothing for a round."), refused=True)
            return
        none = "" if self.site.rounds else _("No round yet. ")
        told = ngettext(
            "{none}Y begins round {year} over {count} door that may be a fire door.",
            "{none}Y begins round {year} over {count} doors that may be fire doors.",
            len(doors),
        )
        told = told.format(none=none, year=year, count=len(doors))
        self.ask(told, lambda: self._begin_round(year, doors))

    def _begin_round(self, title: str, doors: tuple[str, ...]) -> None:
        begun = Round(title, ROUND_PROCEDURE, doors, utc_now(), self.hingeside.settings.rules)

        def begins() -> None:
            self._change(lambda site: with_round(site, begun))
            self._show_round(self.site.rounds[-1])

        self.tried(begins)
