"""Jobs at the doors of a site, on days of a test's choice: shipped scenarios carried through, and their logs copied."""

import json
from copy import deepcopy
from datetime import datetime, timedelta
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any

from guide.files.library import runs_folder
from guide.run.log.reading import ENDING
from guide.run.rehearse import Player, Rehearsal
from guide.run.schedule_values import supplied_values
from guide.run.session import Session
from guide.run.store import begin_run
from tests.run.kept_runs import chained_anew, parsed, path_of
from tests.run.shipped_runs import shipped, shipped_graph, shipped_sheet

SOUND, GAP, AJAR, TIRED = (
    "inspect-stair-door",
    "inspect-steel-gap",
    "inspect-stays-ajar",
    "inspect-tired-door",
)
"""Inspections: without a fault, with a gap too wide, with a door that does not close, with nine faults."""
CLASSROOM = "school-classroom"
"""A closer fitted, to its end."""
_numbers = count(1)


def carry_on(session: Session, scenario: str, answers: int | None = None) -> None:
    """Give a session the first so many answers of a scenario, or all of them."""
    shape = shipped(scenario)
    if answers is not None:
        shape = shape.model_copy(update={"answers": shape.answers[:answers]})
    Player(session, shape, Rehearsal(shape.scenario, shape.procedure)).play()


@cache
def carried_lines(scenario: str, answers: int | None, end: str) -> list[dict[str, Any]]:
    """The log of a scenario, carried as far as that; `end` is “paused”, a reason to make safe, or empty."""
    shape = shipped(scenario)
    graph = shipped_graph(shape.procedure)
    session = begin_run(
        graph,
        units=shape.units,
        supplied=supplied_values(graph, shape.door, shape.units),
        sheet=shipped_sheet(shape.sheet),
        about={"rules": shape.rules},
    )
    carry_on(session, scenario, answers)
    if end == "paused":
        session.send(("paused", {}))
    elif end:
        session.send(("ended", {"outcome": "made-safe", "why": end, "safe": []}))
    path = path_of(session)
    session.close()
    lines = parsed(path)
    path.unlink()
    return lines


def job(
    site: str,
    door: str,
    began: str,
    scenario: str = SOUND,
    *,
    answers: int | None = None,
    end: str = "",
    by: str = "A. Fitter",
) -> Path:
    """Keep a job at a door that began at that moment (such as `2027-03-01T09:00`, UTC), a line a minute; its file."""
    lines = deepcopy(carried_lines(scenario, answers, end))
    number = next(_numbers)
    lines[0]["run"] = f"{number:032x}"
    about = lines[1]["events"][0][2]["about"]
    about |= {"site": site, "door": door, "name": by}
    moment = datetime.fromisoformat(began)
    for minute, line in enumerate(lines[1:]):
        line["utc"] = f"{(moment + timedelta(minutes=minute)).isoformat(timespec='milliseconds')}Z"
        line["by"] = by
    path = runs_folder() / f"{scenario}-{number:04}{ENDING}"
    path.parent.mkdir(parents=True, exist_ok=True)
    return chained_anew(path, json.loads(json.dumps(lines)))
