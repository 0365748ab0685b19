"""A site: the doors of one building, with what their schedule knows of each, and the rounds of inspections over them.

What became of a door is never kept here: it is read off the jobs that name the site and the door (`door_state.py`).
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from guide.errors import UNKNOWN, HingesideError
from guide.site.schedule.reading import Question, ReadCell
from guide.text import meant, printable, short, tidy

LONGEST_NAME = 80
PROCEDURE = "fit-surface-closer"
"""The job that is begun at a door of a site, if no other is named."""
ROUND_PROCEDURE = "inspect-a-closing-door"
"""That of a round."""
WORDS = ("new", "add", "remove", "round", "schedule", "plan", "rename", "delete")
"""What stands after `hingeside site` or a site's name and is the name of neither a site nor a door."""


class UnknownDoor(HingesideError):
    """No door of that number is on the site's list, or one that cannot be."""

    status = UNKNOWN


@dataclass(frozen=True, slots=True)
class Planned:
    """What the plan of the schedule came to for one door."""

    mount: str
    size: int | None
    least: int
    most: int
    """Minutes at the door."""
    set_aside: str = ""
    """Why it should not be started, a sentence; empty if it may be."""


@dataclass(frozen=True, slots=True)
class SiteDoor:
    """One door, as its site knows it."""

    number: str
    """As jobs name it; no two doors of a site have the same, whatever the letter case."""
    place: str = ""
    rating: str = ""
    """The fire rating in the schedule's words; empty if it has none."""
    row: str = ""
    """Where it stands in the schedule, such as “row 9”; empty if it was added by hand."""
    closer_wanted: bool | None = None
    """Whether the schedule gives it a closer; None if it does not say."""
    facts: Mapping[str, str] = field(default_factory=dict)
    """Facts that a schedule may supply, in exact writing by name; each is confirmed at the door before it counts."""
    found_at: Mapping[str, str] = field(default_factory=dict)
    """The cell that each fact came from."""
    questions: tuple[Question, ...] = ()
    not_understood: tuple[ReadCell, ...] = ()
    planned: Planned | None = None
    """None if it was added by hand."""

    @property
    def key(self) -> str:
        """Its number, as doors are compared."""
        return door_key(self.number)

    @property
    def rated(self) -> str:
        """Its rating for a list: the schedule's words, else what is known, else a question mark."""
        return (
            self.rating
            or {"yes": "fire door", "no": "-", "doubt": "?"}[self.facts.get("rated", "doubt")]
        )


@dataclass(frozen=True, slots=True)
class Round:
    """One inspection of many doors, such as the yearly check."""

    title: str
    procedure: str
    doors: tuple[str, ...]
    """Numbers, in the order in which they are gone to."""
    begun: str
    """UTC. Inspections that began before it are of an earlier round."""
    rules: str = "us"
    """Whose rules hold, by the settings when it was begun."""


@dataclass(frozen=True, slots=True)
class Site:
    """A site, as it is kept."""

    name: str
    made: str
    """UTC."""
    units: str = "inch"
    """"inch" or "metric"."""
    sheet: str = ""
    """The name of the closer's sheet; empty if none was given."""
    procedure: str = PROCEDURE
    schedule: str = ""
    """The file that it was made from; empty if it grew door by door."""
    doors: tuple[SiteDoor, ...] = ()
    beside: tuple[ReadCell, ...] = ()
    """Filled cells of the schedule that belong to no door."""
    notes: tuple[str, ...] = ()
    """What a person should know of how the schedule was read."""
    rounds: tuple[Round, ...] = ()
    """The latest last."""
    earlier_names: tuple[str, ...] = ()
    """Names that it had; jobs that name one of them are its jobs."""

    @property
    def keys(self) -> set[str]:
        """Its name and its earlier ones, as names are compared."""
        return {door_key(name) for name in (self.name, *self.earlier_names)}

    def door(self, number: str) -> SiteDoor:
        """The door of that number. Raises UnknownDoor with the nearest."""
        key = door_key(number)
        for door in self.doors:
            if door.key == key:
                return door
        known = [one.number for one in self.doors]
        add = f"add it: hingeside site {quoted(self.name)} add {quoted(short(printable(number)))}"
        raise UnknownDoor(
            f"{self.name} has no door “{printable(short(number))}”; {meant(number, known, f'{add}.')}"
        )

    def round(self, title: str = "") -> Round:
        """The round of that title; the latest if none is given. Raises UnknownDoor."""
        for one in reversed(self.rounds):
            if not title or one.title.casefold() == title.casefold():
                return one
        known = [one.title for one in self.rounds]
        begin = f"begin it: hingeside site {quoted(self.name)} round new {quoted(title or '2027')}."
        what = f"no round “{printable(short(title))}”" if title else "no round yet"
        raise UnknownDoor(f"{self.name} has {what}; {meant(title, known, begin)}")


def door_key(number: str) -> str:
    """A door's number as numbers are compared: without letter case, with single blanks."""
    return " ".join(number.split()).casefold()


def quoted(word: str) -> str:
    """A word as it is typed in a command."""
    return f'"{word}"' if " " in word or not word else word


def in_order(number: str) -> list[tuple[int, int, str]]:
    """What door numbers are sorted by: 9 before 10, 101 before 101A."""
    parts = re.findall(r"\d{1,9}|\D+", door_key(number))
    return [(0, int(part), "") if part.isdigit() else (1, 0, part) for part in parts]


def with_door(site: Site, number: str, place: str, facts: Mapping[str, str]) -> Site:
    """The site with one more door, put where its number belongs if the doors are in order, else at the end. Raises
    UnknownDoor for a number that a door has already, or that no door can have."""
    number, place = tidy(number), tidy(place)
    if not number or len(number) > LONGEST_NAME or number.casefold() in WORDS:
        raise UnknownDoor("A door needs a number or a name, such as 114 or “boiler room”.")
    if any(door.key == door_key(number) for door in site.doors):
        raise UnknownDoor(f"{site.name} has a door {number} already.")
    new = SiteDoor(number, place, facts=facts)
    order = [in_order(door.number) for door in site.doors]
    place_in = len(order)
    if order == sorted(order):
        place_in = sum(one < in_order(number) for one in order)
    doors = (*site.doors[:place_in], new, *site.doors[place_in:])
    return replace(site, doors=doors)


def without_door(site: Site, number: str) -> Site:
    """The site without a door; jobs that name it stay. Raises UnknownDoor."""
    gone = site.door(number)
    return replace(site, doors=tuple(door for door in site.doors if door is not gone))


def renamed(site: Site, name: str) -> Site:
    """The site under another name; its jobs stay its own. Raises UnknownDoor for a name that cannot be."""
    name = need_name(name)
    earlier = [one for one in (*site.earlier_names, site.name) if door_key(one) != door_key(name)]
    return replace(site, name=name, earlier_names=tuple(earlier))


def with_round(site: Site, new: Round) -> Site:
    """The site with one more round. Raises UnknownDoor for a title that a round has already, for a door that is not on
    the list, and for no door at all."""
    title = tidy(new.title)
    if not title or len(title) > LONGEST_NAME or title.casefold() == "new":
        raise UnknownDoor("A round needs a title, such as 2027.")
    if any(one.title.casefold() == title.casefold() for one in site.rounds):
        raise UnknownDoor(f"{site.name} has a round {title} already.")
    doors = tuple(dict.fromkeys(site.door(number).number for number in new.doors))
    if not doors:
        raise UnknownDoor(
            f"{site.name} has no door for a round; add doors first, or name them: --doors."
        )
    rounds = sorted(
        (*site.rounds, replace(new, title=title, doors=doors)), key=lambda one: one.begun
    )
    return replace(site, rounds=tuple(rounds))


def need_name(name: str) -> str:
    """A site's name as one line. Raises UnknownDoor for one that cannot be."""
    line = tidy(name)
    if not re.search(r"\w", line) or len(line) > LONGEST_NAME or line.casefold() in WORDS:
        raise UnknownDoor(
            f"A site needs a name of at most {LONGEST_NAME} letters, such as “Elm Lane School”."
        )
    return line


def to_inspect(site: Site) -> tuple[str, ...]:
    """The doors of a round if none are named: all that are not known to be no fire doors."""
    return tuple(door.number for door in site.doors if door.facts.get("rated") != "no")
