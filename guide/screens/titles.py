"""What the list of procedures says of each, read without parsing a file."""

import re
from pathlib import Path

_TITLE = re.compile(r"^title:[ \t]*(.+?)[ \t]*$", re.MULTILINE)
_GIVEN = re.compile(r"^given:", re.MULTILINE)
_HEAD = 4000
"""Characters looked at: the title stands at the beginning."""


def title_in(path: Path) -> str | None:
    """A procedure's title; None for a part that other procedures include, or a file nobody can read."""
    try:
        with path.open(encoding="utf-8") as file:
            head = file.read(_HEAD)
    except (OSError, UnicodeDecodeError):
        return None
    if _GIVEN.search(head):
        return None
    found = _TITLE.search(head)
    return found[1].strip("\"'") if found else path.stem
