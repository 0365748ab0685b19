"""The sites of this device: one JSON file each in the folder `sites`, replaced in one step when it changes."""

import json
import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import asdict
from pathlib import Path
from typing import Any

from guide.errors import FOUND, NO_DEVICE, UNKNOWN, HingesideError
from guide.files.library import user_folder
from guide.files.plain_data import (
    Shape,
    each,
    either,
    flag,
    keyed,
    mapping,
    nothing,
    one_of,
    text,
    whole,
)
from guide.files.writing import sync_folder, why_not, write_in_place
from guide.run.journal import Locked
from guide.run.log.lock import RunLock
from guide.site.schedule.reading import Question, ReadCell
from guide.site.site import Planned, Round, Site, SiteDoor, door_key, renamed
from guide.text import meant, printable, short

ENDING = ".site.json"
FORM = 2
"""Of the file: raised when a key changes its meaning or goes."""
LARGEST = 64_000_000
MOST_DOORS = 20_000

_WORDS, _LONG = text(400), text(8000)
_QUESTION = keyed(
    {"text": _LONG, "where": _WORDS, "fact": _WORDS, "supposed": mapping(_WORDS, _WORDS)}
)
_CELL = keyed(
    {
        **dict.fromkeys(("where", "heading", "text", "became", "left", "why"), _LONG),
        "facts": each(_WORDS),
        "questions": each(_LONG),
    }
)
_PLANNED = keyed(
    {
        **dict.fromkeys(("least", "most"), whole(0, 10**6)),
        "mount": _WORDS,
        "size": either(nothing, whole(0, 20)),
        "set_aside": _LONG,
    }
)
_DOOR = keyed(
    {
        **dict.fromkeys(("number", "place", "rating", "row"), _LONG),
        "closer_wanted": either(nothing, flag),
        "facts": mapping(_WORDS, _LONG),
        "found_at": mapping(_WORDS, _WORDS),
        "questions": each(_QUESTION),
        "not_understood": each(_CELL),
        "planned": either(nothing, _PLANNED),
    }
)
_ROUND = keyed(
    {
        **dict.fromkeys(("title", "procedure", "begun", "rules"), _WORDS),
        "doors": each(_LONG, MOST_DOORS),
    }
)
SITE: Shape = keyed(
    {
        "hingeside": one_of("site"),
        "format": whole(FORM, FORM),
        **dict.fromkeys(("name", "made", "sheet", "procedure"), _WORDS),
        "units": one_of("inch", "metric"),
        "schedule": _LONG,
        "doors": each(_DOOR, MOST_DOORS),
        "beside": each(_CELL, 10 * MOST_DOORS),
        "notes": each(_LONG),
        "rounds": each(_ROUND),
        "earlier_names": each(_WORDS),
    }
)
"""The exact shape of a site's file."""


class UnknownSite(HingesideError):
    """No site, or more than one, is meant by a name; or there is one of that name already."""

    status = UNKNOWN


class BadSite(HingesideError):
    """A site's file that this program did not write so."""

    status = FOUND


class SiteNotKept(HingesideError):
    """A site that cannot be written now."""

    status = NO_DEVICE


def sites_folder() -> Path:
    """Where sites are kept; it need not exist yet."""
    return user_folder() / "sites"


def site_path(name: str) -> Path:
    """The file of a site of that name."""
    stem = re.sub(r"[^\w]+", "-", name.casefold()).strip("-_")
    return sites_folder() / f"{stem[:60]}{ENDING}"


def site_paths() -> list[Path]:
    """The files of all sites, by name."""
    folder = sites_folder()
    return sorted(folder.glob(f"*{ENDING}")) if folder.is_dir() else []


def list_sites() -> list[Site]:
    """Every site, by name. Raises BadSite, OSError."""
    return [read_site(path) for path in site_paths()]


def find_site(name: str) -> Path:
    """The site of that name, or that alone begins so. Raises UnknownSite with the nearest."""
    paths = site_paths()
    exact = site_path(name)
    stems = {_stem(path): path for path in paths}
    begun = [path for stem, path in stems.items() if stem.startswith(_stem(exact) or "?")]
    near = [exact] if exact in paths else begun
    if len(near) == 1:
        return near[0]
    said = printable(short(name))
    if near:
        raise UnknownSite(f"“{said}” begins the names of {len(near)} sites; write more of it.")
    now = _called_so(name)
    if now is not None:
        raise UnknownSite(f"There is no site “{said}”; it is called {now.name} now.")
    make = f'make it: hingeside site new "{said}" SCHEDULE.'
    raise UnknownSite(f"There is no site “{said}”; {meant(name, stems, make)}")


def _called_so(name: str, but: Path | None = None) -> Site | None:
    """The site that has this name or had it, of those that can be read, and of all but one file."""
    for path in site_paths():
        with suppress(BadSite):
            site = read_site(path)
            if path != but and door_key(name) in site.keys:
                return site
    return None


def _stem(path: Path) -> str:
    return path.name.removesuffix(ENDING)


def read_site(path: Path) -> Site:
    """The site in a file. Raises BadSite, OSError."""
    if path.stat().st_size > LARGEST:
        raise _not_a_site(path)
    try:
        data = json.loads(path.read_text("utf-8"))
    except (ValueError, RecursionError) as error:
        raise _not_a_site(path) from error
    if isinstance(data, dict) and isinstance(data.get("format"), int) and data["format"] > FORM:
        raise BadSite(
            f"The site {printable(_stem(path))} was written by a newer version of Hingeside; open it with that one."
        )
    if not SITE(data):
        raise _not_a_site(path)
    return site_from(data)


def _not_a_site(path: Path) -> BadSite:
    return BadSite(
        f"The site file {printable(str(path))} was changed or damaged: put a copy in its place, or move it away and"
        " make the site again. The jobs are not in it; they are kept."
    )


def keep_new(site: Site) -> Path:
    """Write a site that is not there yet. Raises UnknownSite where one has or had that name, SiteNotKept."""
    path = site_path(site.name)
    _need_unused(site.name, path, None)
    _write(path, site)
    return path


def rename(path: Path, name: str) -> Site:
    """Give a site another name, and its file too; it is at `site_path` then. Raises UnknownSite where another site has
    or had that name, UnknownDoor for a name that cannot be, SiteNotKept."""
    with _alone(path):
        site = renamed(read_site(path), name)
        target = site_path(site.name)
        _need_unused(site.name, target, path)
        _write(path, site)
        if target != path:
            with _writing(path):
                path.rename(target)  # cut off before this, the site is found by its old file name
                sync_folder(path.parent)
    return site


def _need_unused(name: str, path: Path, but: Path | None) -> None:
    """Raises UnknownSite for a name that a site has or had, but for the site in that file: its jobs would be theirs."""
    if path.exists() and path != but:
        raise UnknownSite(
            f"There is a site {read_site(path).name} already. For a newer schedule of it:"
            f" hingeside site {_stem(path)} schedule FILE."
        )
    other = _called_so(name, but)
    if other is not None:
        raise UnknownSite(f"{name} is a name of the site {other.name}; choose another one.")


def delete(path: Path) -> None:
    """Delete a site for good: its list of doors, and its rounds. Its jobs stay. Raises SiteNotKept."""
    with _alone(path), _writing(path):
        path.unlink()
        sync_folder(path.parent)


def change(path: Path, how: Callable[[Site], Site]) -> Site:
    """Read a site, change it and write it again, alone. What `how` raises leaves it as it was. Raises SiteNotKept."""
    with _alone(path):
        site = how(read_site(path))
        _write(path, site)
    return site


@contextmanager
def _alone(path: Path) -> Iterator[None]:
    """With no other program at the site."""
    try:
        lock = RunLock(path)
    except Locked as error:
        raise SiteNotKept("The site is being changed by another program; try again.") from error
    try:
        yield
    finally:
        lock.release()


@contextmanager
def _writing(path: Path) -> Iterator[None]:
    """What the system refuses, as SiteNotKept."""
    try:
        yield
    except OSError as error:
        raise SiteNotKept(f"{why_not(error, path.parent)}; the site was not kept.") from error


def _write(path: Path, site: Site) -> None:
    data = {"hingeside": "site", "format": FORM, **asdict(site)}
    written = json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False)
    if not SITE(json.loads(written)):
        raise BadSite(
            "The schedule has more, or longer texts, than a site can hold; leave columns out by a map (--map)."
        )
    with _writing(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        write_in_place(path, f"{written}\n".encode())


# --- from plain data ---


def site_from(data: Mapping[str, Any]) -> Site:
    """A site of plain data in the shape of `SITE`."""
    values = {key: value for key, value in data.items() if key not in ("hingeside", "format")}
    values["doors"] = tuple(_door(one) for one in data["doors"])
    values["beside"] = tuple(_cell(one) for one in data["beside"])
    values |= {key: tuple(data[key]) for key in ("notes", "earlier_names")}
    values["rounds"] = tuple(
        Round(**{**one, "doors": tuple(one["doors"])}) for one in data["rounds"]
    )
    return Site(**values)


def _door(data: Mapping[str, Any]) -> SiteDoor:
    planned = data["planned"]
    return SiteDoor(
        **{
            **data,
            "questions": tuple(Question(**one) for one in data["questions"]),
            "not_understood": tuple(_cell(one) for one in data["not_understood"]),
            "planned": None if planned is None else Planned(**planned),
        }
    )


def _cell(data: Mapping[str, Any]) -> ReadCell:
    return ReadCell(
        **{**data, "facts": tuple(data["facts"]), "questions": tuple(data["questions"])}
    )
