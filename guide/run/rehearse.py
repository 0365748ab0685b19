"""Rehearsal: a scenario played through the run's own state machine, and its result compared with what it must show."""

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from guide.procedure.facts import Fact, Value, WrongAnswer, writing
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import AnswerShape, ScenarioShape
from guide.run import replies
from guide.run.cuts import stopped_by
from guide.run.journal import MemoryJournal
from guide.run.prompt import Prompt, prompt
from guide.run.schedule_values import WrongDoor, supplied_values
from guide.run.session import Session
from guide.run.state import CUT_OPEN, ENDED, FAULT, STOPPED, State, label, occurrence_of
from guide.run.step import Refused

MOST_STEPS = 5_000
START_OF_TIME = "2000-01-01T00:00:00.000Z"


@dataclass(slots=True)
class Rehearsal:
    """How a scenario went."""

    scenario: str
    procedure: str
    route: list[str] = field(default_factory=list)
    facts: dict[str, str] = field(default_factory=dict)
    end: str = "open"
    stops: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
    differences: list[str] = field(default_factory=list)
    edges: set[tuple[int, int]] = field(default_factory=set)
    """The edges taken, as node index and edge number."""
    shown: dict[str, list[str]] = field(default_factory=dict)
    """What was shown at each block whose words the scenario expects."""
    session: Session | None = None
    heard: dict[str, int] | None = None
    """If it was carried through by voice: how often what was said was heard, missed, and so on."""

    @property
    def met(self) -> bool:
        """Whether it went as expected."""
        return not self.differences

    def to_json(self) -> dict[str, Any]:
        """As `rehearse --json` prints it."""
        data: dict[str, Any] = {
            "scenario": self.scenario,
            "route": self.route,
            "facts": self.facts,
            "end": self.end,
            "expected": "met" if self.met else self.differences,
        }
        return data if self.heard is None else data | {"heard": self.heard}


def rehearse(
    scenario: ScenarioShape,
    graph: Graph,
    sheet: dict[str, Any] | None = None,
    plays: "Callable[[Session, ScenarioShape, Rehearsal], Player] | None" = None,
) -> Rehearsal:
    """Carry a scenario through. What goes otherwise than written is in `differences`.

    `plays` makes who plays it, if that is not by keys.
    """
    found = Rehearsal(scenario.scenario, graph.name)
    try:
        supplied = supplied_values(graph, scenario.door, scenario.units)
    except WrongDoor as error:
        found.differences.append(str(error))
        return found
    session = Session.begin(
        MemoryJournal(),
        graph,
        device="rehearsal",
        units=scenario.units,
        sheet=sheet,
        supplied=supplied,
        about={
            "door": scenario.scenario,
            "rules": scenario.rules,
            "nfpa_80": scenario.nfpa_80,
            "ibc": scenario.ibc,
        },
        clock=lambda: START_OF_TIME,
    )
    found.session = session
    player = (plays or Player)(session, scenario, found)
    player.play()
    found.edges |= player.edges
    conclude(found, session.state, scenario)
    return found


class Player:
    """Plays a scenario's answers in order, doing by itself what needs no line of its own."""

    def __init__(
        self,
        session: Session,
        scenario: ScenarioShape,
        found: Rehearsal,
        tell: Callable[[State, State], None] | None = None,
    ) -> None:
        self.session = session
        self.tell = tell
        self.scenario = scenario
        self.found = found
        self.edges: set[tuple[int, int]] = set()
        self.taken = 0

    def play(self) -> None:
        """Until the answers are used up and nothing more goes by itself, or one cannot be given."""
        answers = self.scenario.answers
        for _ in range(MOST_STEPS):
            self.look()
            state = self.session.state
            if state.status == FAULT:
                self.found.differences.append(state.why)
                return
            following = answers[self.taken] if self.taken < len(answers) else None
            if following is not None and self.fits(following, state):
                self.taken += 1
                if not self.give(following):
                    return
            elif not self.by_itself(state):
                if following is not None:
                    self.found.differences.append(
                        f"The job is at “{label(state.graph, state.at)}”; the next answer is for "
                        f"“{following.at}”."
                    )
                return

    def send(self, draft: replies.Draft) -> None:
        """Send one event, and report the state before and after to the observer, if there is one."""
        before = self.session.state
        after = self.session.send(draft)
        if self.tell is not None:
            self.tell(before, after)

    def look(self) -> None:
        """Note the edges that the run has taken."""
        state = self.session.state
        self.note_words(state)
        for here, there in zip(state.path, state.path[1:], strict=False):
            node = state.graph.nodes[here[0]]
            decided = state.decided.get(here)
            if decided is not None:
                self.edges.add((node.index, decided))
            else:
                for number, edge in enumerate(node.edges):
                    if edge.target == there[0]:
                        self.edges.add((node.index, number))

    def note_words(self, state: State) -> None:
        """Remember what is shown where the run stands, if the scenario expects words there."""
        expect = self.scenario.must_show
        at = label(state.graph, state.at)
        if expect is not None and any(words.at == at for words in expect.words):
            shown = shown_words(prompt(state))
            if shown not in self.found.shown.setdefault(at, []):
                self.found.shown[at].append(shown)

    def fits(self, answer: AnswerShape, state: State) -> bool:
        """Whether the answer is for where the run is, or for something earlier or aside.

        A revision waits until the run is where a person is asked something or cuts.
        """
        if state.status == ENDED:
            return answer.note is not None or answer.take_up is not None
        if answer.take_up is not None:
            return False  # the job has not ended yet
        if answer.revise is not None:
            at = occurrence_of(state.graph, answer.at)
            waits = not self.automatic(state) or state.node.kind == "end"
            return at is not None and at in state.answers and waits
        if answer.early is not None:
            return not self.automatic(state)
        if state.status in (STOPPED, CUT_OPEN):
            return True
        return answer.at == label(state.graph, state.at)

    def automatic(self, state: State) -> bool:
        """Whether the block needs no line: a step, a computation, or what the door supplies."""
        if state.status in (STOPPED, CUT_OPEN, ENDED):
            return False
        if state.pending is not None:
            return True
        node = state.node
        if node.kind in ("do", "work"):
            return not node.body.get("cuts")
        if node.kind == "end":
            return True
        fact = node.body.get("fact")
        first = all(n == 1 for n in state.at[1])
        if node.kind == "ask" and state.graph.facts[node.body["fact"]].may_be_left_out:
            return True
        return node.kind in ("ask", "check") and fact in state.supplied and first

    def by_itself(self, state: State) -> bool:
        """Take a step that needs no line; False if there is none."""
        if not self.automatic(state):
            return False
        if state.pending is not None:
            self.send(replies.confirm(state, yes=True))
        elif state.node.kind in ("ask", "check"):
            self.send(replies.answer(state, ""))
        else:
            self.send(replies.done(state))
        return True

    def give(self, answer: AnswerShape) -> bool:
        """Give one written answer; False if the run must go no further."""
        if answer.early is not None:
            return self.try_early(answer.at)
        state = self.session.state
        try:
            for draft in self.drafts(answer, state):
                self.send(draft)
                self.note_stop()
        except (Refused, WrongAnswer) as error:
            self.found.refused.append(answer.at)
            expected = self.scenario.must_show.refused if self.scenario.must_show else []
            if answer.at in expected:
                return True
            self.found.differences.append(f"At “{answer.at}”: {error}")
            return False
        return True

    def try_early(self, at: str) -> bool:
        """Try to begin a cut that the run has not come to; False where the run lets it begin."""
        state = self.session.state
        place = occurrence_of(state.graph, at)
        if place is None or not state.graph.nodes[place[0]].body.get("cuts"):
            self.found.differences.append(f"“{at}” does not cut, so it cannot be cut early.")
            return False
        if place == state.at:
            self.found.differences.append(f"The run stands at “{at}” already; that is not early.")
            return False
        try:
            self.send(("cut begun", {"at": at}))
        except Refused:
            return True
        self.found.differences.append(f"“{at}” was begun early, and the run did not refuse it.")
        return False

    def drafts(self, answer: AnswerShape, state: State) -> Iterable[replies.Draft]:
        """The events that an answer means, each made after the one before it was accepted."""
        if answer.value is not None:
            yield replies.answer(state, answer.value)
        elif answer.revise is not None:
            at = occurrence_of(state.graph, answer.at)
            yield replies.answer(state, answer.revise, at)
        elif answer.yes is not None:
            yield replies.confirm(state, answer.yes)
        elif answer.done is not None:
            if state.node.body.get("cuts") and state.open_cut() is None:
                yield replies.begin(state)
            yield replies.done(self.session.state)
        elif answer.hold is not None:
            yield replies.pass_hold(state)
        elif answer.resolve is not None:
            yield replies.resolve(state, answer.resolve, answer.note or "")
        elif answer.report is not None:
            yield replies.report(state, answer.report)
        elif answer.safe is not None:
            yield replies.make_safe(state, answer.safe)
        elif answer.take_up is not None:
            yield replies.take_up(state, answer.take_up)
        elif answer.utterances:
            raise Refused("This answer is spoken; rehearse it by voice.")
        else:
            yield replies.note(state, answer.note or "")

    def note_stop(self) -> None:
        """Remember that a cut stopped the run."""
        state = self.session.state
        if state.status == STOPPED:
            cut = stopped_by(state)
            place = label(state.graph, cut.at) if cut is not None else ""
            if place not in self.found.stops:
                self.found.stops.append(place)


def shown_words(made: Prompt) -> str:
    """Everything that a prompt says, in one line."""
    texts = [made.text, made.say, made.why, made.watch, made.looks_right, made.find_out, made.limit]
    texts.append(made.photo)
    texts += [text for caution in made.cautions for text in caution]
    texts += [text for pair in made.read_back for text in pair]
    texts += [one.text for one in made.holes]
    texts += [one.text for one in made.card_lines]
    for passed in made.passed:
        texts += [passed.text, passed.say, *passed.working, *(said for _, said in passed.cautions)]
    texts += [*made.tools, *made.parts, *made.working, *made.safe, *made.readings, made.next_title]
    texts += [text for choice in made.accepts.choices for text in (choice.text, choice.say)]
    return " ".join(" ".join(filter(None, texts)).split())


def conclude(found: Rehearsal, state: State, scenario: ScenarioShape) -> None:
    """Add to what was found where the run is, and what of it the scenario expects otherwise."""
    found.route = state.route()
    found.facts = {name: writing(value) for name, value in state.env.asked.items()}
    found.end = state.ended or "open"
    expect = scenario.must_show
    if expect is None:
        return
    if found.end != expect.end:
        where = label(state.graph, state.at)
        found.differences.append(f"It ended {found.end} at “{where}”, not {expect.end}.")
    if expect.route is not None and expect.route != found.route:
        found.differences.append(_route_difference(expect.route, found.route))
    for name, text in expect.facts.items():
        fact = state.graph.facts.get(name)
        value = state.known(name)
        if value is None or fact is None:
            found.differences.append(f"{name} is not known; {text} was expected.")
        elif not _same(value, text, fact, scenario.units):
            found.differences.append(f"{name} is {writing(value)}, not {text}.")
    for place, text in expect.answers.items():
        at = occurrence_of(state.graph, place)
        answer = state.answers.get(at) if at is not None and at in state.path else None
        if at is None or answer is None:
            found.differences.append(f"Nothing was answered at “{place}”; {text} was expected.")
            continue
        fact = state.graph.facts[state.graph.nodes[at[0]].body["fact"]]
        if not _same(answer.value, text, fact, scenario.units):
            found.differences.append(f"At “{place}”: {writing(answer.value)}, not {text}.")
    stops = _stops_as_expected(found.stops, expect.stops, state)
    if Counter(expect.stops) != Counter(stops):
        found.differences.append(f"It was stopped by {stops}, not by {expect.stops}.")
    for words in expect.words:
        for part in words.parts:
            if not any(" ".join(part.split()) in shown for shown in found.shown.get(words.at, ())):
                said = " / ".join(found.shown.get(words.at, ())) or "nothing"
                found.differences.append(f"At “{words.at}” it shows {said}; “{part}” was expected.")
    if Counter(expect.refused) != Counter(found.refused):
        found.differences.append(f"It refused {found.refused}, not {expect.refused}.")


def _stops_as_expected(places: list[str], expected: list[str], state: State) -> list[str]:
    """Each cut that stopped the run; with what became of it if the scenario says that too."""
    told = {line.partition(" ")[0] for line in expected if " " in line}
    fates = {
        label(state.graph, cut.at): cut.resolution or "unresolved" for cut in reversed(state.cuts)
    }
    return [f"{place} {fates.get(place, '')}" if place in told else place for place in places]


def _same(value: Value, text: str, fact: Fact, units: str) -> bool:
    try:
        wanted = fact.decode(text) if fact.worked else fact.read(text, units)
    except ValueError:
        return False
    return bool(value == wanted)


def _route_difference(expected: list[str], found: list[str]) -> str:
    for number, (wanted, has) in enumerate(zip(expected, found, strict=False), 1):
        if wanted != has:
            return f"Step {number} of the route is “{has}”, not “{wanted}”."
    longer, word = (
        (found, "goes on to") if len(found) > len(expected) else (expected, "stops before")
    )
    return f"The route {word} “{longer[min(len(found), len(expected))]}”."


def coverage(graph: Graph, edges: Iterable[tuple[int, int]]) -> dict[str, Any]:
    """How much of a graph a set of rehearsals has gone through, by edges."""
    every = {(node.index, n) for node in graph.nodes for n in range(len(node.edges))}
    taken = set(edges) & every
    missed = [
        f"{graph.nodes[index].id}: {graph.nodes[index].edges[number].label}"
        for index, number in sorted(every - taken)
    ]
    share = len(taken) / len(every) if every else 1.0
    return {
        "procedure": graph.name,
        "edges": len(every),
        "taken": len(taken),
        "percent": round(100 * share, 1),
        "missed": missed,
    }
