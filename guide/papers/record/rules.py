"""The part of a record that checks the final readings against the rules of the run's setting."""

import re

from guide.procedure.conditions import UnknownFact
from guide.procedure.worked_facts import NeedsWork
from guide.run.state import State

COMPUTATION, PART = "access-and-fire", "verdict"
PASS, FAIL, NOT_MEASURED, NOT_APPLICABLE = "pass", "fail", "not measured", "not applicable"
DECIDES = "authority decides"
_VERDICT = re.compile(
    rf"(?P<rule>[^:]{{1,60}}): (?P<verdict>{PASS}|{FAIL}|{DECIDES}|{NOT_MEASURED}|{NOT_APPLICABLE})\. (?P<said>.*)"
)
"""A line of the computation's working; `tests/papers/test_record.py` looks at each of them."""
_SOURCE = re.compile(r" \([^()]*(?:\([^()]*\)[^()]*)*\)$")


def rules_data(state: State) -> list[str]:
    """A line for each rule, as the run worked it out; empty if it never came to that."""
    for fact in state.graph.facts.values():
        if fact.computation == COMPUTATION and fact.part == PART:
            try:
                return list(state.env.result(fact).working)
            except (UnknownFact, NeedsWork):
                continue
    return []


def verdicts(rules: list[str]) -> list[dict[str, str]]:
    """Each rule with its verdict and what was read, of the lines that have one."""
    return [found.groupdict() for line in rules if (found := _VERDICT.fullmatch(line))]


def without_source(said: str) -> str:
    """What was read, without the rule's citation."""
    return _SOURCE.sub("", said)
