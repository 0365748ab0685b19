"""What the list of procedures says of each, read without parsing a file."""

import re
from pathlib import Path

_TITLE = re.compile(r"^title:[ \t]*(.+?)[ \t]*$", re.MULTILINE)
_NAMED = re.compile(r"^procedure:", re.MULTILINE)
_GIVEN = re.compile(r"^given:", re.MULTILINE)
_HEAD = 4000
"""Characters looked at: the title stands at the beginning."""


def title_in(path: Path) -> str | None:
    """A procedure's title; None for what cannot be run by itself (shared facts, a part that other
    procedures include) or cannot be read."""
    try:
        with path.open(encoding="utf-8") as file:
            head = file.read(_HEAD)
    except (OSError, UnicodeDecodeError):
        return None
    if _GIVEN.search(head) or not _NAMED.search(head):
        return None
    found = _TITLE.search(head)
    return found[1].strip("\"'") if found else path.stem
