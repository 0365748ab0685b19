"""The doors of a site in a table: what became of each, the next one, and the job at the one that is lit. The same over
the doors of a round of inspections."""

from collections.abc import Callable, Sequence
from pathlib import Path

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.widgets import DataTable, Input

from guide.errors import HingesideError
from guide.run.catalogue import RunSummary
from guide.run.door_name import named
from guide.run.session import Session, utc_now
from guide.run.store import open_run
from guide.screens.held import HeldKeys
from guide.screens.key_hint import KeyHint
from guide.screens.listing_screen import ListingScreen, put_in
from guide.screens.site_table import (
    MEDIUM,
    NONE_SO,
    OVER,
    WIDE,
    Row,
    cells_of,
    counts_said,
    day_said,
    rooms_of,
    rows_of,
)
from guide.screens.words_shown import Words
from guide.site.begin import begin_at, to_go_on_with
from guide.site.door_state import (
    IN_WORK,
    DoorState,
    door_states,
    next_door,
)
from guide.site.round_state import RoundState, round_state
from guide.site.site import Round, Site, to_inspect, with_door, with_round
from guide.site.site_files import change, read_site

INSPECTION = "inspect-a-closing-door"
"""The job of a round that is begun here."""
_FEW, _MEDIUM, _ALL = (0, 3), (0, 1, 3), (0, 1, 2, 3, 4)


class SiteScreen(ListingScreen):
    """The doors of one site."""

    def __init__(self, path: Path, notice: str = "") -> None:
        super().__init__()
        self.path = path
        self.site: Site = read_site(path)
        self.heading = self.site.name
        self.states: list[DoorState] = []
        self.shown: list[Row] = []
        """Row by row of the table."""
        self.round: RoundState | None = None
        """The round that is shown; None while the doors are."""
        self._notice = notice
        self._yes_to: Callable[[], None] | None = None
        """What Y does, once it was asked."""

    def body(self) -> ComposeResult:
        """How far the site is, and the table."""
        yield Words(classes="ask", id="ask")
        yield Words(classes="text", id="day")
        yield Input(id="find")
        table: DataTable[Text] = DataTable(cursor_type="row", id="doors")
        yield table

    def keys(self) -> Sequence[KeyHint]:
        """What can be done at the door that is lit, and with the list."""
        back = KeyHint("escape", "Esc", "Doors" if self.round is not None else "Back")
        rest = [
            KeyHint("n", "N", "Next"),
            KeyHint("r", "R", "Round" if self.round is None else "Rounds"),
        ]
        rest += [KeyHint("slash", "/", "Find")]
        rest += [] if self.round is not None else [KeyHint("a", "A", "Add")]
        lit = self.lit
        if lit is None:
            return [*rest, back]
        does = [KeyHint("enter", "Enter", self._enter_word(lit)), KeyHint("d", "D", "Door")]
        return [*does, *rest, KeyHint("o", "O", "Other job"), back]

    # The table

    def on_mount(self) -> None:
        """Show what is known at once, and read the rest."""
        self._held = HeldKeys(self.hingeside.clock)
        self.query_one("#find", Input).display = False
        self.say(self._notice)
        self.know_at_once()
        self.fill(light_next=True)
        self.query_one("#doors", DataTable).focus()
        self.call_after_refresh(self.read_on)

    def fill(self, *, light_next: bool = False) -> None:
        """Fill the table anew, the same door lit, or the next one."""
        before = self.lit
        self.states = door_states(self.site, self.runs)
        if self.round is not None:
            self.round = round_state(self.site, self.round.round, self.states)
        before = self._next() if light_next else before
        self.shown = self._rows()
        table = self.query_one("#doors", DataTable)
        width = self.app.size.width
        places = _ALL if width >= WIDE else _MEDIUM if width >= MEDIUM else _FEW
        heads = ("Door", "Place", "Rating", "State", "Faults" if self.round else "Last job")
        cells = [cells_of(row) for row in self.shown]
        rooms = rooms_of(cells, heads, width)
        put_in(
            table,
            [heads[place] for place in places],
            [[self.cell(row[place], rooms[place]) for place in places] for row in cells],
        )
        lit = next(
            (n for n, row in enumerate(self.shown) if before and row.one.door == before.door), 0
        )
        if self.shown:
            table.move_cursor(row=lit)
        table.display = bool(self.shown)
        self._head()
        self.renew_keys()

    def _rows(self) -> list[Row]:
        words = "" if self._adding else self.query_one("#find", Input).value
        return rows_of(self.states if self.round is None else self.round, words)

    def _head(self) -> None:
        self.query_one("#ask", Words).tell(
            counts_said(self.states, self.round) if self.shown or not self.states else NONE_SO
        )
        over = self.round is not None and self.round.over
        self.query_one("#day", Words).tell(OVER if over else day_said(self.states, self._next()))

    @property
    def lit(self) -> DoorState | None:
        """The door that is lit."""
        if not self.shown or not self.is_mounted:
            return None
        row = self.query_one("#doors", DataTable).cursor_row
        return self.shown[row].one if 0 <= row < len(self.shown) else None

    def _next(self) -> DoorState | None:
        if self.round is None:
            return next_door(self.states)
        return None if self.round.over or self.round.next is None else self.round.next.door

    @on(DataTable.RowHighlighted)
    def _lights(self) -> None:
        self._yes_to = None
        self.renew_keys()

    @on(Input.Changed, "#find")
    def _finds(self) -> None:
        if not self._adding:
            self.fill()

    # What the person does

    @on(DataTable.RowSelected)
    def _row_selected(self) -> None:
        lit = self.lit
        if lit is not None and not self._held.again("enter"):
            self._enter(lit)

    @on(Input.Submitted, "#find")
    def _submitted(self, event: Input.Submitted) -> None:
        if self._adding:
            self._add(event.value)

    def pressed(self, key: str, character: str | None) -> bool:
        """Do what a key means."""
        find = self.query_one("#find", Input)
        asked, self._yes_to = self._yes_to, None
        if self.focused is find:
            return self._find_key(key, find)
        does: Callable[[], None] | None = {
            "n": self._light_next,
            "o": self._other_job,
            "d": self._door,
            "r": self._to_round,
            "a": self._ask_to_add,
            "slash": self._find,
            "home": lambda: self._light(0),
            "end": lambda: self._light(len(self.shown) - 1),
            "escape": self._back,
            "left": self._back,
            "question_mark": self._help,
        }.get(key.lower() if len(key) == 1 else key)
        if key.lower() == "y" and asked is not None:
            does = asked
        if does is None:
            return False
        self.say("")
        does()
        return True

    def _enter_word(self, one: DoorState) -> str:
        if self._open_job(one) is not None:
            return "Go on"
        return "Begin" if self._to_begin(one) else "Jobs"

    def _open_job(self, one: DoorState) -> RunSummary | None:
        """The job that Enter goes on with at a door: one in work, or one of this list that was left."""
        if self.round is None and one.state == IN_WORK:
            return one.last
        return to_go_on_with(one, self._procedure)

    @property
    def _procedure(self) -> str:
        return self.site.procedure if self.round is None else self.round.round.procedure

    def _to_begin(self, one: DoorState) -> bool:
        """Whether the job of this list is still to be begun at a door."""
        if self.round is None:
            return not any(run.procedure == self.site.procedure for run in one.jobs)
        waiting = () if self.round.over else (*self.round.left, *self.round.to_recheck)
        return any(door.door.door == one.door for door in waiting)

    def _enter(self, one: DoorState) -> None:
        job = self._open_job(one)
        if job is not None:
            self._opened(lambda: open_run(job.path, self.hingeside.settings.name))
        elif not self._to_begin(one):
            self._jobs(one)
        elif one.set_aside and self.round is None:
            self.say(f"{one.set_aside} Y begins it all the same.")
            self._yes_to = lambda: self._begin(one, self._procedure)
        else:
            self._begin(one, self._procedure)

    def _begin(self, one: DoorState, procedure: str) -> None:
        self.say("One moment…")
        settings = self.hingeside.settings
        self.call_after_refresh(self._opened, lambda: begin_at(self.site, one, procedure, settings))

    def _opened(self, opens: Callable[[], Session]) -> None:
        try:
            session = opens()
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return
        self.hingeside.site = self.path
        self.hingeside.open_run(session, session.told)

    def _other_job(self) -> None:
        one = self.lit
        if one is None:
            return
        from guide.screens.new_job_screen import procedures

        def picked(path: object) -> None:
            if not isinstance(path, Path):
                return
            job = to_go_on_with(one, path.stem)
            if job is not None:
                self._opened(lambda: open_run(job.path, self.hingeside.settings.name))
            else:
                self._begin(one, str(path))

        self.app.push_screen(procedures(), picked)

    def _jobs(self, one: DoorState) -> None:
        """The jobs of a door, to read the record of one."""
        from guide.screens import opening
        from guide.screens.site_pages import jobs_page
        from guide.screens.text_screen import TextScreen

        def picked(path: object) -> None:
            if not isinstance(path, Path):
                return
            try:
                text = opening.record_of(path, self.hingeside.record_text)
            except (HingesideError, OSError) as error:
                self.say(str(error), refused=True)
                return
            self.app.push_screen(TextScreen(path.stem, text))

        self.app.push_screen(jobs_page(self.site, one), picked)

    def _door(self) -> None:
        """What is known of the door that is lit."""
        from guide.screens.site_pages import door_page

        if self.lit is not None:
            self.app.push_screen(door_page(self.site, self.lit))

    def _light_next(self) -> None:
        following = self._next()
        for number, row in enumerate(self.shown):
            if following is not None and row.one.door == following.door:
                self._light(number)
                return
        none = OVER if self.round is not None and self.round.over else "No door is left."
        self.say(none if following is None else f"Next is {following.door.number}.")

    def _light(self, number: int) -> None:
        self.query_one("#doors", DataTable).move_cursor(row=max(0, number))

    def _back(self) -> None:
        if self.round is not None:
            self.round = None
            self.fill(light_next=True)
            return
        self.hingeside.site = None
        self.hingeside.open_home()

    def _help(self) -> None:
        from guide.screens.site_pages import SITE_KEYS
        from guide.screens.text_screen import HelpScreen

        self.app.push_screen(HelpScreen(SITE_KEYS))

    # The line for words: a search, or a door to be added

    _adding = False

    def _find(self) -> None:
        self._open_line("Find a door", adding=False)

    def _ask_to_add(self) -> None:
        if self.round is None:
            self._open_line("Its number, and its place after a comma", adding=True)

    def _open_line(self, asks: str, *, adding: bool) -> None:
        find = self.query_one("#find", Input)
        self._adding = adding
        find.placeholder = asks
        find.value = ""
        find.display = True
        self.set_focus(find)

    def _close_line(self, *, empty: bool) -> None:
        find = self.query_one("#find", Input)
        self._adding = False
        if empty:
            find.value = ""
        find.display = bool(find.value)
        self.query_one("#doors", DataTable).focus()

    def _find_key(self, key: str, find: Input) -> bool:
        if key in ("escape", "tab") or (
            key in ("enter", "down") and not self._adding and self.shown
        ):
            self._close_line(empty=key == "escape" or self._adding)
            return True
        return False

    def _add(self, line: str) -> None:
        about = named(line)
        try:
            self.site = change(
                self.path, lambda site: with_door(site, about["door"], about["place"], {})
            )
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return
        self._close_line(empty=True)
        self.say(f"Added: {about['door']}.")
        self.fill()
        added = [n for n, row in enumerate(self.shown) if row.one.door.number == about["door"]]
        if added:
            self._light(added[0])

    # Rounds

    def _to_round(self) -> None:
        if self.round is not None:
            self._pick_round()
        elif self.site.rounds:
            self._show_round(self.site.rounds[-1])
        else:
            self._ask_to_begin_round()

    def _show_round(self, one: Round) -> None:
        self.round = round_state(self.site, one, self.states)
        self.fill(light_next=True)

    def _pick_round(self) -> None:
        from guide.screens.site_pages import rounds_page

        def picked(one: object) -> None:
            if isinstance(one, Round):
                self._show_round(one)
            elif one is not None:
                self._ask_to_begin_round()

        self.app.push_screen(rounds_page(self.site, self.states, utc_now()[:4]), picked)

    def _ask_to_begin_round(self) -> None:
        year, doors = utc_now()[:4], to_inspect(self.site)
        if not doors:
            self.say("No door here may be a fire door: nothing for a round.", refused=True)
            return
        self._yes_to = lambda: self._begin_round(year, doors)
        none = "" if self.site.rounds else "No round yet. "
        self.say(f"{none}Y begins round {year} over {len(doors)} doors that may be fire doors.")

    def _begin_round(self, title: str, doors: tuple[str, ...]) -> None:
        rules = self.hingeside.settings.rules
        try:
            self.site = change(
                self.path,
                lambda site: with_round(site, Round(title, INSPECTION, doors, utc_now(), rules)),
            )
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return
        self._show_round(self.site.rounds[-1])
