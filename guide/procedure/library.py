"""Where files are: shipped ones, the person's own, or a path; one function finds them all."""

from dataclasses import dataclass
from pathlib import Path

import platformdirs

from guide.procedure.spelling import meant

APP = "hingeside"
KINDS = {"procedure": "procedures", "sheet": "procedures/sheets", "scenario": "scenarios"}
"""What can be named, and the folder it is kept in."""


class NotFound(LookupError):
    """Nothing of that name; the message says what there is."""


def shipped_folder() -> Path:
    """The folder that holds `procedures/` and `scenarios/`: inside the package, or the checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "shipped"
    return installed if installed.is_dir() else package.parent


def user_folder() -> Path:
    """The person's own files and runs. `HINGESIDE_HOME` moves everything to one folder."""
    import os

    home = os.environ.get("HINGESIDE_HOME")
    return Path(home) if home else Path(platformdirs.user_data_dir(APP, appauthor=False))


def folders(kind: str) -> list[Path]:
    """Where files of a kind are looked for: the person's own first."""
    return [user_folder() / KINDS[kind], shipped_folder() / KINDS[kind]]


def find(kind: str, name: str) -> Path:
    """The file of that name or path. Raises NotFound with the nearest name."""
    if "\x00" in name or not name.strip():
        raise NotFound(f"“{name!r}” is no name of a {kind}.")
    if len(name) < 120 and not any(c in name for c in "/\\"):
        for folder in folders(kind):
            for candidate in (folder / f"{name}.yaml", folder / name):
                if candidate.suffix == ".yaml" and candidate.is_file():
                    return candidate
    as_path = Path(name)
    try:
        if as_path.exists():
            return as_path
    except OSError as error:
        raise NotFound(f"“{name[:60]}” is no name of a {kind}.") from error
    known = [entry.name for entry in catalogue(kind)]
    hint = meant(name, known, f"there are: {', '.join(known)}." if known else "none are installed.")
    raise NotFound(f"There is no {kind} “{name[:60]}”; {hint}")


@dataclass(frozen=True, slots=True)
class Entry:
    """One file of the library."""

    name: str
    path: Path
    own: bool
    """Whether it is the person's own, not shipped."""


def catalogue(kind: str) -> list[Entry]:
    """Every file of a kind by name; the person's own stand before shipped ones of the same name."""
    found: dict[str, Entry] = {}
    for own, folder in zip((True, False), folders(kind), strict=True):
        if not folder.is_dir():
            continue
        for path in sorted(folder.glob("*.yaml")):
            found.setdefault(path.stem, Entry(path.stem, path, own))
    return sorted(found.values(), key=lambda entry: entry.name)
