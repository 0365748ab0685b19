"""The outcomes of a command or a line at the desk of a run: plain values, for each front end to render."""

from dataclasses import dataclass

HELP, KNOWN, DRAWING, WHY, DETAIL = "help", "known", "drawing", "why", "detail"
WATCH, PAPERS, PAGE = "watch", "papers", "page"
"""The subjects of a `Notice`; the front end that shows it writes the papers."""
NOTE, SAFE, RESOLVE, TAKE_UP, ENDING = "note", "safe", "resolve", "take up", "ending"
PHOTO, SHOWS = "photo", "shows"
"""The subjects of an `Asks`: the words of a note, a reason, the resolution of a cut, why an ended job goes on; a yes to
the end of the job; the file of a photo, and what it shows."""


@dataclass(frozen=True, slots=True)
class Sent:
    """Events were accepted, and are on the disk; the run is shown where it is now."""

    kinds: tuple[str, ...]
    told: str = ""


@dataclass(frozen=True, slots=True)
class Look:
    """Another block is looked at, or the same one in another way."""

    told: str = ""


@dataclass(frozen=True, slots=True)
class Notice:
    """Something to be shown beside the step."""

    what: str
    told: str = ""


@dataclass(frozen=True, slots=True)
class Asks:
    """Words, or a yes, are wanted before anything is sent."""

    what: str
    told: str


@dataclass(frozen=True, slots=True)
class Refusal:
    """Nothing was done, and why."""

    told: str


Outcome = Sent | Look | Notice | Asks | Refusal
