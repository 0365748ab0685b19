"""The table of a site's doors, or of the doors of a round, in the words and widths of the window."""

from collections.abc import Sequence
from dataclasses import dataclass

from guide.papers.site.site_list import hours
from guide.run.when import when
from guide.site.day import day_of
from guide.site.door_state import STATES, DoorState, chosen, counted
from guide.site.round_state import WORDS, RoundDoor, RoundState
from guide.translation import _

_FEW, _MEDIUM, _ALL = (0, 3), (0, 1, 3), (0, 1, 2, 3, 4)
WIDE, MEDIUM = 72, 56
"""Columns of the window from which the table has all of its columns, and three of them."""
NONE_SO = _("No door has these words.")
OVER = _("This round is over: a later one has begun.")


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the table."""

    one: DoorState
    state: str
    result: str


def rows_of(shown: Sequence[DoorState] | RoundState, words: str) -> list[Row]:
    """The lines of a site's doors, or of a round's, that have all these words."""
    if isinstance(shown, RoundState):
        rows = [Row(one.door, one.words, _faults(one)) for one in shown.doors]
        sought = words.casefold().split()
        return [row for row in rows if all(word in _told(row) for word in sought)]
    found = chosen(shown, words=words)
    return [Row(one, one.words, one.set_aside or _dated(one)) for one in found]


def counts_said(states: Sequence[DoorState], shown: RoundState | None) -> str:
    """How many doors are in each state."""
    if not states:
        return _("No door yet. A adds one.")
    if shown is None:
        counts = [f"{number} {STATES[state]}" for state, number in counted(states).items()]
        return f"{', '.join(counts)}."
    return _("Round {title}: {counts}").format(title=shown.round.title, counts=counts_of(shown))


def counts_of(shown: RoundState) -> str:
    """How many doors of a round are in each state."""
    return f"{', '.join(f'{number} {WORDS[state]}' for state, number in shown.counted.items())}."


def day_said(states: Sequence[DoorState], following: DoorState | None) -> str:
    """What was done today, and the next door."""
    day, done = day_of(states), ""
    if day.minutes:
        undone = _(", {undone} not").format(undone=day.undone) if day.undone else ""
        done = _("Today: {done} done{undone}, {hours}. ")
        done = done.format(done=day.done, undone=undone, hours=hours(day.minutes))
    if following is None:
        return done.strip()
    door = following.door
    return done + _("Next: {door}").format(door=f"{door.number} {door.place}".strip())


def columns_of(
    shown: Sequence[Row], width: int, *, in_round: bool
) -> tuple[list[str], list[list[str]]]:
    """Heads and lines of the columns that a window of this width has."""
    places = _ALL if width >= WIDE else _MEDIUM if width >= MEDIUM else _FEW
    last = _("Faults") if in_round else _("Last job")
    heads = (_("Door"), _("Place"), _("Rating"), _("State"), last)
    doors = ((row.one.door, row) for row in shown)
    cells = [(door.number, door.place, door.rated, row.state, row.result) for door, row in doors]
    return [heads[place] for place in places], [[row[place] for place in places] for row in cells]


def _dated(one: DoorState) -> str:
    return f"{when(one.when)}: {one.result}" if one.result else ""


def _faults(one: RoundDoor) -> str:
    faults = ", ".join(fault.first.item.title for fault in one.open)
    return faults or when(one.when)


def _told(row: Row) -> str:
    door = row.one.door
    return f"{door.number} {door.place} {door.rated} {row.state} {row.result}".casefold()
