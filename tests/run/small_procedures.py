"""The small procedures of these tests, compiled once, and sessions on them that keep no file."""

from functools import cache
from pathlib import Path

from guide.checker.check import check
from guide.procedure.facts import Value
from guide.procedure.graph import Graph
from guide.run import replies
from guide.run.journal import MemoryJournal
from guide.run.replies import Draft
from guide.run.session import Session
from guide.run.state import State, occurrence_of

FOLDER = Path(__file__).parent / "procedures"
SMALL = (
    "gym-store",
    "clinic-tuning",
    "school-pair",
    "bakery-skip",
    "ferry-tests",
    "cinema-marks",
    "chapel-pair",
)
"""choose, when, worked facts and text; crossing jumps back; nested repeats in an include; a jump ahead; a
computation over every round; marks measured blind, and due again with what they depend on; a leaf after the other."""
NOON = "2026-03-02T12:00:00.000Z"


@cache
def small(name: str) -> Graph:
    """The compiled graph of a small procedure; it must be sound."""
    report = check(FOLDER / f"{name}.yaml")
    assert report.sound, [finding.message for finding in report.findings]
    assert report.graph is not None
    return report.graph


def begin(name: str, supplied: dict[str, Value] | None = None) -> Session:
    """A run of a small procedure that is kept in memory."""
    graph = small(name)
    return Session.begin(
        MemoryJournal(), graph, device="bench", units="inch", supplied=supplied, clock=lambda: NOON
    )


def draft(state: State, line: str) -> Draft:
    """The event a short line stands for, where the run stands.

    A word alone: `done`, `begin`, `hold`, `yes`, `no`, `killed`. `place = value` changes an earlier
    answer. `remade|plugged|abandoned: note` resolves, `all|part|none drilled` reports. Else an answer.
    """
    place, equals, value = line.partition(" = ")
    if equals:
        at = occurrence_of(state.graph, place)
        assert at is not None, place
        return replies.answer(state, value, at)
    first, colon, note = line.partition(": ")
    if colon and first in ("remade", "plugged", "abandoned"):
        return replies.resolve(state, first, note)
    if line.endswith(" drilled"):
        return replies.report(state, line.split(maxsplit=1)[0])
    if line in ("confirm", "deny"):
        return replies.confirm(state, line == "confirm")
    plain = {
        "done": replies.done,
        "begin": replies.begin,
        "hold": replies.pass_hold,
    }
    if line in plain:
        return plain[line](state)
    if line == "killed":
        return "resumed", {}
    return replies.answer(state, line)


def give(session: Session, *lines: str) -> State:
    """Send the events of several lines, one after the other."""
    for line in lines:
        session.send(draft(session.state, line))
    return session.state
