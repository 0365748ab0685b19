"""A page with a table that depends on every job of this device, which are read while the screen is up already."""

from collections.abc import Iterator, Sequence
from itertools import islice

from rich.text import Text
from textual.widgets import DataTable

from guide.run.catalogue import RunSummary, at_once, read_now
from guide.run.run_list import in_order
from guide.screens.page_screen import PageScreen
from guide.screens.words_shown import clean

AT_ONCE = 16
"""Runs that are read between two looks at the keys; each takes about a millisecond."""
BREATH = 0.01
"""Seconds between two readings, so that the screen is painted meanwhile."""


class ListingScreen(PageScreen):
    """Knows the jobs that were read so far, and fills its table anew as more are."""

    def __init__(self) -> None:
        super().__init__()
        self.runs: list[RunSummary] = []
        """Every job that was read so far, the latest first."""
        self._unread: Iterator[RunSummary] = iter(())
        self._read: list[RunSummary] = []
        """Those that were read and are not in the table yet."""

    def fill(self) -> None:
        """Fill the table anew, the same row lit."""
        raise NotImplementedError

    def know_at_once(self) -> None:
        """Take up what the catalogue knows; the rest is read by `read_on`."""
        known, unread = at_once()
        self._unread = read_now(unread)
        self.runs = in_order(known)

    def read_on(self) -> None:
        """Read some runs; keys come in between. The table is filled again whenever twice as many are known: to fill it
        takes as long as to read them."""
        runs = list(islice(self._unread, AT_ONCE))
        self._read += runs
        if self._read and (not runs or len(self._read) >= len(self.runs)):
            self.runs, self._read = in_order([*self.runs, *self._read]), []
            self.fill()
        if runs:
            self.set_timer(BREATH, self.read_on)

    def cell(self, text: str, room: int) -> Text:
        """A text as a cell of the table: without signs that would do something, and no longer than its room."""
        said = clean(text, ascii=self.hingeside.ascii)
        return Text(said if len(said) <= room else f"{said[: room - 1]}…", no_wrap=True)


def put_in(table: DataTable[Text], heads: Sequence[str], rows: Sequence[Sequence[Text]]) -> None:
    """Fill a table anew, each column as wide as what stands in it. The table's own widths are known only after it may
    have been painted, and where the whole is then as large as before, it is not painted again."""
    table.clear(columns=True)
    for place, head in enumerate(heads):
        table.add_column(head, width=max([len(head), *(row[place].cell_len for row in rows)]))
    for row in rows:
        table.add_row(*row)
