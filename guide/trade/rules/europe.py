"""Rules of Europe and of the United Kingdom: closers after EN 1154, and access.

Read again in public summaries: the widths and sizes of EN 1154 table 1; size 3 or stronger on a fire door; BS 8300 and
Approved Document M on the force at the leading edge; Approved Document B on closing from any angle; what EN 1154 asks
of fire doors' closers on hold-open and delay (labc.co.uk/news/new-guide-door-closers-fire-doors); the French order of
1 August 2006. The 25 N of EN 12217, to which DIN 18040 refers, are not for self-closing doors, and no rule here.
"""

from guide.trade.en_1154 import size_by_width
from guide.trade.rules.kinds import (
    BRITISH,
    BRITISH_LATER,
    DECIDES,
    FAIL,
    FRENCH,
    NOT_ACCESSIBLE,
    NOT_APPLICABLE,
    NOT_MEASURED,
    PASS,
    CodeRule,
    JudgedDoor,
    Judgement,
    at_most,
    limit_of,
    no_hold_open,
    not_asked,
    reading,
    shuts_itself,
)

LEAST_ON_FIRE_DOOR = 3
LONGEST_DELAY = limit_of(25, "s")
LEADING_EDGE = "; read it at the leading edge"

_LIGHT_FIRST = "On a door that is not a fire door light opening may come first."
_AGREED = "A fire door: agree with building control how people get through."


def _first_thirty(door: JudgedDoor) -> Judgement:
    if door.accessible is None:
        return not_asked("on an accessible route")
    if not door.accessible:
        return NOT_APPLICABLE, NOT_ACCESSIBLE
    if door.fire is None:
        return not_asked("a fire door")
    if door.fire:
        return DECIDES, f"{reading(door.force, 'Opening force')} {_AGREED}"
    return at_most(door.force, BRITISH, "Opening force from 0 to 30 degrees", LEADING_EDGE)


def _next_thirty(door: JudgedDoor) -> Judgement:
    if door.accessible is None:
        return not_asked("on an accessible route")
    if not door.accessible:
        return NOT_APPLICABLE, NOT_ACCESSIBLE
    if door.fire is None:
        return not_asked("a fire door")
    if door.fire:
        return DECIDES, _AGREED
    limit = BRITISH_LATER
    what = "Opening force from 30 to 60 degrees"
    if door.force_30_60 is not None:
        return at_most(door.force_30_60, limit, what, LEADING_EDGE)
    verdict, told = at_most(door.force, limit, "The most it takes over the whole swing")
    if verdict == FAIL:  # the most of a swing comes early, and says nothing of what follows
        return NOT_MEASURED, f"{what}: not measured, to be at most {limit}."
    return verdict, told


def _french_force(door: JudgedDoor) -> Judgement:
    if door.accessible is None:
        return not_asked("on an accessible route")
    if not door.accessible:
        return NOT_APPLICABLE, NOT_ACCESSIBLE
    verdict, told = at_most(door.force, FRENCH, "Force to open it, in France")
    if verdict != FAIL:
        return verdict, told
    return DECIDES, f"{told} Other countries have rules of their own, and fire doors exceptions."


def _strong_enough(door: JudgedDoor) -> Judgement:
    if door.fire is None:
        return not_asked("a fire door")
    if not door.fire:
        return NOT_APPLICABLE, "It is not a fire door."
    if door.size is None:
        return NOT_MEASURED, "EN size the spring is set to: not known, to be 3 or more."
    verdict = PASS if door.size >= LEAST_ON_FIRE_DOOR else FAIL
    return verdict, f"EN size the spring is set to: {door.size}, to be 3 or more on a fire door."


def _closes_this_width(door: JudgedDoor) -> Judgement:
    if door.width is None:
        return NOT_MEASURED, "Leaf width: not known."
    if door.size is None:
        return NOT_MEASURED, "EN size the spring is set to: not known."
    asked = size_by_width(door.width)
    now = f"EN size the spring is set to: {door.size}"
    told = f"{now}, to be {asked} or more for this width."
    if door.size >= asked:
        return PASS, told
    if door.fire is False:
        # Most leaves cannot meet this and a light opening at once: see `size-and-force`.
        return DECIDES, f"{now}, where the table has {asked} for this width. {_LIGHT_FIRST}"
    return FAIL, told


def _delay(door: JudgedDoor) -> Judgement:
    if door.valves in ("two", "three"):
        return NOT_APPLICABLE, "It has no delayed action."
    if door.delayed is False:
        return NOT_APPLICABLE, "Its delayed action is closed."
    if door.delay is None:
        return NOT_MEASURED, f"Delayed action: not measured, to be less than {LONGEST_DELAY}."
    told = f"Delayed action: {door.delay}, to be less than {LONGEST_DELAY}."
    return (PASS if door.delay < LONGEST_DELAY else DECIDES), told


_TABLE = "EN 1154 table 1, widths and sizes"
_SIZE_3 = "European practice for fire doors after EN 1154"
_DELAY = "EN 1154: a closer's delay can be set below 25 s, read in a guide of 2015"
_HOLD_OPEN = "EN 1155: only a holder that lets go on an alarm, read in a guide of 2015"


def _closer_rules(code: str) -> tuple[CodeRule, ...]:
    return (
        CodeRule("size for the width", code, _TABLE, _closes_this_width),
        CodeRule("size on a fire door", code, _SIZE_3, _strong_enough),
        CodeRule("no hold-open", code, _HOLD_OPEN, no_hold_open),
        CodeRule("delayed action", code, _DELAY, _delay),
    )


UK_RULES = (
    CodeRule(
        "opening force to 30 deg", "uk", "BS 8300-2 of 2018 and Approved Document M", _first_thirty
    ),
    CodeRule(
        "opening force to 60 deg", "uk", "BS 8300-2 of 2018 and Approved Document M", _next_thirty
    ),
    CodeRule(
        "closes and latches",
        "uk",
        "Approved Document B: closes from any angle and against any latch",
        shuts_itself,
    ),
    *_closer_rules("uk"),
)
"""In the order they are shown."""

EU_RULES = (
    CodeRule("opening force", "eu", "French order of 1 August 2006", _french_force),
    CodeRule("closes and latches", "eu", "common practice for fire doors", shuts_itself),
    *_closer_rules("eu"),
)
"""In the order they are shown."""
