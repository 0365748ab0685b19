"""What the headings of door schedules mean: usual words and abbreviations to the columns that are understood here.

Common practice in North American and European schedules. A heading that is not here is not guessed: its cells are kept
as not understood, until a map (`map_file`) says what they are.
"""

import re
from dataclasses import dataclass

COLUMNS = {
    "number": "the number of the door",
    "place": "where the door is: room, floor, from and to",
    "size": "width and height of the leaf in one cell, perhaps with its thickness",
    "width": "width of the leaf",
    "height": "height of the leaf",
    "thickness": "thickness of the leaf",
    "opening-size": "a size of the opening or the frame, not of the leaf",
    "hand": "hand: LH, RH, LHR, RHR or DIN left and right",
    "leaf": "what the leaf is made of",
    "core": "what is inside the leaf",
    "frame": "what the frame is made of",
    "rating": "fire rating",
    "smoke": "whether it must hold back cold smoke",
    "hinge": "what the leaf hangs on",
    "leaves": "single leaf or pair",
    "closer": "whether it gets a closer, and which mount",
    "arm": "which arm the closer has",
    "opening": "how far the leaf opens",
    "exterior": "inside the building or to the outdoors",
    "accessible": "whether it is on an accessible route",
    "weight": "what the leaf weighs",
    "preparation": "how leaf or frame are prepared for the closer",
    "hardware": "the hardware set",
    "remarks": "remarks in words",
    "left-out": "nothing that is used here; a map says so",
}
"""The columns by their names in a map, each with what is in it."""

_WORDS: tuple[tuple[str, str], ...] = (
    (r"(?:hdw|hdwe|hw|hardware|ironmongery) ?(?:set|group|grp|schedule|no|number)?", "hardware"),
    (r"set(?: no| number)?", "hardware"),
    (
        (r"(?:rough|structural|masonry|clear|frame|opening|clr|so|ro|daylight) ?(?:opening|opg)?"
        r" ?(?:size|width|height|w|h|wd|ht|dimensions?)"),
        "opening-size",
    ),
    (r"(?:rough|structural|masonry|clear) (?:opening|opg)|so|ro", "opening-size"),
    (
        (r"(?:door|dr|leaf|panel|nominal|opening|id|item|unit)? ?"
        r"(?:no|nr|num|number|mark|tag|id|ref|reference|#)(?: no)?|door|doors|opening"),
        "number",
    ),
    (
        (r"(?:door |leaf |nominal |panel )?(?:size|sizes|dimensions?)(?: w x h(?: x t)?)?|w x h(?: x t)?"
        r"|width x height(?: x thickness)?|(?:door |leaf )?size width x height"),
        "size",
    ),
    (
        r"(?:door |leaf |nominal |panel |dr )?(?:size |sizes |dimensions? )?(?:width|wd|w|wide|breite)",
        "width",
    ),
    (
        r"(?:door |leaf |nominal |panel |dr )?(?:size |sizes |dimensions? )?(?:height|ht|h|hgt|high|höhe)",
        "height",
    ),
    (
        r"(?:door |leaf |panel |dr )?(?:size |sizes |dimensions? )?(?:thickness|thk|thick|t|th)",
        "thickness",
    ),
    (r"(?:door |dr |leaf )?(?:hand|handing|hd|swing hand|hand of door|din)|handing din", "hand"),
    (r"(?:opening|degree of opening|swing|opening angle|degrees|swing angle|door swing)", "opening"),
    (
        r"(?:door |dr |leaf |panel )?(?:core|core material|core type|construction)",
        "core",
    ),
    (
        r"(?:frame|fr|frm) ?(?:material|matl|mat|mtl|type material|const|construction)?|(?:material|matl|mat) frame",
        "frame",
    ),
    (
        r"(?:door |dr |leaf |panel )?(?:material|materials|matl|mat|mtl)|(?:material|matl|mat) (?:door|leaf)|leaf",
        "leaf",
    ),
    (
        (r"(?:fire |ul |door )*(?:rating|rated|label|resistance|fire|rtg|class|protection)(?: label| rating| mins?)?"
        r"|frr|fire resistance rating"),
        "rating",
    ),
    (r"(?:smoke|smoke seal|smoke rated|smoke control|s label)", "smoke"),
    (r"(?:hinges?|hinge type|hung on|butts|hanging)(?: type)?", "hinge"),
    (
        (r"(?:no of |number of |qty of |# )?(?:leaves|leafs|panels)|leaf count|single ?(?:or|/)? ?(?:pair|double)"
        r"|pair|sgl pr|configuration|operation"),
        "leaves",
    ),
    (r"(?:door )?(?:closer|closers|closer mount|closer type|mount|closer mounting)", "closer"),
    (r"(?:closer )?arm(?: type)?", "arm"),
    (r"int ext|ext int|interior exterior|exterior|external|is external|int or ext", "exterior"),
    (r"ada|accessible|accessibility|accessible route|barrier free|dda|handicap accessible", "accessible"),
    (r"(?:door |leaf )?(?:weight|wt|mass)", "weight"),
    (r"(?:closer |door )?(?:prep|preparation|reinforcement|reinf)", "preparation"),
    (
        (r"(?:remarks?|notes?|comments?|description|rmks|general notes|special (?:notes|requirements))"
        r"(?: remarks?| notes?| comments?)*"),
        "remarks",
    ),
    (
        (r"(?:room|room name|room no|room number|location|level|floor|storey|building|from|to|from room|to room"
        r"|space|area|zone|wing|block|department)(?: name| no| number)?"),
        "place",
    ),
)  # fmt: skip
_PATTERNS = tuple((re.compile(pattern), column) for pattern, column in _WORDS)

_UNIT = re.compile(
    r"[\[(]?\b(?P<in>inch(?:es)?|ins?\.?(?=[\])]|$))|[\[(]?\b(?P<mm>mm|millimet(?:er|re)s)\b"
    r"|[\[(]?\b(?P<cm>cm)\b|[\[(]?\b(?P<deg>deg(?:rees)?|°)\]?\)?$|[\[(]\b(?P<kg>kg)\b|[\[(]\b(?P<lb>lbs?)\b"
    r"|[\[(](?P<ft>ft|feet)[\])]|[\[(](?P<m>m|metres?|meters?)[\])]"
)
_NOT_A_WORD = re.compile(r"[^\w#]+")


@dataclass(frozen=True, slots=True)
class Heading:
    """The meaning of one heading."""

    column: str
    """One of `COLUMNS`; empty if it is not understood."""
    unit: str = ""
    """The unit that it names, such as mm; empty if none."""


def meaning(text: str) -> Heading:
    """The meaning of a heading as it is written, with its unit."""
    lower = text.lower().replace("×", "x").replace("*", " ")
    unit = ""
    found = _UNIT.search(lower)
    if found is not None:
        unit = next(name for name, part in found.groupdict().items() if part)
        rest = lower[: found.start()] + " " + lower[found.end() :]
        if _NOT_A_WORD.sub("", rest):
            lower = rest
    plain = folded(lower)
    column = next((name for pattern, name in _PATTERNS if pattern.fullmatch(plain)), "")
    return Heading(column, unit if column else "")


def folded(text: str) -> str:
    """A heading without its signs and in small letters, by which headings are compared."""
    return _NOT_A_WORD.sub(" ", text.lower().replace("’", "").replace(".", "")).strip()
