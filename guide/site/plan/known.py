"""What is known of a door before anybody stands at it: the values of facts, and three-valued conditions over them."""

from collections.abc import Mapping
from dataclasses import dataclass, field

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
    moved,
)
from guide.procedure.facts import NONE, UNSURE, Fact, Value, writing
from guide.procedure.graph import Graph
from guide.procedure.worked_facts import Memo, memo_key, read_worked, work_out
from guide.trade.sheet.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Planning:
    """What all doors of a plan share."""

    graph: Graph
    units: str
    """"inch" or "metric"."""
    sheet: Sheet | None = None
    own: Mapping[str, str] = field(default_factory=dict)
    """A setting for each of `worked_facts.RUNS_OWN`."""
    memo: Memo = field(default_factory=dict)
    """Results of computations: doors of one building are much alike."""


class Known:
    """The values of one door's facts, computed ones too where every input is known."""

    def __init__(
        self, planning: Planning, values: Mapping[str, Value], settled: Mapping[str, Value]
    ) -> None:
        """`settled` are computed facts that are sure although not every input of them is known."""
        self._planning = planning
        self._values: dict[str, Value | None] = {**settled, **values}

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
        if isinstance(condition, Is):
            return value in condition.labels
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
        found = [self.holds(part) for part in condition.parts]
        if deciding in found:
            return deciding
        return None if None in found else not deciding

    def _against(self, condition: Against, value: Value) -> bool | None:
        other = self.value(condition.other)
        if other is None:
            return None
        if isinstance(value, str) or isinstance(other, str):
            return False
        return compare(value, condition.operator, moved(other, condition.offset))
