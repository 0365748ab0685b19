"""Where the headings of a table are, in one row or two, and what each of its columns holds."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from guide.site.schedule.cells import Row, Table
from guide.site.schedule.headings import Heading, folded, meaning

LOOKED_AT = 60
"""Rows in which headings are looked for."""
LEAST_KNOWN = 2
"""Headings that must be understood, the number of the door among them, or it is not a table of doors."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table of doors."""

    index: int
    heading: str
    """As it is written, its two rows joined; empty if it has none."""
    means: str
    """One of `headings.COLUMNS`; empty if it is not understood."""
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of a table of doors."""

    first: int
    """The row of the headings, from 0."""
    rows: int
    """How many rows the headings have: 1 or 2."""
    columns: tuple[Column, ...]

    @property
    def of_doors(self) -> bool:
        """Whether the table can be read as doors."""
        known = {one.means for one in self.columns if one.means}
        return "number" in known and len(known) >= LEAST_KNOWN


def columns_of(table: Table, mapped: Mapping[str, Heading] | None = None) -> Columns | None:
    """The columns of a table; None if no row looks like the headings of doors.

    `mapped` is what a map says of headings, by their folded text; it goes before what is understood here.
    """
    meanings = mapped or {}
    best: tuple[tuple[int, int], Columns] | None = None
    for number, row in enumerate(table.rows[:LOOKED_AT]):
        if not row:
            continue
        for rows in (1, 2):
            lower = table.rows[number + 1] if rows == 2 and number + 1 < len(table.rows) else None
            if rows == 2 and (lower is None or not _second_row(row, lower, meanings)):
                continue
            found = _columns(number, row, lower, meanings)
            known = len({one.means for one in found.columns if one.means})
            if found.of_doors and (best is None or (known, -rows) > best[0]):
                best = (known, -rows), found
    return None if best is None else best[1]


def _second_row(upper: Row, lower: Row, mapped: Mapping[str, Heading]) -> bool:
    """Whether the row below belongs to the headings: it says more of them, and has no figures in it."""
    own = [one for one in lower.values() if not one.spread]
    if any(sign.isdigit() for one in own for sign in one.text):
        return False
    if not own:
        return bool(lower)  # headings merged over both rows
    known = sum(1 for one in own if _meaning(one.text, mapped).column)
    joined = sum(1 for one in own if one.column in upper or known)
    return known * 2 >= len(own) and joined > 0


def _columns(first: int, upper: Row, lower: Row | None, mapped: Mapping[str, Heading]) -> Columns:
    found = []
    last = max((*upper, *(lower or {})), default=-1)
    group = ""
    for index in range(last + 1):
        above = upper[index].text if index in upper else ""
        below = lower[index].text if lower is not None and index in lower else ""
        if above:
            group = above
        heading, means = _joined(above, below, group, mapped)
        found.append(Column(index, heading, means.column, means.unit))
    return Columns(first, 1 if lower is None else 2, tuple(found))


def _joined(
    above: str, below: str, group: str, mapped: Mapping[str, Heading]
) -> tuple[str, Heading]:
    """A column's whole heading and its meaning: both rows together, or else the lower one, or the upper one.

    The upper heading of a group stands over its first column only; the group goes on until the next one.
    """
    if not below or below == above:
        return above, _meaning(above, mapped)
    whole = f"{group} {below}".strip()
    for text in (whole, f"{below} {group}".strip(), below):
        means = _meaning(text, mapped)
        if means.column:
            return whole, means
    return whole, _meaning(above, mapped) if above else Heading("")


def _meaning(text: str, mapped: Mapping[str, Heading]) -> Heading:
    return mapped.get(folded(text)) or meaning(text)


def once(columns: Sequence[Column]) -> list[str]:
    """A sentence for each meaning that two columns have and only one may."""
    found = []
    single = [one for one in columns if one.means and one.means not in _SEVERAL]
    for one, other in pairwise(sorted(single, key=lambda one: (one.means, one.index))):
        if one.means == other.means:
            found.append(
                f"“{one.heading}” and “{other.heading}” both mean {one.means}: where they differ it is asked."
            )
    return found


_SEVERAL = ("place", "remarks", "opening-size", "left-out", "hardware")
