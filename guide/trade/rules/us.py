"""Rules of the United States: access, ways out and fire doors.

Read again in public copies or summaries: ADA 404.2.3, 404.2.8.1 (corada.com/documents/2010ADAStandards/404-2-8-1) and
404.2.9; IBC 1010.1.3 in the wording of its editions up to 2018 (buildingcodetrainer.com/door-opening-force); NFPA 80 on
closing and latching. From 2021 the IBC writes unlatching apart from opening. The rest is from memory, and says so.
"""

from guide.trade.rules.kinds import (
    DECIDES,
    EXIT,
    FAIL,
    LIGHT,
    NOT_APPLICABLE,
    NOT_MEASURED,
    PASS,
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

NOT_ACCESSIBLE = "Access rules do not reach this door."


def _closing_time(door: JudgedDoor) -> Judgement:
    if door.accessible is False:
        return NOT_APPLICABLE, NOT_ACCESSIBLE
    return at_least(door.s_90_12, limit_of(5, "s"), "Closing time from 90 to 12 degrees")


def _light_to_open(door: JudgedDoor) -> Judgement:
    if door.accessible is False:
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
    if door.fire is None or (not door.fire and door.way_out is None):
        return not_asked("a fire door or a way out")
    if not (door.fire or door.way_out):
        return NOT_APPLICABLE, "It is neither a fire door nor a way out."
    if not door.fire and door.exterior is None:
        return not_asked("an outside door")
    light = not (door.fire or door.exterior)
    return at_most(door.force, LIGHT if light else EXIT, "Force to swing a way out open")


def _unlatches_and_starts(door: JudgedDoor) -> Judgement:
    if door.fire is None or (not door.fire and door.way_out is None):
        return not_asked("a fire door or a way out")
    if not (door.fire or door.way_out):
        return NOT_APPLICABLE, "It is neither a fire door nor a way out."
    limits = "15 lbf to release the latch, 30 lbf to start the leaf, 15 lbf to open it fully"
    if door.exit_forces is None:
        return NOT_MEASURED, f"Not measured: at most {limits}."
    if door.exit_forces:
        return PASS, f"Found within {limits}."
    return FAIL, f"Found over one of {limits}."


def _clear_width(door: JudgedDoor) -> Judgement:
    if door.clear is None:
        return NOT_APPLICABLE, "The clear width was not given; no closer changes it at 90 degrees."
    return at_least(door.clear, limit_of(32, "in"), "Clear width at 90 degrees")


def _head_room(door: JudgedDoor) -> Judgement:
    if door.head_room is None:
        return (
            NOT_APPLICABLE,
            "The height under the closer was not given.",
        )
    return at_least(door.head_room, limit_of(78, "in"), "Height under the closer")


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
        "International Building Code 1010.1.3; NFPA 101 7.2.1.4.5, from memory; the edition matters",
        _swings_open,
    ),
    CodeRule(
        "exit forces",
        "us",
        "International Building Code 1010.1.3; NFPA 101 7.2.1.4.5, from memory; the edition matters",
        _unlatches_and_starts,
    ),
    CodeRule("closes and latches", "us", "NFPA 80", shuts_itself),
    CodeRule("no hold-open", "us", "NFPA 80, from memory", no_hold_open),
    CodeRule("clear width", "us", "2010 ADA Standards 404.2.3", _clear_width),
    CodeRule("head room", "us", "2010 ADA Standards 307.4, from memory", _head_room),
)
"""In the order they are shown."""
