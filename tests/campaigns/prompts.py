"""How many prompts a job asks of a person: scenarios counted at detail `full` and at `cards`.

Run by hand: python -m tests.campaigns.prompts [SCENARIO...]; without a name, every scenario of the project.

A prompt is anything that needs a key or a yes: a step, a question, a hold, the beginning and the end of a cut, the
end of the job. A card of several steps is one prompt at `cards`. Two times of one swing are one prompt, since the
stopwatch goes on from the first to the second. What is computed in passing is none, and so is a note.
"""

import sys
from dataclasses import dataclass
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import ScenarioShape, load_scenario
from guide.procedure.sheet_cache import sheet_of
from guide.run import replies
from guide.run.prompt import Prompt, prompt
from guide.run.rehearse import Player, Rehearsal, rehearse
from guide.run.session import Session
from guide.run.state import STANDING, label
from guide.run.swings import goes_on

SCENARIOS = Path(__file__).parents[2] / "scenarios"


@dataclass(frozen=True, slots=True)
class Prompts:
    """The prompts of one job."""

    full: int
    cards: int


class Counter(Player):
    """Plays a scenario and counts each prompt that it answers."""

    def __init__(self, session: Session, scenario: ScenarioShape, found: Rehearsal) -> None:
        super().__init__(session, scenario, found)
        self.full = self.cards = 0
        self._on_this_card: dict[str, tuple[str, ...]] = {"full": (), "cards": ()}
        self._same_swing = ""

    def send(self, draft: replies.Draft) -> None:
        """Send one event; it answers a prompt unless one swing or one card has answered that with the step before."""
        state = self.session.state
        at = label(state.graph, state.at)
        if draft[0] != "noted" and not (self._same_swing and state.node.id == self._same_swing):
            made = prompt(state)
            self.full += self._counts(made, at, "full")
            self.cards += self._counts(made.card_question or made, at, "cards")
        going_on = goes_on(state) if state.status == STANDING else None
        super().send(draft)
        self._same_swing = going_on.id if going_on is not None else ""

    def _counts(self, made: Prompt, at: str, detail: str) -> bool:
        """Whether this is a prompt of its own at this detail, and no line of the card that was shown before it."""
        shown = self._on_this_card[detail]
        if at in shown:
            self._on_this_card[detail] = shown[shown.index(at) + 1 :]
            return False
        lines = made.card_lines if made.together(detail) else []
        self._on_this_card[detail] = tuple(line.at for line in lines[1:])
        return True


def counted(scenario: ScenarioShape, graph: Graph) -> Prompts:
    """The prompts of a scenario that is played by keys to its end."""
    counters: list[Counter] = []

    def plays(session: Session, scenario: ScenarioShape, found: Rehearsal) -> Player:
        counters.append(Counter(session, scenario, found))
        return counters[0]

    sheet = None
    if scenario.sheet != "none":
        sheet = sheet_of(find("sheet", scenario.sheet)).to_json()
    rehearse(scenario, graph, sheet, plays)
    return Prompts(counters[0].full, counters[0].cards)


def main(names: list[str]) -> None:
    """Print the table."""
    paths = [find("scenario", name) for name in names] or sorted(SCENARIOS.glob("*.yaml"))
    graphs: dict[str, Graph] = {}
    print(f"{'scenario':34} {'procedure':24} {'full':>5} {'cards':>5}")
    for path in paths:
        scenario = load_scenario(path)
        if scenario.aloud:
            continue
        name = scenario.procedure
        graph = graphs.get(name) or graph_of(find("procedure", name))
        graphs[name] = graph
        found = counted(scenario, graph)
        print(f"{scenario.scenario:34} {name:24} {found.full:5} {found.cards:5}")


if __name__ == "__main__":
    main(sys.argv[1:])
