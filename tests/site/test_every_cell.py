"""Nothing of a schedule is dropped: however it was changed, every filled cell ends as a fact, a question or “not
understood”, beside the place where it was found."""

import csv
import io
from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from guide.procedure.facts import writing
from guide.site.schedule.cells import BadSchedule, address
from guide.site.schedule.csv_table import csv_table
from guide.site.schedule.reading import FACT, NOT_UNDERSTOOD, QUESTION, ReadCell
from guide.site.schedule.schedule import Schedule, schedule_of
from guide.text import tidy
from tests.site.schedules import INCH, METRIC, SHIPPED, facts

Grid = list[list[str]]


def _grid(name: str, charset: str, separator: str) -> Grid:
    text = (SHIPPED / name).read_text(charset)
    return list(csv.reader(io.StringIO(text), delimiter=separator))


GRIDS = (_grid(INCH, "utf-8", ","), _grid(METRIC, "cp1252", ";"))
PIECES = sorted({cell for grid in GRIDS for row in grid for cell in row if cell})
ODD = (
    *("=1+1", "#REF!", "TBD", "3'-0\" x", "x", "½", "12 1/2", "0", "-1", "1e9", "LHRX", "90 MIN?"),
    *("\u202e101", "3070 PR", "6'-0\"", "a,b;c", "Coordinator. Coordinator", "9" * 400),
)
CELLS = st.one_of(st.sampled_from(PIECES), st.sampled_from(ODD), st.text(max_size=12), st.just(""))


@st.composite
def changed_schedules(draw: st.DrawFn) -> Grid:
    """One of the invented schedules with cells, rows and columns changed."""
    grid = [list(row) for row in draw(st.sampled_from(GRIDS))]
    for _ in range(draw(st.integers(1, 8))):
        number = draw(st.integers(0, len(grid) - 1))
        row = grid[number]
        column = draw(st.integers(0, max(0, len(row) - 1)))
        what = draw(st.sampled_from(("cell", "cell", "cell", "swap", "row", "blank", "cut")))
        if what == "cell" and row:
            row[column] = draw(CELLS)
        elif what == "swap":
            other = draw(st.integers(0, max(0, len(row) - 1)))
            for one in grid:
                if max(column, other) < len(one):
                    one[column], one[other] = one[other], one[column]
        elif what == "row":
            grid.insert(number, list(grid[draw(st.integers(0, len(grid) - 1))]))
        elif what == "blank":
            grid.insert(number, [])
        elif what == "cut":
            del row[column:]
    return grid


def _read(grid: Grid) -> Schedule | None:
    out = io.StringIO(newline="")
    csv.writer(out).writerows(grid)
    try:
        table = csv_table("changed.csv", out.getvalue().encode())
        return schedule_of("changed.csv", [table], facts())
    except BadSchedule:
        return None


def _is_accounted_for(cell: ReadCell) -> bool:
    """Whether a cell ended as one of the three, with what belongs to it."""
    ends = {
        FACT: bool(cell.facts) and not cell.left,
        QUESTION: bool(cell.questions) and not cell.left,
        NOT_UNDERSTOOD: bool(cell.left),
    }
    return ends.get(cell.became, False)


@settings(max_examples=40)
@given(changed_schedules())
def test_every_filled_cell_ends_as_a_fact_a_question_or_not_understood(grid: Grid) -> None:
    found = _read(grid)
    if found is None:
        return
    out = io.StringIO(newline="")
    csv.writer(out).writerows(grid)
    again = csv.reader(io.StringIO(out.getvalue(), newline=""))
    filled = {
        address(row, column)
        for row, cells in enumerate(again)
        for column, text in enumerate(cells)
        if any(map(tidy, text.splitlines()))
    }
    cells = [cell for door in found.doors for cell in door.cells] + list(found.beside)
    shown = Counter(cell.where for cell in cells)
    assert max(shown.values()) == 1
    headings = {one.heading for one in found.columns}
    for place in filled - set(shown):  # only headings are read as something else
        row, column = int(place.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")), found.columns
        assert row <= len(grid)
        assert headings
        assert any(tidy(grid_text(out.getvalue(), place)) in one.heading for one in column)
    assert [cell for cell in cells if not _is_accounted_for(cell)] == []


def grid_text(text: str, place: str) -> str:
    """The text of a cell by its place."""
    for row, cells in enumerate(csv.reader(io.StringIO(text, newline=""))):
        for column, one in enumerate(cells):
            if address(row, column) == place:
                return "; ".join(filter(None, map(tidy, one.splitlines())))
    raise AssertionError(f"there is nothing at {place}")


@settings(max_examples=40)
@given(changed_schedules())
def test_every_fact_is_one_that_the_procedure_accepts_and_has_its_cell(grid: Grid) -> None:
    found = _read(grid)
    for door in () if found is None else found.doors:
        places = {cell.where for cell in door.cells}
        for name, value in door.facts.items():
            assert facts()[name].read(writing(value)) == value
            assert door.found_at[name] in places


@settings(max_examples=20)
@given(changed_schedules())
def test_the_same_file_is_read_the_same_way(grid: Grid) -> None:
    assert _read(grid) == _read(grid)
