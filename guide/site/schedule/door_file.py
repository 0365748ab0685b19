"""A door of a schedule as a door file, with which its job is begun: `hingeside run fit-surface-closer --door FILE`."""

import re
from collections.abc import Iterable, Iterator

from guide.site.schedule.doors import ScheduledDoor

_NOT_IN_NAMES = re.compile(r"[^A-Za-z0-9._-]+")
LONGEST = 80


def door_file(door: ScheduledDoor, units: str, sheet: str) -> str:
    """The text of a door file; `sheet` is empty where none was given. Only what is known goes in, never what is
    supposed."""
    import yaml  # to write it; a plan needs no YAML

    name = f"{door.number} {door.place}".strip()
    data = {"door": door.door_file(), "units": units, "sheet": sheet or "none", "name": name}
    text: str = yaml.safe_dump(data, allow_unicode=True, sort_keys=False, width=1000)
    return text


def file_names(doors: Iterable[ScheduledDoor]) -> Iterator[str]:
    """A name for the file of each door, of its number; doors with one number are told apart by their rows."""
    seen: set[str] = set()
    for door in doors:
        name = _NOT_IN_NAMES.sub("-", door.number).strip("-.")[:LONGEST] or "door"
        if name.casefold() in seen:
            name = f"{name}-row-{door.row}"
        seen.add(name.casefold())
        yield f"{name}.yaml"
