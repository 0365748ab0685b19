"""A page with a table that depends on every job of this device, which are read while the screen is up already."""

from asyncio import sleep
from collections.abc import Callable, Sequence
from itertools import islice
from pathlib import Path
from typing import ClassVar, Generic, NamedTuple, TypeVar

from rich.cells import cell_len
from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.events import Click, Key
from textual.widgets import DataTable, Input

from guide.errors import HingesideError
from guide.files.library import runs_folder
from guide.run.catalogue import RunSummary, at_once, read_now, summary_of
from guide.run.journal import Damaged
from guide.run.run_list import in_order, with_others
from guide.run.session import Session
from guide.run.store import fitting, open_run, read_run, set_aside
from guide.screens.page_screen import PageScreen, key
from guide.screens.words_shown import Words, clean
from guide.translation import _

AT_ONCE = 16
"""Runs that are read between two looks at the keys; each takes about a millisecond."""
_AROUND, _BETWEEN = 5, 2
"""Columns of the window around the table, and around each of its columns."""
BREATH = 0.01
"""Seconds between two readings, so that the screen is painted meanwhile."""
FIND = key("slash", "find", _("Find"), _("Find lines of the list by words in them"))
HELP = key("question_mark", "all_keys", _("Help"))
OF_LISTS = (key("y", "yes"), key("down,tab", "leave_find"))
"""Keys of every list that its key bar does not name."""


T = TypeVar("T")


class Column(NamedTuple):
    """A column of a list."""

    head: str
    room: int = 0
    """Columns of the window from which it is shown."""


class Lines(DataTable[Text], inherit_bindings=False):
    """A table of lines, of which one is lit. A click opens a line; the right button only lights it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "cursor_up"),
        Binding("down", "cursor_down"),
        Binding("pageup", "page_up"),
        Binding("pagedown", "page_down"),
        Binding("home", "scroll_top"),
        Binding("end", "scroll_bottom"),
    ]

    def on_click(self, event: Click) -> None:
        """Light the line; the library then takes the click for one on a line that is lit."""
        meta = event.style.meta
        if meta.get("row", -1) >= 0:
            self.move_cursor(row=meta["row"], column=meta["column"])
        if event.button != 1:
            event.prevent_default()


class ListingScreen(PageScreen, Generic[T]):
    """Knows the jobs that were read so far, and fills its table with lines about a `T` anew as more are."""

    finds = ""
    """What may be typed on the line that finds something."""

    def __init__(self, notice: str = "") -> None:
        super().__init__()
        self.runs: list[RunSummary] = []
        """Every job that was read so far, the latest first."""
        self.shown: list[T] = []
        """What each row of the table is about."""
        self._notice = notice
        self._laid_for = 0
        """The columns of the window that the table was laid out for."""
        self._on_yes: Callable[[], None] | None = None
        """What Y does, once it was asked."""

    def body(self) -> ComposeResult:
        """What is asked, the line to find something, and the table."""
        yield Words(classes="ask", id="ask")
        yield Words(classes="text", id="day")
        yield Input(placeholder=self.finds, id="find")
        yield Lines(cursor_type="row", id="lines")

    @property
    def find(self) -> Input:
        """The line to find something by its words."""
        return self.query_one("#find", Input)

    @property
    def table(self) -> Lines:
        """The table."""
        return self.query_one("#lines", Lines)

    def on_mount(self) -> None:
        """Show what is known at once, and read the rest."""
        self.find.display = False
        self.say(self._notice)
        known, unread = at_once()
        self.runs = in_order(known)
        self.fill()
        self.table.focus()
        self.call_after_refresh(self.read_on, unread)

    # The table

    def fill(self) -> None:
        """Fill the table anew by `lay`, the same row lit."""
        raise NotImplementedError

    def named(self, one: T) -> object:
        """What tells a line from all others, also when it has changed."""
        raise NotImplementedError

    def row_of(self, one: T | None) -> int | None:
        """The row of a line that is shown; None where it is not."""
        name = one and self.named(one)
        return next((n for n, other in enumerate(self.shown) if self.named(other) == name), None)

    @property
    def lit(self) -> T | None:
        """What the row that is lit is about."""
        row = self.table.cursor_row if self.is_mounted else -1
        return self.shown[row] if 0 <= row < len(self.shown) else None

    def on_resize(self) -> None:
        """Another window has other columns."""
        if self._laid_for not in (0, self.app.size.width):
            self.call_after_refresh(self.fill)

    def lay(
        self, columns: Sequence[Column], lines: Sequence[tuple[T, Sequence[str]]], lit: T | None
    ) -> None:
        """Lay out lines of cells in the window as it is; `lit` is lit, or the first."""
        self._laid_for = width = self.app.size.width
        self.shown = [one for one, _ in lines]
        table, ascii_wanted = self.table, self.hingeside.ascii
        table.clear(columns=True)
        seen = [place for place, column in enumerate(columns) if column.room <= width]
        heads = [columns[place].head for place in seen]
        cells = [[clean(row[place], ascii=ascii_wanted) for place in seen] for _, row in lines]
        widths = [max(map(cell_len, column)) for column in zip(heads, *cells, strict=True)]
        while sum(widths) > width - _AROUND - _BETWEEN * len(widths):
            widths[widths.index(max(widths))] -= 1
        for head, room in zip(heads, widths, strict=True):
            # The table's own widths are known only after it may have been painted, and where the whole is then as
            # large as before, it is not painted again.
            table.add_column(head, width=room)
        for line in cells:
            table.add_row(*(Text(text, no_wrap=True, overflow="ellipsis") for text in line))
        table.display = bool(lines)
        if lines:
            table.move_cursor(row=self.row_of(lit) or 0)
            if self.focused is None:
                self.set_focus(table)
        self.renew_keys()

    @work
    async def read_on(self, unread: list[Path]) -> None:
        """Read the other runs; keys come in between. The table is filled again whenever twice as many are known: to
        fill it takes as long as to read them."""
        reading, read = read_now(unread), list[RunSummary]()
        while True:
            runs = [*islice(reading, AT_ONCE)]
            read += runs
            if read and (not runs or len(read) >= len(self.runs)):
                self.runs, read = in_order([*self.runs, *read]), []
                self.fill()
            if not runs:
                return
            await sleep(BREATH)

    def read_anew(self, path: Path) -> None:
        """Read one run's file anew: it was changed, has gone, or has come back."""
        self.runs = [run for run in self.runs if run.path.name != path.name]
        if (runs_folder() / path.name).is_file():
            self.runs = in_order([*self.runs, summary_of(runs_folder() / path.name)])
        self.fill()

    # What the person does

    def on_key(self, event: Key) -> None:
        """Any other key than Y is a no, and what was said is read."""
        if event.key.lower() != "y":
            self._on_yes = None
            self.say("")

    @on(DataTable.RowHighlighted)
    def _lights(self) -> None:
        self._on_yes = None
        self.renew_keys()

    @on(DataTable.RowSelected)
    def _clicked(self) -> None:
        self.press("enter")

    def ask(self, told: str, does: Callable[[], None], *, refused: bool = False) -> None:
        """Say what Y would do, and do it if that is the next key."""
        self._on_yes = does
        self.say(told, refused=refused)

    def action_yes(self) -> None:
        does, self._on_yes = self._on_yes, None
        if does is not None:
            self.say("")
            does()

    def tried(self, does: Callable[[], object]) -> bool:
        """Do it; whether it could be done. Why not is said."""
        try:
            does()
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)
            return False
        return True

    # Words to find something by

    def action_find(self) -> None:
        self.find.display = True
        self.find.focus()

    def action_leave_find(self) -> None:
        self.find.display = bool(self.find.value)
        if self.table.display or not self.find.display:
            self.table.focus()

    @on(Input.Changed, "#find")
    def _finds(self) -> None:
        self.fill()

    @on(Input.Submitted, "#find")
    def _entered(self) -> None:
        self.action_leave_find()

    def clear_find(self) -> None:
        """Show every line again."""
        self.find.value = ""
        self.find.display = False
        self.table.focus()

    # Jobs

    def go_on(self, path: Path) -> None:
        """Go on with a job; one that is damaged can be set aside."""
        try:
            self.open_job(open_run(path, self.hingeside.settings.name))
        except Damaged as error:
            told = _("{error} Y sets it aside and saves what can be read.").format(error=error)
            self.ask(told, lambda: self._set_aside(path), refused=True)
        except (HingesideError, OSError) as error:
            self.say(str(error), refused=True)

    def _set_aside(self, path: Path) -> None:
        try:
            told = set_aside(path, self.hingeside.settings.name)
        except (HingesideError, OSError) as error:
            told = str(error)
        self.read_anew(path)
        self.say(told)

    def begin(self, begins: Callable[[], Session]) -> None:
        """Begin a job; the sentence that says so is on the screen meanwhile."""
        self.say(_("One moment…"))
        self.call_after_refresh(self.tried, lambda: self.open_job(begins()))

    def open_job(self, session: Session) -> None:
        """Go to a job that was opened."""
        self.hingeside.open_run(session, session.told)

    def read_record(self, path: Path) -> None:
        """Show the record of a job."""
        from guide.papers.record.record_forms import record_text  # few look at one
        from guide.screens.text_screen import TextScreen

        def reads() -> None:
            state, events = read_run(path)
            state = with_others(state, path)
            text = fitting(path, lambda: record_text(state, events))
            self.app.push_screen(TextScreen(path.stem, text))

        self.tried(reads)

    def action_all_keys(self) -> None:
        from guide.screens.text_screen import HelpScreen

        self.app.push_screen(HelpScreen(self.BINDINGS))
