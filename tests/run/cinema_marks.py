"""A closer marked out on a cinema's foyer door: regular arm, butt hinges, the numbers of the sheet generic-a.

By the row to 100 degrees: body 7 1/2 in along and 1 1/2 in down, shoe 13 in along and 3/4 in up.
"""

import re

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.run import replies
from guide.run.session import Session
from guide.run.state import State, label
from guide.run.store import begin_run
from tests.run.small_procedures import FOLDER, give
from tests.trade.shipped_sheets import load_sheet

KNOWN = ("left", "regular", "butt", "no", "pin", "top")
NUMBERS = ("7 1/2 in", "1 1/2 in", "13 in", "3/4 in")
READ = ("7 9/16 in", "1 9/16 in", "12 15/16 in", "11/16 in")
"""Readings a sixteenth off, which is right, and unlike any number wanted."""
TO_MEASURING = (*KNOWN, *NUMBERS, "done", "done")
"""From the start to the first measurement."""
MEASURED = (
    "body-along-measured",
    "body-datum-measured",
    "shoe-along-measured",
    "shoe-datum-measured",
)
MARKED = ("mark-the-body", "mark-the-shoe")

_WANTED = re.compile(r"(?<![\d/])(?<!\d )(7 1/2|1 1/2|13|3/4|7½|1½|¾)(?![\d/½¼¾])")
_SPOKEN = re.compile(r"seven and a half|one and a half|thirteen|three quarters")


def begin_cinema() -> Session:
    """A run of the job, kept on disk, with its sheet."""
    return begin_run(
        graph_of(FOLDER / "cinema-marks.yaml"),
        units="inch",
        sheet=load_sheet(find("sheet", "generic-a")).to_json(),
        about={"door": "Cinema, foyer"},
    )


def at(state: State) -> str:
    """The block the run is at."""
    return label(state.graph, state.at)


def tells(text: str) -> list[str]:
    """The wanted numbers that a text gives away, written or in words."""
    return [*_WANTED.findall(text), *_SPOKEN.findall(text)]


def due_after(session: Session, place: str, value: str) -> list[str]:
    """The steps and questions that wait for the person, one after the other, once an earlier answer is changed; the
    marks are then measured as before."""
    session.send(replies.answer(session.state, value, _place(session.state, place)))
    due: list[str] = []
    read = dict(zip(MEASURED, NUMBERS, strict=True))
    while at(session.state) != "before-punching":
        here, kind = at(session.state), session.state.node.kind
        give(session, "done" if kind in ("do", "work") else read[here])
        due += [here] if kind != "work" else []
    return due


def _place(state: State, place: str) -> tuple[int, tuple[int, ...]]:
    return next(one for one in state.path if label(state.graph, one) == place)
