"""A shipped scenario with one answer changed: each answer in turn, and whether anything notices."""

from collections.abc import Iterable, Iterator

from guide.measures import Quantity
from guide.procedure.facts import UNSURE, Fact, writing
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import AnswerShape, ScenarioShape
from guide.run.state import occurrence_of
from guide.run.step import CUT_REPORTS, RESOLUTIONS
from tests.run.shipped_runs import gone_on_with, shipped, shipped_graph

Changed = tuple[int, ScenarioShape]
"""A scenario with the answer of this index changed."""


def changed(name: str) -> Iterator[Changed]:
    """The scenario with one answer changed, for each answer that a run can tell from another."""
    scenario = shipped(name)
    graph = shipped_graph(scenario.procedure)
    for number, answer in enumerate(scenario.answers):
        later = scenario.answers[number + 1 :]
        again = [one for one in later if one.at == answer.at]
        if any(one.revise is not None or one.value is not None for one in again):
            continue  # what was put right or asked again later leaves nothing to expect
        new = _changed_answer(graph, answer, scenario.units)
        if new == [answer]:
            continue
        answers = [*scenario.answers[:number], *new, *later]
        yield number, scenario.model_copy(update={"answers": answers})


def unnoticed(name: str, some: Iterable[Changed]) -> list[str]:
    """The answers whose change leaves all as the scenario expects it, by their blocks."""
    answers = shipped(name).answers
    return [
        f"{answers[number].at} (answer {number + 1})"
        for number, other in some
        if gone_on_with(name, number, other).met
    ]


def _changed_answer(graph: Graph, answer: AnswerShape, units: str) -> list[AnswerShape]:
    """The answer otherwise; none where it is a step that is left out; itself for a note, and where a job is taken up
    again: the answer that is changed then is changed as well before the end."""
    if answer.resolve is not None:
        other = RESOLUTIONS[(RESOLUTIONS.index(answer.resolve) + 1) % 3]
        return [answer.model_copy(update={"resolve": other})]
    if answer.report is not None:
        other = CUT_REPORTS[(CUT_REPORTS.index(answer.report) + 1) % 3]
        return [answer.model_copy(update={"report": other})]
    if answer.note is not None or answer.take_up is not None:
        return [answer]
    if answer.yes is not None:
        return [answer.model_copy(update={"yes": not answer.yes})]
    for key in ("value", "revise"):
        text = getattr(answer, key)
        if text is not None:
            at = occurrence_of(graph, answer.at)
            assert at is not None
            fact = graph.facts[graph.nodes[at[0]].body["fact"]]
            return [answer.model_copy(update={key: _another(fact, text, units)})]
    return []


def _another(fact: Fact, text: str, units: str) -> str:
    """Another answer that the fact takes."""
    value = fact.read(text, units)
    if fact.options:
        labels = [*fact.options, *([UNSURE] if fact.unsure else [])]
        return labels[(labels.index(str(value)) + 1) % len(labels)]
    if fact.kind == "count" and isinstance(value, int):
        return str(value - 1 if value == fact.high else value + 1)
    if isinstance(value, Quantity):
        low, high = fact.low, fact.high
        other = high if value == low else low
        if isinstance(other, Quantity) and isinstance(high, Quantity):
            return writing(other)
    return f"{text} too"
