"""How many prompts a job asks of a person: scenarios counted at detail `full` and at `cards`.

Run by hand: python -m tests.campaigns.prompts [SCENARIO...]; without a name, every scenario of the project.

A prompt is anything that needs a key or a yes: a step, a question, a hold, the beginning and the end of a cut, the
end of the job. A card of several steps is one prompt at `cards`, and so is a card of questions that one answer answers;
where the scenario has another answer than stands on such a card, the “no” is a prompt and so is each of its questions.
Two times of one swing are one prompt, since the stopwatch goes on from the first to the second. What is computed in
passing is none, and so is a note.
"""

import sys
from dataclasses import dataclass
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.facts import Value, writing
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import ScenarioShape, load_scenario
from guide.procedure.sheet_cache import sheet_of
from guide.run import replies
from guide.run.prompt import Prompt, prompt
from guide.run.question_card import questions_of, shown_at
from guide.run.rehearse import Player, Rehearsal, rehearse
from guide.run.session import Session
from guide.run.state import STANDING, State, label
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
        self.details = {detail: Detail(detail) for detail in ("full", "cards")}
        self._same_swing = ""

    def send(self, draft: replies.Draft) -> None:
        """Send one event; it answers a prompt unless one swing or one card has answered that with the step before."""
        state = self.session.state
        if draft[0] != "noted" and not (self._same_swing and state.node.id == self._same_swing):
            for one in self.details.values():
                one.meet(state, prompt(state), draft[1].get("value", ""))
        going_on = goes_on(state) if state.status == STANDING else None
        super().send(draft)
        self._same_swing = going_on.id if going_on is not None else ""


class Detail:
    """The prompts at one detail so far, and what is left of the card that was shown last."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.prompts = 0
        self._left: list[str] = []
        self._offered: dict[str, Value | None] = {}
        """On a card of questions: what stands there, None for a blank."""
        self._answered = 0
        """Of its questions, those that the card has answered so far."""
        self._singly: set[str] = set()

    def meet(self, state: State, made: Prompt, answer: str) -> None:
        """Something is answered: it is a prompt of its own, or a line of the card shown before it."""
        at = label(state.graph, state.at)
        if at not in self._left or made.kind == "read-back":
            self._show(state, made, at)
        else:
            del self._left[: self._left.index(at) + 1]
        offered = self._offered.get(at)
        if at in self._offered and offered is not None and writing(offered) != answer:
            self._one_by_one()
        self._answered += at in self._offered

    def _show(self, state: State, made: Prompt, at: str) -> None:
        card = shown_at(state, made, self.name, self._singly)
        lines = [line.at for line in card.card_lines] if card.together(self.name) else []
        self.prompts += 1
        self._left = lines[1:]
        questions = questions_of(state, card, self.name) if card.asked else []
        self._offered, self._answered = {one.label: one.value for one in questions}, 0

    def _one_by_one(self) -> None:
        """The card said something else: it was answered with no, and each of its questions by itself."""
        self.prompts += self._answered + 1
        self._singly |= self._offered.keys()
        self._left, self._offered = [], {}


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
    details = counters[0].details
    return Prompts(details["full"].prompts, details["cards"].prompts)


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
