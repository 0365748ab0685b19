"""A site made from a schedule that was read and planned, one whose schedule has a newer issue, and doors of a site as a
schedule to be planned again: those of a day."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from guide.procedure.facts import Fact, Value, writing
from guide.site.plan.door_plan import DoorPlan
from guide.site.plan.site_plan import SitePlan
from guide.site.schedule.doors import ScheduledDoor
from guide.site.schedule.schedule import Schedule
from guide.site.site import PROCEDURE, Planned, Site, SiteDoor, need_name


def site_of_plan(name: str, made: str, plan: SitePlan, procedure: str = PROCEDURE) -> Site:
    """The site of a schedule that was read and planned."""
    schedule = plan.schedule
    return Site(
        need_name(name),
        made,
        schedule.units,
        plan.sheet,
        procedure,
        schedule.name,
        tuple(_numbered([_site_door(one) for one in plan.doors])),
        schedule.beside,
        schedule.notes,
    )


def _site_door(plan: DoorPlan) -> SiteDoor:
    door = plan.door
    return SiteDoor(
        door.number,
        door.place,
        next((one.text for one in door.cells if "rated" in one.facts), ""),
        f"{door.table} row {door.row}".strip(),
        door.closer_wanted,
        {name: writing(value) for name, value in door.facts.items()},
        dict(door.found_at),
        door.questions,
        tuple(door.not_understood),
        Planned(plan.mount, plan.size, plan.least, plan.most, plan.set_aside),
    )


def _numbered(doors: list[SiteDoor]) -> Iterable[SiteDoor]:
    """The doors with a number of its own for each: one that is given twice has its row after it."""
    count: dict[str, int] = {}
    for door in doors:
        count[door.key] = count.get(door.key, 0) + 1
    return (
        door if count[door.key] == 1 else replace(door, number=f"{door.number} ({door.row})")
        for door in doors
    )


def with_schedule(site: Site, plan: SitePlan) -> tuple[Site, str]:
    """The site with a newer issue of its schedule, and what changed, in a sentence. A door that the schedule no longer
    has stays, as if it had been added by hand: jobs may name it."""
    new = site_of_plan(site.name, site.made, plan, site.procedure)
    found = {door.key: door for door in new.doors}
    gone = [door for door in site.doors if door.row and door.key not in found]
    changed = [
        door for door in site.doors if door.key in found and door.facts != found[door.key].facts
    ]
    kept = [found.pop(door.key, door) for door in site.doors]
    kept = [replace(door, row="") if door in gone else door for door in kept]
    told = f"{len(found)} doors added, {len(changed)} with other facts"
    told += (
        f"; no longer in the schedule: {', '.join(door.number for door in gone)}" if gone else ""
    )
    return replace(new, doors=(*kept, *found.values()), rounds=site.rounds), f"{told}."


def schedule_of(site: Site, doors: Iterable[SiteDoor], facts: Mapping[str, Fact]) -> Schedule:
    """Doors of a site as a schedule that can be planned; `facts` are those of the procedure."""
    return Schedule(
        site.name,
        site.units,
        tuple(_scheduled(door, site.units, facts) for door in doors),
        (),
    )


def _scheduled(door: SiteDoor, units: str, facts: Mapping[str, Fact]) -> ScheduledDoor:
    values: dict[str, Value] = {}
    for name, text in door.facts.items():
        if name in facts:
            values[name] = facts[name].read(text, units)
    return ScheduledDoor(
        door.number,
        0,
        place=door.place,
        closer_wanted=door.closer_wanted,
        facts=values,
        found_at=door.found_at,
        questions=door.questions,
        cells=door.not_understood,
    )
