"""What is known of a door before anybody stands at it: the values of facts, and three-valued conditions over them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from guide.procedure.conditions import (
    Against,
    All,
    AnyOf,
    Between,
    Compare,
    Condition,
    Is,
    IsKnown,
    Not,
    compare,
    facts_of,
    moved,
)
from guide.procedure.facts import NONE, UNSURE, Fact, Value, writing
from guide.procedure.graph import Graph, Node
from guide.procedure.worked_facts import Memo, memo_key, read_worked, work_out
from guide.site.plan.stretch import Stretch
from guide.trade.answer import Answer
from guide.trade.holes.set_out import SettingOut
from guide.trade.sheet.sheet import Sheet

Fork = tuple[tuple[int, Condition], ...]
"""Targets, each with the condition on which it is the way on; the first that holds."""
ALWAYS = All(())


@dataclass(frozen=True)
class Planning:
    """What all doors of a plan share. Doors of one building are much alike, so results are kept."""

    graph: Graph
    units: str
    """"inch" or "metric"."""
    sheet: Sheet | None = None
    own: Mapping[str, str] = field(default_factory=dict)
    """A setting for each of `worked_facts.RUNS_OWN`."""
    memo: Memo = field(default_factory=dict)
    """Results of the procedure's computations."""
    ways: dict[tuple[Value | None, ...], Stretch] = field(default_factory=dict)
    """By the first node of a part and the values of the facts that decide there."""
    holes: dict[tuple[Value | None, ...], SettingOut] = field(default_factory=dict)
    """By the values that the setting-out reads."""
    sizes: dict[tuple[Value | None, ...], tuple[Answer | None, str]] = field(default_factory=dict)
    """By the values that the spring's size is of, the size, or why there is none."""
    low: dict[tuple[Value | None, ...], str] = field(default_factory=dict)
    """By the values that decide how low a closer would hang, why it would hang too low; empty if it would not."""

    @cached_property
    def forks(self) -> list[Fork | list[int]]:
        """Of each node the ways that lead on: all of them, or each with its condition where something decides.

        A check leads on to its first edge where its limit holds, and else to the others.
        """
        return [self._fork(node) for node in self.graph.nodes]

    def _fork(self, node: Node) -> Fork | list[int]:
        onward = [edge for edge in node.edges if edge.target > node.index]
        limit = self.graph.limits.get(node.index) if node.kind == "check" else None
        if limit is not None:
            return tuple(
                (edge.target, limit if edge is node.edges[0] else Not(limit)) for edge in onward
            )
        if all(edge.guard is None for edge in onward):
            return [edge.target for edge in onward]
        return tuple((edge.target, edge.guard or ALWAYS) for edge in onward)

    @cached_property
    def minutes(self) -> list[int]:
        """Of each node."""
        return [int(node.body.get("minutes") or 0) for node in self.graph.nodes]

    @cached_property
    def ends(self) -> dict[int, str]:
        """The outcome of each end, by its index."""
        return {node.index: node.body["outcome"] for node in self.graph.nodes if node.kind == "end"}

    @cached_property
    def first_turns(self) -> dict[str, Value]:
        """Of each fact that says whose turn it is, the first: a plan looks at one leaf."""
        turns = (node.body["turn"] for node in self.graph.nodes if node.kind == "turn")
        return {name: next(iter(self.graph.facts[name].options)) for name in turns}

    @cached_property
    def parts(self) -> list["Part"]:
        """The procedure cut where every job comes by that does not end before; no part without a condition, but the
        last."""
        found = []
        first, furthest, last = 0, 0, len(self.forks)
        for index, onward in enumerate(self.forks):
            if furthest <= index and (facts := self._deciding(first, index)):
                found.append(Part(first, index, facts))
                first = index
            targets = onward if isinstance(onward, list) else [target for target, _ in onward]
            furthest = max([furthest, *targets])
            if self.ends.get(index) == "finished":
                furthest = last  # not every finished job comes by what is after it
        return [*found, Part(first, last, self._deciding(first, last))]

    def _deciding(self, first: int, after: int) -> tuple[str, ...]:
        """Every fact that a condition of those nodes reads."""
        conditions = (
            condition
            for onward in self.forks[first:after]
            if not isinstance(onward, list)
            for _, condition in onward
        )
        return tuple(dict.fromkeys(name for one in conditions for name in facts_of(one)))


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of the procedure that every job goes through from its first node on, unless it ends before."""

    first: int
    after: int
    """The first node of the next part; after the last part the number of nodes."""
    facts: tuple[str, ...]
    """What its conditions read: where these are the same, the same ways are open."""


class Known:
    """The values of one door's facts, computed ones too where every input is known."""

    def __init__(
        self, planning: Planning, values: Mapping[str, Value], settled: Mapping[str, Value]
    ) -> None:
        """`settled` are computed facts that are sure although not every input of them is known."""
        self._planning = planning
        self._values: dict[str, Value | None] = {
            **planning.first_turns,
            **settled,
            **values,
        }

    def value(self, name: str) -> Value | None:
        """The value of a fact; None if it is not known yet."""
        if name not in self._values:
            fact = self._planning.graph.facts.get(name)
            worked = fact is not None and fact.worked
            self._values[name] = self._worked(fact) if fact is not None and worked else None
        return self._values[name]

    def _worked(self, fact: Fact) -> Value | None:
        """A computed fact; None while an input is open, since it may then come out otherwise."""
        if fact.rounds:
            return None
        inputs: dict[str, str] = {}
        for name, filler in fact.using.items():
            if filler.startswith("="):
                inputs[name] = filler[1:].strip()
                continue
            value = self.value(filler)
            if value is None:
                return None
            if not (value in (UNSURE, NONE) and name in fact.optional):
                inputs[name] = writing(value)
        memo, key = self._planning.memo, memo_key(fact.name, inputs)
        if key not in memo:
            body = work_out(
                fact, inputs, self._planning.sheet, self._planning.own, self._planning.units
            )
            memo[key] = read_worked(fact, body)
        return memo[key].value

    def holds(self, condition: Condition) -> bool | None:
        """Whether a condition holds; None if that is not known yet."""
        if isinstance(condition, Is):
            value = self.value(condition.fact)
            return None if value is None else value in condition.labels
        if isinstance(condition, All | AnyOf):
            return self._several(condition)
        if isinstance(condition, Not):
            held = self.holds(condition.part)
            return None if held is None else not held
        if isinstance(condition, IsKnown):
            return None  # known at that block, which depends on what was asked before it
        value = self.value(condition.fact)
        if value is None:
            return None
        if isinstance(condition, Against):
            return self._against(condition, value)
        if isinstance(value, str):
            return False  # `unsure` and `none` are labels: no measure is above or below them
        if isinstance(condition, Between):
            return condition.low <= value <= condition.high  # type: ignore[operator]
        if isinstance(condition, Compare):
            return compare(value, condition.operator, condition.value)
        raise TypeError(condition)

    def _several(self, condition: All | AnyOf) -> bool | None:
        deciding = isinstance(condition, AnyOf)
        found: bool | None = not deciding
        for part in condition.parts:
            held = self.holds(part)
            if held is deciding:
                return deciding
            if held is None:
                found = None
        return found

    def _against(self, condition: Against, value: Value) -> bool | None:
        other = self.value(condition.other)
        if other is None:
            return None
        if isinstance(value, str) or isinstance(other, str):
            return False
        return compare(value, condition.operator, moved(other, condition.offset))
