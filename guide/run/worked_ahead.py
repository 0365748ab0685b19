"""The run seen a little further than where it is: what the next steps of a card will say, computed without a journal.

A run computes a value when it comes to the step that shows it. A card shows that step earlier, so the value is worked
out for the look alone; the run computes and journals it when it gets there.
"""

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING

from guide.procedure.facts import Fact
from guide.procedure.worked_facts import (
    RUNS_OWN,
    Env,
    Worked,
    memo_key,
    read_worked,
    work_out,
)
from guide.run.state import State

if TYPE_CHECKING:
    from guide.trade.sheet.sheet import Sheet


def ahead_of(state: State) -> State:
    """The same state, in which every value that follows from the answers so far can be read."""
    return replace(state, env=_Ahead(state))


class _Ahead(Env):
    """An environment that works out what the journal does not have yet, into a memo of its own."""

    def __init__(self, state: State) -> None:
        now = state.env.copied(dict(state.memo))
        super().__init__(now.facts, now.memo, now.asked)
        self.taken = now.taken
        self._state = state

    def result(self, fact: Fact) -> Worked:
        """The result, worked out if there is none yet. Raises UnknownFact for an input."""
        inputs = self.inputs(fact)
        key = memo_key(fact.name, inputs)
        if key not in self.memo:
            state, sheet = self._state, self._sheet
            own = {setting: str(state.about.get(setting, "")) for setting in RUNS_OWN}
            body = work_out(fact, inputs, sheet, own, state.units)
            self.memo[key] = read_worked(fact, body)
        return self.memo[key]

    @cached_property
    def _sheet(self) -> "Sheet | None":
        if self._state.sheet is None:
            return None
        from guide.trade.sheet.sheet import Sheet  # only a run with a sheet pays for it

        return Sheet.from_json(self._state.sheet)
