"""The table of a site's doors, or of the doors of a round, in their words."""

from collections.abc import Sequence

from guide.papers.site.site_list import hours
from guide.run.when import when
from guide.screens.listing_screen import Column
from guide.site.day import day_of
from guide.site.door_state import STATES, DoorState, chosen, counted
from guide.site.round_state import WORDS, RoundDoor, RoundState
from guide.translation import _

NONE_SO = _("No door has these words.")
OVER = _("This round is over: a later one has begun.")


Line = tuple[DoorState, tuple[str, ...]]
"""A door, and the cells of its line."""


def columns_of(*, in_round: bool) -> list[Column]:
    """The columns of the table."""
    last = _("Faults") if in_round else _("Last job")
    return [
        *(Column(_("Door")), Column(_("Place"), 56), Column(_("Rating"), 72)),
        *(Column(_("State")), Column(last, 72)),
    ]


def lines_of(shown: Sequence[DoorState] | RoundState, words: str) -> list[Line]:
    """The lines of a site's doors, or of a round's, that have all these words."""
    if isinstance(shown, RoundState):
        lines = [_line(one.door, one.words, _faults(one)) for one in shown.doors]
        sought = words.casefold().split()
        return [line for line in lines if all(word in _told(line) for word in sought)]
    found = chosen(shown, words=words)
    return [_line(one, one.words, one.set_aside or _dated(one)) for one in found]


def _line(one: DoorState, state: str, result: str) -> Line:
    door = one.door
    return one, (door.number, door.place, door.rated, state, result)


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


def _dated(one: DoorState) -> str:
    return f"{when(one.when)}: {one.result}" if one.result else ""


def _faults(one: RoundDoor) -> str:
    faults = ", ".join(fault.first.item.title for fault in one.open)
    return faults or when(one.when)


def _told(line: Line) -> str:
    return " ".join(line[1]).casefold()
