"""The shipped scenarios, each carried through once and kept; a changed answer is gone on with from its place."""

from copy import copy
from dataclasses import dataclass
from functools import cache
from typing import Any

from guide.checker.graph_cache import graph_of
from guide.files.library import catalogue, find
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import AnswerShape, ScenarioShape, load_scenario
from guide.run.journal import MemoryJournal
from guide.run.rehearse import Player, Rehearsal, conclude, rehearse
from guide.run.session import Session
from guide.run.state import State
from tests.trade.shipped_sheets import load_sheet

SHIPPED = [entry.name for entry in catalogue("scenario") if not entry.own]


@dataclass(frozen=True)
class Stand:
    """Where a rehearsal stood when so many answers were given."""

    state: State
    stops: tuple[str, ...]
    refused: tuple[str, ...]
    shown: dict[str, list[str]]
    """What had been shown at each block whose words the scenario expects."""


@cache
def shipped_graph(name: str) -> Graph:
    return graph_of(find("procedure", name))


@cache
def shipped_sheet(name: str) -> dict[str, Any] | None:
    return None if name == "none" else load_sheet(find("sheet", name)).to_json()


@cache
def shipped(name: str) -> ScenarioShape:
    return load_scenario(find("scenario", name))


def carried(scenario: ScenarioShape) -> Rehearsal:
    """A scenario carried through from its beginning."""
    sheet = shipped_sheet(scenario.sheet)
    return rehearse(scenario, shipped_graph(scenario.procedure), sheet)


@cache
def carried_shipped(name: str) -> tuple[Rehearsal, tuple[Stand, ...]]:
    """A shipped scenario carried through, and where it stood before each of its answers and at the end."""
    scenario = shipped(name)
    stands: list[Stand] = []

    class Noting(Player):
        def play(self) -> None:
            self.note_stand()
            super().play()

        def give(self, answer: AnswerShape) -> bool:
            given = super().give(answer)
            self.note_stand()
            return given

        def note_stand(self) -> None:
            found = self.found
            shown = {at: list(words) for at, words in found.shown.items()}
            stands.append(
                Stand(self.session.state, tuple(found.stops), tuple(found.refused), shown)
            )

    graph, sheet = shipped_graph(scenario.procedure), shipped_sheet(scenario.sheet)
    return rehearse(scenario, graph, sheet, Noting), tuple(stands)


def gone_on_with(name: str, given: int, other: ScenarioShape) -> Rehearsal:
    """Another scenario, the same as this shipped one in its first so many answers: gone on with from there.

    A state is left as it was by what comes after it, so this is what it comes to from the beginning.
    """
    stand = carried_shipped(name)[1][given]
    found = Rehearsal(other.scenario, other.procedure)
    found.stops, found.refused = list(stand.stops), list(stand.refused)
    found.shown = {at: list(words) for at, words in stand.shown.items()}
    session = Session(MemoryJournal(), copy(stand.state), "rehearsal", lambda: stand.state.last_utc)
    player = Player(session, other, found)
    player.taken = given
    player.play()
    conclude(found, session.state, other)
    return found
