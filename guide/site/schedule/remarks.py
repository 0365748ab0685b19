"""Remarks in a schedule: most raise a question for the foreman, and some change what is planned meanwhile."""

import re

from guide.site.schedule.hardware import MOUNTS, WHICH_LEAF
from guide.site.schedule.materials import FILLED_FRAME, SPECIAL
from guide.site.schedule.reading import CLOSER_WANTED, Question, Reading, not_understood
from guide.site.schedule.words import asks, gives, read_words

_ON_THE_HEAD = "head_item"
_REMARKS = (
    asks(
        r"coordinators?(?: bar)?|coord\.?",
        "is the bar on the head where the shoe goes? On a parallel arm the shoe then needs its bracket.",
        _ON_THE_HEAD,
        head_item="coordinator",
    ),
    asks(
        r"(?:overhead|o\.?h\.?)[ -]*(?:stops?|holders?)|ohs",
        "does it stop the leaf, or only hold it open? The template must be one made for both.",
        _ON_THE_HEAD,
        head_item="overhead",
    ),
    asks(
        r"(?:mag(?:netic)?|electromagnetic|em)[ -]*(?:hold[ -]?open|holders?|hold)|wall magnet|door holders?",
        "which holder keeps it open, and does it release on smoke?",
    ),
    asks(
        r"(?:mag(?:netic)?|em|electromagnetic)[ -]?locks?|elec(?:tric|\.)? strikes?|door contacts?|dps|card reader",
        "is it on the head or in it, and where does its cable run?",
        _ON_THE_HEAD,
        head_item="lock",
    ),
    asks(
        r"hold[ -]?open(?: arms?)?|h\.o\.|h/o",
        "is the hold-open in the closer's arm, or apart from it? No arm holds a fire door open.",
        "arm",
    ),
    asks(
        r"(?:concealed |surface )?vertical rods?|cvr|svr",
        "where do the rods and the top latch run?",
        _ON_THE_HEAD,
        head_item="rods",
    ),
    asks(
        r"(?:head |smoke )?(?:gasket(?:ing|s)?|seals?)|weather ?strip(?:ping)?",
        "is the seal on the head where body or shoe goes?",
        _ON_THE_HEAD,
        head_item="seal",
    ),
    asks(
        r"(?:auto(?:matic)?|power(?:ed)?)[ -]*(?:door )?op(?:erators?|\.)|automatic opener",
        "a powered operator closes it: is a surface closer wanted as well?",
        "closer",
    ),
    asks(r"delayed[ -]action", "does the body have the valve for delayed action?"),
    gives(r"double[ -]egress", leaves="double-egress"),
    gives(r"removable mullion", leaves="mullion"),
    asks(r"(?:pair|pr)(?: of doors)?", WHICH_LEAF, "leaves"),
    FILLED_FRAME,
    *SPECIAL,
    asks(r"(?:wall|floor) stops?|stop on wall", "at which angle does it stop the leaf?", "opening"),
    gives(r"(?:opens? |swings? )?180(?: deg(?:rees)?|°)?(?: swing)?", opening="180 deg"),
    asks(
        r"(?:existing|exist\.?|ex\.?)(?: (?:door|frame|to remain|etr))*|etr",
        "what is there already: old holes, an old closer, a label?",
        "prep",
    ),
    asks(
        r"(?:field )?(?:verify|v\.?i\.?f\.?|tbd|tbc)(?: in field| on site| size| hand)?",
        "what must be verified, and who does it?",
    ),
    gives(r"swing[ -]?clear(?: hinges?)?", hinge="swing-clear"),
    gives(r"cont(?:inuous)? hinges?", hinge="continuous"),
    *MOUNTS,
    gives(r"no closer", **{CLOSER_WANTED: "no"}),
    asks(
        r"(?:fire |emergency )?(?:exit|egress)(?: (?:door|only))?|way out|escape(?: route| door)?",
        "is it a way out that people need while you work?",
        "way_out",
        way_out="yes",
    ),
    asks(
        r"low (?:ceiling|head(?: ?room)?)|bulkhead",
        "how much room is there at the head for body and arm?",
        "room",
    ),
)
_PHRASES = re.compile(r"[;\n]|,(?=\s|$)|(?<=[a-zA-Z]{3})\.(?=\s|$)")


def read_remarks(text: str) -> Reading:
    """What remarks say of the opening, phrase by phrase; the phrases that say nothing here are left over."""
    facts: dict[str, str] = {}
    questions: list[Question] = []
    left = []
    for phrase in filter(None, (one.strip(" .,") for one in _PHRASES.split(text))):
        found = read_words(phrase, _REMARKS)
        facts |= {name: value for name, value in found.facts.items() if name not in facts}
        questions += found.questions
        if found.left:
            left.append(found.left)
    if not facts and not questions:
        return not_understood(text)
    return Reading(facts, tuple(questions), "; ".join(left))
