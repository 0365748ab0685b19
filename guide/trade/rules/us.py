"""Rules of the United States: access, ways out and fire doors.

Read in public copies or summaries: ADA 307.4, 404.2.3, 404.2.8.1 and 404.2.9 with the guide to 404.2.3; IBC 1010.1.3 in
its editions of 2009 to 2021; NFPA 101 7.2.1.4.5 as quoted from its edition of 2000, of which later summaries differ;
NFPA 80 on closing, latching and what may hold a fire door.
"""

from guide.measures import Quantity, write
from guide.trade.rules.kinds import (
    DECIDES,
    EXIT,
    FAIL,
    LIGHT,
    NO_LATCH,
    NOT_ACCESSIBLE,
    NOT_APPLICABLE,
    NOT_MEASURED,
    PASS,
    PUSH,
    CodeRule,
    JudgedDoor,
    Judgement,
    at_least,
    at_most,
    limit_of,
    no_hold_open,
    not_asked,
    reading,
    shuts_itself,
)

ACCESSIBLE = "on an accessible route"
CLEAR, CLEAR_DEEP = limit_of(32, "in"), limit_of(36, "in")
"""Least clear width, and in an opening deeper than 24 in."""
ALTERED_BY = limit_of("5/8", "in")
"""What the stop at the latch side may take from the clear width in an alteration: guide to 404.2.3."""
EXISTING = limit_of(50, "lbf")
"""Most to open an existing door in an existing building: NFPA 101 7.2.1.4.5, exception, edition of 2000."""
PROJECTS = limit_of(4, "in")
"""Most that anything projects into it from 34 to 80 in above the floor; below 34 in nothing may."""
HEAD_ROOM = limit_of(78, "in")
"""Least under closers and door stops."""
TURNING = "28 in-lbf"
"""Most to turn a lever until the latch is free; 7 lbf at 4 in from its spindle."""


def _closing_time(door: JudgedDoor) -> Judgement:
    if door.accessible is None:
        return not_asked(ACCESSIBLE)
    if not door.accessible:
        return NOT_APPLICABLE, NOT_ACCESSIBLE
    return at_least(door.s_90_12, limit_of(5, "s"), "Closing time from 90 to 12 degrees")


def _light_to_open(door: JudgedDoor) -> Judgement:
    if door.accessible is None:
        return not_asked(ACCESSIBLE)
    if not door.accessible:
        return NOT_APPLICABLE, NOT_ACCESSIBLE
    if door.fire is None or (not door.fire and door.exterior is None):
        return not_asked("a fire door or an outside door")
    force = reading(door.force, "Opening force")
    if door.fire:
        return DECIDES, f"{force} A fire door: the least force that the authority allows."
    if door.exterior:
        return DECIDES, f"{force} An outside door: this text sets no limit; a local code may."
    return at_most(door.force, LIGHT, "Opening force")


def _swings_open(door: JudgedDoor) -> Judgement:
    if door.way_out is None:
        return not_asked("a way out")
    if not door.way_out:
        return NOT_APPLICABLE, "It is not a way out."
    if door.fire is None or (not door.fire and door.exterior is None):
        return not_asked("a fire door or an outside door")
    light = not (door.fire or door.exterior)
    return at_most(door.force, LIGHT if light else EXIT, "Force to swing a way out open")


def _starts_and_opens(door: JudgedDoor) -> Judgement:
    if door.way_out is None:
        return not_asked("a way out")
    if not door.way_out:
        return NOT_APPLICABLE, "It is not a way out."
    limits = "30 lbf to start the leaf, 15 lbf to open it fully"
    if door.exit_forces is None:
        return NOT_MEASURED, f"Not measured: at most {limits}."
    if door.exit_forces:
        return PASS, f"Found within {limits}."
    over = f"Found over one of {limits}."
    if door.existing:
        return (
            DECIDES,
            f"{over} Up to {write(EXISTING)} an existing door may take (NFPA 101, 2000).",
        )
    return FAIL, over


def unlatching_limit(ibc: str, released_by: str | None) -> str:
    """The most that may release the latch, in words: by edition, and from 2021 by what releases it."""
    if ibc == "2018" or released_by == PUSH:
        return f"{EXIT.magnitude} lbf"
    if released_by is None:
        return f"{EXIT.magnitude} lbf where it is pushed or pulled, {TURNING} where it is turned"
    return f"{TURNING} of turning"


def _unlatches(door: JudgedDoor) -> Judgement:
    if door.way_out is None:
        return not_asked("a way out")
    if not door.way_out:
        return NOT_APPLICABLE, "It is not a way out."
    if door.released_by == NO_LATCH:
        return NOT_APPLICABLE, "It has no latch."
    limit = unlatching_limit(door.ibc, door.released_by)
    if door.unlatches is None:
        return NOT_MEASURED, f"Force that releases the latch: not measured, at most {limit}."
    verdict, where = (PASS, "within") if door.unlatches else (FAIL, "over")
    return verdict, f"The latch is released {where} {limit}."


def _clear_width(door: JudgedDoor) -> Judgement:
    if door.accessible is None:
        return not_asked(ACCESSIBLE)
    if not door.accessible:
        return NOT_APPLICABLE, NOT_ACCESSIBLE
    if door.projects_low:
        return FAIL, "Something projects into the clear width below 34 in."
    projects = _projection(door.projects)
    if projects[0] == FAIL:
        return projects
    limit = CLEAR_DEEP if door.deep else CLEAR
    if door.altered:
        limit = Quantity(limit.magnitude - ALTERED_BY.magnitude, limit.unit)
    verdict, told = at_least(door.clear, limit, "Clear width at 90 degrees")
    return verdict, f"{told} {projects[1]}".rstrip()


def _projection(projects: Quantity | None) -> Judgement:
    if projects is None:
        return PASS, ""
    return at_most(projects, PROJECTS, "Projection from 34 to 80 in above the floor")


def _head_room(door: JudgedDoor) -> Judgement:
    return at_least(door.head_room, HEAD_ROOM, "Height under the closer")


US_RULES = (
    CodeRule(
        "closing time",
        "us",
        "2010 ADA Standards 404.2.8.1; ICC A117.1 has the same wording",
        _closing_time,
    ),
    CodeRule("opening force", "us", "2010 ADA Standards 404.2.9", _light_to_open),
    CodeRule(
        "way out",
        "us",
        "International Building Code 1010.1.3, editions of 2009 to 2021",
        _swings_open,
    ),
    CodeRule(
        "exit forces",
        "us",
        "International Building Code 1010.1.3; NFPA 101 7.2.1.4.5 for doors with a closer, edition of 2000",
        _starts_and_opens,
    ),
    CodeRule(
        "unlatching",
        "us",
        "International Building Code 1010.1.3, in the edition of the settings",
        _unlatches,
    ),
    CodeRule("closes and latches", "us", "NFPA 80", shuts_itself),
    CodeRule(
        "no hold-open",
        "us",
        "NFPA 80: held only by a fusible link or a detector; the building code mostly wants smoke detection",
        no_hold_open,
    ),
    CodeRule("clear width", "us", "2010 ADA Standards 404.2.3 and its guide", _clear_width),
    CodeRule("head room", "us", "2010 ADA Standards 307.4, exception", _head_room),
)
"""In the order they are shown."""
