"""The library of files: shipped ones, the person's own, or a path; `find` looks for all of them."""

import os
import re
from pathlib import Path
from typing import Literal, NamedTuple

import platformdirs

from guide.errors import UNKNOWN, HingesideError
from guide.text import meant, printable, short

KINDS = {
    "procedure": "procedures",
    "sheet": "procedures/sheets",
    "practice door": "procedures/practice",
    "scenario": "scenarios",
}
"""The kinds of file that have names, each with its folder."""


class NotFound(HingesideError):
    """Nothing of that name; the message says what there is."""

    status = UNKNOWN


def shipped_folder() -> Path:
    """The folder that holds `procedures/` and `scenarios/`: inside the package, or the checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "shipped"
    return installed if installed.is_dir() else package.parent


def user_folder() -> Path:
    """The person's own files and runs."""
    return own_folder("data")


def runs_folder() -> Path:
    """Where runs are kept, one file each."""
    return user_folder() / "runs"


def papers_folder() -> Path:
    """Where records and templates made from a run in hand go; it need not exist yet."""
    home = os.environ.get("HINGESIDE_HOME")
    return Path(home) / "papers" if home else platformdirs.user_documents_path() / "Hingeside"


def folders(kind: str) -> list[Path]:
    """The folders in which files of a kind are searched for: the person's own first."""
    return [user_folder() / KINDS[kind], shipped_folder() / KINDS[kind]]


MOST_NAMED = 12
"""Names that an error lists; the rest are counted."""
LONGEST_NAME = 120


def find(kind: str, name: str) -> Path:
    """The file of that name or path. Raises NotFound with the nearest name.

    A bare name is one of the library's. A name that ends in `.yaml` or has a slash is first a path from the
    current folder, so that a shipped file never replaces the one being worked on.
    """
    if "\x00" in name or not name.strip():
        raise NotFound(f"“{_said(name)}” is not the name of a {kind}; write a name or a path.")
    path = Path(name)
    if (path.suffix == ".yaml" or len(path.parts) > 1) and _exists(path):
        return path
    if len(name) <= LONGEST_NAME and not any(c in name for c in "/\\"):
        file = name if path.suffix == ".yaml" else f"{name}.yaml"
        for folder in folders(kind):
            if (folder / file).is_file():
                return folder / file
    if _exists(path):
        return path
    known = [entry.name for entry in catalogue(kind)]
    hint = meant(name, known, _there_are(known))
    raise NotFound(f"There is no {kind} “{_said(name)}”; {hint}")


def _there_are(known: list[str]) -> str:
    if not known:
        return "none are installed."
    more = f" and {len(known) - MOST_NAMED} more" if len(known) > MOST_NAMED else ""
    return f"there are: {', '.join(known[:MOST_NAMED])}{more}."


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except OSError:
        return False  # longer than a name can be


def _said(name: str) -> str:
    return printable(short(name))


class Entry(NamedTuple):
    """One file of the library."""

    name: str
    path: Path
    own: bool
    """Whether it is the person's own, not shipped."""


def catalogue(kind: str) -> list[Entry]:
    """Every file of a kind by name; the person's own come before shipped ones of the same name."""
    found: dict[str, Entry] = {}
    for own, folder in zip((True, False), folders(kind), strict=True):
        if not folder.is_dir():
            continue
        for path in sorted(folder.glob("*.yaml")):
            if path.is_file():
                found.setdefault(path.stem, Entry(path.stem, path, own))
    return sorted(found.values(), key=lambda entry: entry.name)


# --- shipped parts ---

SHIPPED = "shipped:"
"""Begins the name of a file that stands in the shipped procedures, in place of a file of one's own folder."""
_PART = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*(\.yaml)?")


def shipped_part(name: str) -> Path | None:
    """The shipped procedure file that a name such as `shipped:hang-check` means, whether or not there is one.

    None for a name that is not the plain name of a file: nothing outside the folder can be named.
    """
    plain = name.removeprefix(SHIPPED)
    if not name.startswith(SHIPPED) or _PART.fullmatch(plain) is None:
        return None
    file = f"{plain.removesuffix('.yaml')}.yaml"
    return shipped_folder() / KINDS["procedure"] / file


# --- the person's own folders ---

APP = "hingeside"

Kind = Literal["data", "config", "cache"]


def own_folder(kind: Kind) -> Path:
    """The folder for the person's own data, settings or cache; it need not exist yet.

    `HINGESIDE_HOME` moves all three to one folder. Otherwise it is where the system keeps such things.
    """
    home = os.environ.get("HINGESIDE_HOME")
    if home:
        return Path(home) / "cache" if kind == "cache" else Path(home)
    return Path(getattr(platformdirs, f"user_{kind}_dir")(APP, appauthor=False))
