"""A paper as plain data: a first page for a customer, the detail after it, and what each part of it is made of.

`paper_text`, `paper_html` and `paper_pdf` render it. Whatever makes sections (a job, a door, a site) is rendered alike.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TypeAlias

from guide.drawing.scene import Scene


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph."""

    text: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Pairs:
    """Names with a value each."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of cells under headings. A cell may be empty."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    before: tuple[str, ...] = ()
    """In plain lines: what stands before each cell after the first; “; ” if it is left out."""
    shares: tuple[float, ...] = ()
    """Of the width in print, for each column; alike if they are left out."""


@dataclass(frozen=True, slots=True)
class Bullets:
    """Lines of a list."""

    lines: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Code:
    """A digest, or another text to be copied sign by sign."""

    text: str


@dataclass(frozen=True, slots=True)
class Sketch:
    """A drawing of an opening."""

    scene: Scene


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo with its caption."""

    shows: str
    said: str
    """Where it belongs, its file and its size."""
    sha256: str
    data: bytes | None
    """JPEG or PNG; None where the file is not as it was added, and then `said` says so."""


@dataclass(frozen=True, slots=True)
class Photos:
    """Photos side by side."""

    photos: tuple[Photo, ...]


@dataclass(frozen=True, slots=True)
class Signature:
    """A line to sign on."""

    role: str
    name: str = ""
    """Printed below the line; empty leaves room for the pen."""
    drawn: bytes | None = None
    """A drawn signature, as PNG or JPEG."""


@dataclass(frozen=True, slots=True)
class Signatures:
    """Lines to sign on, side by side, each with a date."""

    lines: tuple[Signature, ...]


Block: TypeAlias = Words | Pairs | Table | Bullets | Code | Sketch | Photos | Signatures


@dataclass(frozen=True, slots=True)
class Section:
    """A part of a paper under its own heading."""

    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Paper:
    """A whole paper."""

    kind: str
    """What it is, in a word: `Record`."""
    title: str
    status: str
    """Below the title: how it ended."""
    front: tuple[Section, ...]
    """The first page."""
    detail: tuple[Section, ...]
    foot: str
    """On every page of paper."""
    units: str = "inch"
    """`inch` is printed on letter, `metric` on A4."""
    good: bool = False
    """Whether the status is one that nothing remains after."""
    dated: str = ""
    """UTC of the last event, as ISO 8601; empty for none."""
    by: str = ""
    """Who made it, for the file's own title page."""
    notes: tuple[str, ...] = field(default=())
    """What must be said at the very top, such as a repair."""


def section(title: str, *blocks: Block | None) -> Section | None:
    """A section of the blocks that hold something; None where none does."""
    found = tuple(one for one in blocks if one is not None and not _empty(one))
    return Section(title, found) if found else None


def there(sections: Iterable[Section | None]) -> tuple[Section, ...]:
    """The sections that there are."""
    return tuple(one for one in sections if one is not None)


def _empty(block: Block) -> bool:
    match block:
        case Pairs(rows) | Table(rows=rows):
            return not rows
        case Bullets(lines):
            return not lines
        case Words(text) | Code(text):
            return not text
        case Photos(photos):
            return not photos
        case Signatures(lines):
            return not lines
        case _:
            return False
