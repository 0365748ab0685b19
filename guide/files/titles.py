"""The titles of procedures and of practice doors for their lists, read without parsing a file."""

import re
from pathlib import Path

from guide.files.library import folders

_TITLE = re.compile(r"^title:[ \t]*(.+?)[ \t]*$", re.MULTILINE)
PROCEDURE, PRACTICE = "procedure", "practice"
"""The key by which a procedure is recognised."""
_COUNTS_ON = re.compile(r"^counts_on:", re.MULTILINE)
_HEAD = 4000
"""Characters read: the title is at the beginning."""


def title_in(path: Path, key: str = PROCEDURE) -> str | None:
    """The title of a file of the kind that has `key`; None for another kind of file, for what cannot be run by itself
    (shared facts, a part that other procedures include) and for what cannot be read."""
    try:
        with path.open(encoding="utf-8") as file:
            head = file.read(_HEAD)
    except (OSError, UnicodeDecodeError):
        return None
    if _COUNTS_ON.search(head) or not re.search(f"^{key}:", head, re.MULTILINE):
        return None
    found = _TITLE.search(head)
    return found[1].strip("\"'") if found else path.stem


def id_in(path: Path, key: str) -> str:
    """The id that a file gives itself by `key`; its own name where it has none or cannot be read."""
    try:
        with path.open(encoding="utf-8") as file:
            found = re.search(rf"^{key}:[ \t]*(.+?)[ \t]*$", file.read(_HEAD), re.MULTILINE)
    except (OSError, UnicodeDecodeError):
        return path.stem
    return found[1].strip("\"'") if found else path.stem


def title_of(name: str, beside: Path | None = None) -> str | None:
    """The title of the procedure of this name: in the folder of the file `beside` it, or in the library; None where
    none of that name can be run by itself."""
    near = [beside.parent] if beside is not None else []
    for folder in (*near, *folders(PROCEDURE)):
        found = title_in(folder / f"{name}.yaml")
        if found is not None:
            return found
    return None
