"""What goes with a closer's holes, a sentence each: which part they go into, which side the hinges are on,
what a sixteenth costs, and whether a standard template suits the hinge."""

from collections.abc import Mapping

from guide.trade.answer import Answer, NoAnswer
from guide.trade.computation import Computation, Given, Output, needed
from guide.trade.handing import SIDES
from guide.trade.hinges import HINGE_WORDS, STANDARD_TEMPLATE
from guide.trade.hole_inputs import (
    HAND_INPUT,
    HINGE_INPUT,
    KNUCKLES_INPUT,
    MOUNT_INPUT,
    RANGE_INPUT,
    SHEET_INPUT,
    THICKNESS_INPUT,
    UNITS_INPUT,
    Asked,
    knuckles_of,
    read_asked,
)
from guide.trade.hole_layout import BODY_ON, FRAME, LEAF, SHOE_ON, SOFFIT, hinges_in_front
from guide.trade.hole_shift import (
    percent_change,
    power_words,
    reach_words,
    shifts,
    template_effect,
    template_shift,
)
from guide.trade.linkage import RESERVE_DEG
from guide.trade.mounts import MOUNT_WORDS

TOUCHY = 4
"""A change of the latch power by a sixteenth that is worth a warning [percent] (our choice)."""

_PART_LABELS = {LEAF: "leaf", FRAME: "frame", SOFFIT: "soffit"}
_SIDE_WORDS = {"regular": "pull side", "top-jamb": "push side", "parallel": "push side"}


def shift_sentences(asked: Asked) -> list[str]:
    """What a sixteenth does to reach and power, a sentence for each way marks can be off."""
    try:
        right, rows = shifts(asked.sheet, asked.mount, asked.found, asked.opening)
    except NoAnswer:
        return ["The sheet gives no arm lengths, so what a sixteenth off costs is not worked."]
    if right.power is None:
        return ["On this hinge the arm of the sheet cannot be joined with the door closed."]
    found = []
    for row in rows:
        reach = reach_words(right.reach)
        if right.reach is not None and None not in row.reach:
            low, high = sorted(one for one in row.reach if one is not None)
            reach += f", or {low:.0f} to {high:.0f} deg so"
        found.append(
            f"The {row.part} 1/16 in off {row.way} changes the power at the latch by up to"
            f" {row.percent:.1f} percent; the arm {reach}."
        )
    return found


def template_words(asked: Asked) -> str:
    """What a standard template would do wrong on this hinge; empty where it suits."""
    if asked.hinge in STANDARD_TEMPLATE:
        return ""
    farther = template_shift(asked.hinge, asked.thickness)
    way = "farther from" if farther > 0 else "nearer to"
    start = (
        f"On {HINGE_WORDS[asked.hinge]} a standard template laid to the hinge edge puts body and"
        f" shoe {asked.told(abs(farther))} {way} the pivot than on butts"
    )
    try:
        butt, laid = template_effect(asked.sheet, asked.mount, asked.found, asked.opening)
    except NoAnswer:
        return f"{start}; the sheet gives no arm lengths, so what that costs is not worked."
    if laid.power is None:
        return f"{start}: the arm could not be joined with the door closed."
    power = power_words(percent_change(butt, laid))
    wanted = asked.found.up_to.base
    short = (
        f", too soon for an opening of {asked.found.up_to}"
        if laid.reach is not None and laid.reach - RESERVE_DEG < wanted
        else ""
    )
    return (
        f"{start}: {power}, and the arm {reach_words(laid.reach)}{short}; on butts it"
        f" {reach_words(butt.reach)}."
    )


def _template_suits(inputs: Mapping[str, Given]) -> Answer:
    asked = read_asked(inputs)
    if asked.hinge in STANDARD_TEMPLATE:
        return Answer(
            True, (f"A standard template suits {HINGE_WORDS[asked.hinge]}.",), (_READ_THE_PAPER,)
        )
    return Answer(False, (template_words(asked),), ("Get the maker's special template.",))


_READ_THE_PAPER = "The paper says which hinges it is for; it governs."


def _sixteenth(inputs: Mapping[str, Given]) -> Answer:
    asked = read_asked(inputs)
    right, rows = shifts(asked.sheet, asked.mount, asked.found, asked.opening)
    if right.power is None:
        raise NoAnswer(
            f"On {HINGE_WORDS[asked.hinge]} the arm of {asked.sheet.sheet} cannot be joined with the"
            " door closed: check the sheet, or get the maker's special template."
        )
    most = max(row.percent for row in rows)
    cautions = ("Mark and punch this one with care: the arm is touchy.",) if most > TOUCHY else ()
    return Answer(round(most, 1), tuple(shift_sentences(asked)), cautions)


def _part(inputs: Mapping[str, Given], of: str, parts: Mapping[str, str]) -> Answer:
    mount = needed(inputs, "mount", str)
    part = parts[mount]
    side = _SIDE_WORDS[mount]
    return Answer(
        _PART_LABELS[part],
        (f"On a {MOUNT_WORDS[mount]} the {of} goes on the {part}, {side}.",),
    )


def _body_part(inputs: Mapping[str, Given]) -> Answer:
    return _part(inputs, "body", BODY_ON)


def _shoe_part(inputs: Mapping[str, Given]) -> Answer:
    return _part(inputs, "shoe", SHOE_ON)


def _hinges_in_front(inputs: Mapping[str, Given]) -> Answer:
    mount = needed(inputs, "mount", str)
    side = hinges_in_front(mount, knuckles_of(inputs))
    return Answer(
        side, (f"Facing the body's place on the {_SIDE_WORDS[mount]}, hinges on your {side}.",)
    )


_SHEET = (SHEET_INPUT, MOUNT_INPUT, HINGE_INPUT, RANGE_INPUT, THICKNESS_INPUT, UNITS_INPUT)
_LINKAGE = "the linkage of the sheet's arm, on hinge offsets and a spring of ours"
_PRACTICE = "common practice"

COMPUTATIONS = (
    Computation(
        name="template-suits",
        about="Whether a standard template suits the hinge, and what it would do wrong.",
        inputs=_SHEET,
        output=Output("yesno"),
        compute=_template_suits,
        source=_LINKAGE,
    ),
    Computation(
        name="sixteenth",
        about="Percent of the latch power that a mark 1/16 in off can cost on this arm.",
        inputs=_SHEET,
        output=Output("number"),
        compute=_sixteenth,
        source=_LINKAGE,
    ),
    Computation(
        name="body-part",
        about="What the body's holes go into.",
        inputs=(MOUNT_INPUT,),
        output=Output("choice", (_PART_LABELS[LEAF], _PART_LABELS[FRAME])),
        compute=_body_part,
        source=_PRACTICE,
    ),
    Computation(
        name="shoe-part",
        about="What the shoe's holes go into.",
        inputs=(MOUNT_INPUT,),
        output=Output("choice", tuple(_PART_LABELS.values())),
        compute=_shoe_part,
        source=_PRACTICE,
    ),
    Computation(
        name="hinges-in-front",
        about="The side the hinges are on for someone facing the body's place.",
        inputs=(MOUNT_INPUT, HAND_INPUT, KNUCKLES_INPUT),
        output=Output("choice", SIDES),
        compute=_hinges_in_front,
        source=_PRACTICE,
    ),
)
