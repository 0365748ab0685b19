"""What goes with a closer's holes, a sentence each: which part they go into, which side the hinges are on,
what a sixteenth costs, and whether a standard template suits the hinge."""

from collections.abc import Mapping

from guide.trade.answer import Answer, NoAnswer
from guide.trade.arm.geometry import RESERVE_DEG
from guide.trade.computation import Given, needed
from guide.trade.door.hinges import HINGE_WORDS, STANDARD_TEMPLATE
from guide.trade.holes.inputs import (
    HINGE_INPUT,
    MOUNT_INPUT,
    RANGE_INPUT,
    SHEET_INPUT,
    THICKNESS_INPUT,
    UNITS_INPUT,
    HoleRequest,
)
from guide.trade.holes.layout import FRAME, LEAF, SOFFIT
from guide.trade.holes.shift import (
    percent_change,
    power_words,
    reach_words,
    shifts,
    template_effect,
    template_shift,
)
from guide.trade.mounts import MOUNT_WORDS

PART_LABELS = {LEAF: "leaf", FRAME: "frame", SOFFIT: "soffit"}
SIDE_WORDS = {"regular": "pull side", "top-jamb": "push side", "parallel": "push side"}


def shift_sentences(request: HoleRequest) -> list[str]:
    """What a sixteenth does to reach and power, a sentence for each way marks can be off."""
    try:
        right, rows = shifts(request.sheet, request.mount, request.found, request.opening)
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


def template_words(request: HoleRequest) -> str:
    """What a standard template would do wrong on this hinge; empty if it suits."""
    if request.hinge in STANDARD_TEMPLATE:
        return ""
    farther = template_shift(request.hinge, request.thickness)
    way = "farther from" if farther > 0 else "nearer to"
    start = (
        f"On {HINGE_WORDS[request.hinge]} a standard template laid to the hinge edge puts body and"
        f" shoe {request.told(abs(farther))} {way} the pivot than on butts"
    )
    try:
        butt, laid = template_effect(request.sheet, request.mount, request.found, request.opening)
    except NoAnswer:
        return f"{start}; the sheet gives no arm lengths, so what that costs is not worked."
    if laid.power is None:
        return f"{start}: the arm could not be joined with the door closed."
    power = power_words(percent_change(butt, laid))
    wanted = request.found.up_to.base
    short = (
        f", too soon for an opening of {request.found.up_to}"
        if laid.reach is not None and laid.reach - RESERVE_DEG < wanted
        else ""
    )
    return (
        f"{start}: {power}, and the arm {reach_words(laid.reach)}{short}; on butts it"
        f" {reach_words(butt.reach)}."
    )


def part_answer(inputs: Mapping[str, Given], of: str, parts: Mapping[str, str]) -> Answer:
    """What the holes `of` body or shoe go into, from the part for each mount."""
    mount = needed(inputs, "mount", str)
    part = parts[mount]
    side = SIDE_WORDS[mount]
    return Answer(
        PART_LABELS[part],
        (f"On a {MOUNT_WORDS[mount]} the {of} goes on the {part}, {side}.",),
    )


SHEET_INPUTS = (SHEET_INPUT, MOUNT_INPUT, HINGE_INPUT, RANGE_INPUT, THICKNESS_INPUT, UNITS_INPUT)
LINKAGE_SOURCE = "the linkage of the sheet's arm, on hinge offsets and a spring of ours"
PRACTICE_SOURCE = "common practice"
