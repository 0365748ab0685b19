"""Practice doors for the tests: the shipped twelve, and an office door with whatever is hidden in it."""

from dataclasses import replace
from functools import lru_cache

from guide.files.library import catalogue
from guide.practice.door import HiddenCause, PracticeDoor
from guide.practice.practice import TURNS, Practice
from guide.practice.score import GAUGE, past_limits
from guide.procedure.practice_file import PRACTICE, load_practice
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SLAM_SPEED, SwingingDoor, close, opening_force
from guide.trade.swing.valves import Valves

LBF = 4.4482216152605


@lru_cache(maxsize=1)
def shipped() -> dict[str, PracticeDoor]:
    """The shipped doors by name, in their order."""
    doors = [load_practice(entry.path) for entry in catalogue(PRACTICE)]
    return {door.name: door for door in doors}


def office(
    *faults: HiddenCause, sweep: float = 1.25, latch: float = 1.25, **more: float
) -> PracticeDoor:
    """A 36 in office door that is right as it stands; `more` is `size`, `limit` [N] or `delay`."""
    door = SwingingDoor(
        width=0.9144,
        height=2.1336,
        mass=50,
        geometry=usual_geometry("regular"),
        size=more.get("size", 3.0),
        valves=Valves(sweep=sweep, latch=latch),
        seal=0.5,
        latch_force=6.0,
        hinge_drag=0.3,
    )
    return PracticeDoor(
        name="office",
        title="Office",
        about="Nobody complains of it.",
        grade=1,
        mount="regular",
        knuckles="left",
        door=door,
        delay=more.get("delay"),
        sizes=(1, 4),
        limit=more.get("limit"),
        faults=faults,
    )


def any_setting_is_right(at: PracticeDoor) -> bool:
    """Whether the spring and both valves, tried everywhere to an eighth of a turn, can make it right."""
    found = Practice(at).door
    past = found.valves.sweep - at.door.valves.sweep
    eighths = [eighth / 8 for eighth in range(round(TURNS["sweep"] * 8) + 1)]
    low, high = at.sizes
    for half in range(round((high - low) * 2) + 1):
        sized = replace(found, size=low + half / 2)
        if at.limit is not None and opening_force(sized) > at.limit * GAUGE:
            return False
        for latch in eighths:
            near = replace(sized, valves=Valves(4.0, latch + past))
            short = close(near, 10.0)
            if not short.latched or short.edge_speed > SLAM_SPEED:
                continue
            for sweep in eighths:
                tried = replace(sized, valves=Valves(sweep + past, latch + past))
                if not past_limits(tried, at):
                    return True
    return False
