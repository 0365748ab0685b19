"""What marks and holes depend on makes them due again when it is changed before the hold, with a sheet and without."""

from copy import copy

import pytest

from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.state import STOPPED, label
from tests.run.shipped_runs import carried_shipped, shipped
from tests.run.small_procedures import give

HOLD = "holes/before-drilling-numbers"
MARKS = [
    *("mark-the-body", "mark-the-shoe"),
    *("body-along-measured", "body-datum-measured", "shoe-along-measured", "shoe-datum-measured"),
]
LISTS = ["holes-in-the-leaf", "holes-in-the-head"]
TYPED = [
    *("along-from-where", "datum-where", "body-how-far-along", "body-how-far-from-datum"),
    *("shoe-how-far-along", "shoe-how-far-from-datum", "body-pattern"),
]
ELSE = {"mount/on-push-side": "yes", "how-far/wall-behind": "yes", "how-far/how-deep": "0 in"}
"""Answers to what another mount or opening asks besides."""


def held(name: str) -> Session:
    """The job where it stops before the first punch mark."""
    answers = shipped(name).answers
    before = next(number for number, one in enumerate(answers) if one.at == HOLD)
    state = carried_shipped(name)[1][before].state
    session = Session(MemoryJournal(), copy(state), "bench", lambda: state.last_utc)
    while session.state.node.id != HOLD:
        give(session, "done")
    return session


def due(name: str, session: Session) -> list[str]:
    """The blocks of marking that are asked again on the way back to the hold, or to an end, each once."""
    answers = {one.at: str(one.value) for one in shipped(name).answers}
    found = []
    while prompt(session.state).accepts.kind not in ("hold", "end"):
        at, block = label(session.state.graph, session.state.at), session.state.node.id
        found.append(block.removeprefix("holes/"))
        waits = prompt(session.state).accepts.kind == "done"
        give(session, "done" if waits else answers.get(at) or answers.get(block) or ELSE[block])
    return list(dict.fromkeys(found))


@pytest.mark.parametrize(
    ("name", "change", "wanted"),
    [
        ("archive-fire-pair", "mount/hinges-where = left", [*MARKS, *LISTS, "hold-it-up"]),
        ("archive-fire-pair", "mount/hangs-on = continuous", MARKS),
        ("archive-fire-pair", "mount/which-mount = top-jamb", MARKS),
        ("archive-fire-pair", "how-far/opening-angle = 120 deg", MARKS),
        # Without the coordinator bar there is no bracket: the shoe's own holes are drilled.
        ("archive-fire-pair", "mount/on-the-head = clear", [*MARKS, *LISTS]),
        ("market-hall-low-head", "mount/how-high-face = 3 in", MARKS),
        ("low-rail-drop-plate", "mount/how-high-rail = 6 in", MARKS),
        # Typed from the paper: of another mount every number is another.
        ("library-stacks", "mount/which-mount = regular", [*TYPED, *MARKS, *LISTS]),
        ("library-stacks", "holes/along-from-where = pin", [*MARKS, *LISTS]),
        ("library-stacks", "holes/datum-where = stop", [*MARKS, *LISTS]),
        ("library-stacks", "holes/how-much-overlap = 1/2 in", MARKS),
        ("library-stacks", "holes/body-how-far-along = 6 in", [MARKS[0], *MARKS[2:]]),
        ("library-stacks", "holes/body-toward-hinges = 3 in", ["holes-in-the-head"]),
        ("library-stacks", "holes/shoe-between = 3 in", ["holes-in-the-leaf"]),
        ("sports-hall-store", "holes/which-thread = m6", LISTS),
    ],
)
def test_what_the_marks_depend_on_makes_them_due_again(
    name: str, change: str, wanted: list[str]
) -> None:
    session = held(name)
    give(session, change)
    again = due(name, session)
    assert [one for one in wanted if one not in again] == [], again


@pytest.mark.parametrize(
    "change",
    ["holes/body-toward-hinges = 3 in", "holes/shoe-between = 3 in", "mount/hangs-on = continuous"],
)
def test_a_change_after_punching_stops_the_job(change: str) -> None:
    session = held("library-stacks")
    give(session, "hold", "begin", "done")
    assert session.state.status != STOPPED
    give(session, change)
    assert session.state.status == STOPPED
