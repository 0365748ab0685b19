"""Hinges, leaves, closer and arm as schedules write them. Common practice."""

import re

from guide.site.schedule.reading import CLOSER_WANTED, Reading, not_understood
from guide.site.schedule.words import Word, asks, gives, read_words, yes_or_no

WHICH_LEAF = "which leaf gets the closer, the one that opens first or second?"
_COUNTED = r"(?:(?:full|half) mortise |ball bearing |bb |\d+ ?(?:pr|pairs?|ea|no|x) )*"
_HINGE = (
    gives(r"swing[ -]?clear(?: hinges?)?|sc(?: hinges?)?", hinge="swing-clear"),
    gives(
        r"(?:full[ -])?(?:cont(?:inuous)?\.?|geared|piano)(?: (?:geared|hinges?))*",
        hinge="continuous",
    ),
    gives(r"(?:offset|side[ -]hung)[ -]pivots?(?: sets?)?", hinge="offset-pivot"),
    gives(
        r"cent(?:er|re)[ -]?(?:hung)?[ -]?pivots?(?: sets?)?|cent(?:er|re)[ -]hung",
        hinge="centre-pivot",
    ),
    gives(r"double[ -]acting|spring pivots?", special="both-ways"),
    gives(rf"{_COUNTED}(?:butts?|bb|hinges?)(?: hinges?)?", hinge="butt"),
    asks(r"pivots?", "are the pivots offset, or is the leaf centre-hung?", "hinge"),
)
_LEAVES = (
    gives(r"double[ -]acting|both ways", special="both-ways"),
    gives(r"double[ -]egress|de", leaves="double-egress"),
    gives(
        r"(?:pair|pr|dbl|double)[ ,/-]*(?:with |w )?(?:removable )?mullion|mullion",
        leaves="mullion",
    ),
    gives(r"inactive(?: leaf)?", leaves="inactive"),
    gives(r"active(?: leaf)?", leaves="active"),
    gives(r"single(?: leaf| swing)?|sgl|1|one", leaves="single"),
    asks(r"pair|pr|dbl|double(?: leaf| swing)?|2|two", WHICH_LEAF, "leaves"),
)
_ARMS = (
    gives(r"hold[ -]?open(?: arm)?|h\.?o\.?", arm="hold-open"),
    gives(r"(?:spring |cush(?:ion)? )?stop(?: arm)?", arm="stop"),
    gives(r"heavy[ -]duty(?: arm)?|hd(?: arm)?", arm="heavy"),
    gives(r"plain(?: arm)?|standard(?: arm)?|std|reg(?:ular)?(?: arm)?", arm="plain"),
)


def _closer(pattern: str, **facts: str) -> Word:
    return gives(pattern, **facts, **{CLOSER_WANTED: "yes"})


MOUNTS = (
    _closer(r"parallel(?: arm)?(?: (?:closer|mount))?|p\.?a\.?", mount="parallel"),
    _closer(r"top[ -]jamb(?: (?:closer|mount))?|t\.?j\.?", mount="top-jamb"),
)
_CLOSERS = (
    *MOUNTS,
    _closer(r"reg(?:ular)?(?: arm)?|pull[ -]side", mount="regular"),
    _closer(r"(?:auto(?:matic)?|power(?:ed)?) ?op(?:erator)?|operator", closer="powered"),
    _closer(r"concealed|floor closer|ohc", closer="hidden"),
    _closer(r"track(?: arm)?|slide", closer="track"),
    _closer(r"surface(?:[ -]mounted)?(?: closer)?", closer="surface"),
    *_ARMS[:3],
    _closer(r"closer"),
)
_ANGLE = re.compile(r"(\d{2,3})(?: ?(?:deg(?:rees?)?\.?|°|º))?")


def read_hinge(text: str) -> Reading:
    """What the leaf hangs on."""
    return read_words(text, _HINGE)


def read_leaves(text: str) -> Reading:
    """Single leaf or one of a pair."""
    return read_words(text, _LEAVES)


def read_arm(text: str) -> Reading:
    """Which arm the closer has."""
    return read_words(text, _ARMS)


def read_closer(text: str) -> Reading:
    """Whether the door gets a closer, and which mount."""
    said = yes_or_no(text)
    if said is not None:
        return Reading({CLOSER_WANTED: "yes" if said else "no"})
    return read_words(text, _CLOSERS)


def read_opening(text: str) -> Reading:
    """How far the leaf opens, in degrees."""
    found = _ANGLE.fullmatch(text.lower().strip())
    return not_understood(text) if found is None else Reading({"opening": f"{found[1]} deg"})
