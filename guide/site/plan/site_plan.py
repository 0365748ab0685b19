"""The plan of a whole schedule: its doors, what the van must carry, and what should not be started."""

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from guide.measures import Quantity, write
from guide.site.plan.door_plan import DoorPlan, plan_door
from guide.site.plan.known import Planning
from guide.site.schedule.schedule import Schedule
from guide.trade.holes.fixing import KIND_WORDS, Fixing

Progress = Callable[[int, int], None]

IN_MOST = 3
"""A caution that at least so many doors have, and more than half of them, is said once for all."""
_CLOSER, _PLATE, _FASTENER, _DRILL = "closer", "plate or bracket", "fastener", "drill or tap"
KINDS = (_CLOSER, _PLATE, _FASTENER, _DRILL)
"""The kinds of things on the pick list, in its order."""


@dataclass(frozen=True, slots=True)
class Pick:
    """One line of the pick list."""

    kind: str
    """One of `KINDS`."""
    sheet: str
    """The closer's sheet; empty if none was given."""
    part: str
    count: int
    """How many; of what is counted by holes, as far as they are known."""
    doors: tuple[str, ...]
    at_least: bool = False
    """Whether some door's number of holes is not known, so that more are needed."""


@dataclass(frozen=True, slots=True)
class SitePlan:
    """The plan of a schedule."""

    schedule: Schedule
    planning: Planning
    doors: tuple[DoorPlan, ...]
    """Every door, in the order of the schedule, those set aside too."""
    pick_list: tuple[Pick, ...]
    tools: tuple[str, ...]
    perhaps: tuple[str, ...]
    cautions: tuple[str, ...]
    """Those that most doors have; each door keeps its own in full."""

    @property
    def planned(self) -> list[DoorPlan]:
        """The doors that may be started."""
        return [one for one in self.doors if not one.set_aside]

    @property
    def set_aside(self) -> list[DoorPlan]:
        """The doors that should not be started."""
        return [one for one in self.doors if one.set_aside]

    @property
    def minutes(self) -> tuple[int, int]:
        """The least and the most of all doors that may be started, where nothing is done twice."""
        return sum(one.least for one in self.planned), sum(one.most for one in self.planned)

    @property
    def not_in_schedule(self) -> dict[str, list[str]]:
        """The questions on which the schedule is silent, each with the doors that have it."""
        found: dict[str, list[str]] = defaultdict(list)
        for door in self.planned:
            for one in door.open:
                if not one.where:
                    found[one.text].append(door.door.number)
        return dict(found)

    @property
    def sheet(self) -> str:
        """The closer's sheet; empty if none was given."""
        return "" if self.planning.sheet is None else self.planning.sheet.sheet


def plan_site(planning: Planning, schedule: Schedule, progress: Progress | None = None) -> SitePlan:
    """The plan of every door of a schedule."""
    doors = []
    for number, door in enumerate(schedule.doors):
        if progress is not None:
            progress(number, len(schedule.doors))
        doors.append(plan_door(planning, door))
    planned = [one for one in doors if not one.set_aside]
    tools = dict.fromkeys(tool for one in planned for tool in one.tools)
    perhaps = dict.fromkeys(tool for one in planned for tool in one.perhaps)
    return SitePlan(
        schedule,
        planning,
        tuple(doors),
        tuple(_pick_list(planning, planned)),
        tuple(tools),
        tuple(tool for tool in perhaps if tool not in tools),
        tuple(_common(planned)),
    )


def _common(planned: list[DoorPlan]) -> Iterator[str]:
    count: dict[str, int] = defaultdict(int)
    for one in planned:
        for caution in one.cautions:
            count[caution] += 1
    for caution, found in count.items():
        if found >= IN_MOST and found * 2 > len(planned):
            yield caution


def _pick_list(planning: Planning, planned: list[DoorPlan]) -> Iterator[Pick]:
    """What goes into the van, by kind and part."""
    sheet = "" if planning.sheet is None else planning.sheet.sheet
    found: dict[tuple[str, str], list[tuple[str, int | None]]] = defaultdict(list)
    for one in planned:
        for kind, part, count in _parts(one):
            found[kind, part].append((one.door.number, count))
    for (kind, part), doors in sorted(
        found.items(), key=lambda row: (KINDS.index(row[0][0]), row[0][1])
    ):
        numbers = tuple(dict.fromkeys(number for number, _ in doors))
        counts = [count for _, count in doors]
        whole = len(numbers) if kind == _DRILL else sum(count or 0 for count in counts)
        yield Pick(kind, sheet, part, 1 if kind == _DRILL else whole, numbers, None in counts)


def _parts(one: DoorPlan) -> Iterator[tuple[str, str, int | None]]:
    """Kind, part and number of what one door takes."""
    size = "size open" if one.size is None else f"EN size {one.size}"
    arm = one.door.facts.get("arm", "plain")
    with_arm = "" if arm == "plain" else f", {str(arm).replace('-', ' ')} arm"
    yield _CLOSER, f"closer, {size}{with_arm}", 1
    for accessory in one.accessories:
        yield _PLATE, f"{accessory.name} for the {accessory.carries}", 1
    for row in one.fasteners:
        fixing = row.fixing
        if fixing.kind not in KIND_WORDS:
            continue
        yield _FASTENER, _fastener(one, row.part, fixing), row.count
        for drill in (fixing.drill, fixing.second_drill):
            if drill:
                yield _DRILL, f"drill {drill}", 1
        if fixing.tap:
            yield _DRILL, f"tap {fixing.tap}", 1


def _fastener(one: DoorPlan, part: str, fixing: Fixing) -> str:
    words = f"{KIND_WORDS[fixing.kind]} {fixing.screw}".strip()
    thickness = one.door.facts.get("thickness")
    if fixing.kind == "through-bolt" and isinstance(thickness, Quantity):
        return f"{words}, for a leaf of {write(thickness)}"
    return f"{words}, {part}"
