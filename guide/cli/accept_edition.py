"""`hingeside check --accept-edition FILE...`: the edition of each file is noted as checked in."""

from pathlib import Path

from guide.checker.check import check
from guide.errors import DONE, FOUND
from guide.files.findings import resolved
from guide.procedure.editions import (
    EDITIONS,
    edition_of,
    keep_edition,
    kept_editions,
    not_raised,
)
from guide.text import printable


def accept_edition(name: str, path: Path) -> int:
    """Note the edition of one file beside it, and say so; the exit status."""
    status, said = _accept(path)
    refused = "not accepted: " if status != DONE else ""
    print(f"{printable(name)}: {refused}{said}.")
    return status


def _accept(path: Path) -> tuple[int, str]:
    report = check(path)
    now = edition_of(report.loaded, report.loaded.root)
    if now is None:
        return FOUND, "only a procedure has an edition, and this file cannot be read as one"
    if not report.sound:
        return FOUND, "something is wrong with it; correct what “hingeside check” finds"
    whole = resolved(path)
    kept = kept_editions(whole.parent).get(whole.name)
    wrong = not_raised(kept, now)
    if wrong:
        return FOUND, wrong[0].lower() + wrong[1:].rstrip(".")
    if kept == now:
        return DONE, f"edition {now.edition} was accepted before"
    keep_edition(path, now)
    return DONE, f"edition {now.edition} accepted, in {EDITIONS}"
