"""A job for the tests that draws: a closer on a classroom's door, 36 in wide, opening to 100 degrees."""

from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.measures import parse
from guide.procedure.facts import Value
from guide.run.session import Session
from guide.run.store import begin_run
from tests.trade.shipped_sheets import load_sheet

PROCEDURE = Path(__file__).parents[1] / "run" / "procedures" / "classroom-closer.yaml"


def begin_classroom(
    mount: str, knuckles: str, opening: str = "100 deg", sheet: str = "generic-a"
) -> Session:
    """A run that knows its door from the schedule: Enter accepts what it says."""
    supplied: dict[str, Value] = {
        "knuckles": knuckles,
        "mount": mount,
        "opening": parse(opening),
        "width": parse("36 in"),
    }
    return begin_run(
        graph_of(PROCEDURE),
        units="inch",
        sheet=load_sheet(find("sheet", sheet)).to_json() if sheet else None,
        supplied=supplied,
        about={"door": "Classroom 4"},
    )
