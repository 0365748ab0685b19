"""The same procedure with one value a cell: fewer cases than there are, and every one of them real.

Where a computed fact cannot be tabled, the proof reckons with any value its computation may give, and its
first counter-example may be one that no door has. Among samples every value is computed.
"""

from functools import cache

from guide.procedure.checker.diagram import EVERYTHING, NOTHING
from guide.procedure.checker.flow import Flow, Question
from guide.procedure.checker.model import Model
from guide.procedure.checker.reach import Reach
from guide.procedure.checker.trace import Stop, way_to
from guide.procedure.graph import Graph


class Samples:
    """Which cases come where, if each fact takes one value of each of its cells. Raises SetsTooLarge."""

    def __init__(self, graph: Graph, bound: int) -> None:
        self.model = Model(graph, bound, sampled=True)
        self.reach = Reach(Flow(self.model), refusing=True)

    def way_to_question(self, index: int, question: Question) -> list[Stop] | None:
        """A way to a node that breaks the property; None where no sample does."""
        flow = self.reach.flow
        for same in flow.passages[index].questions:
            if (same.code, same.detail) == (question.code, question.detail):
                cases = self.reach.cases[index]
                there = flow.written(index, cases) if same.after else cases
                bad = flow.sets.both(there, same.bad)
                if bad != NOTHING:
                    return way_to(self.reach, index, bad, after=same.after)
        return None

    def way_to_cases(self, index: int, model: Model, cases: int) -> list[Stop] | None:
        """A way to a node in one of these cases of the proof's own model; None where no sample is one."""
        wanted = self.model.sets.both(self.reach.cases[index], self._taken_over(model, cases))
        return None if wanted == NOTHING else way_to(self.reach, index, wanted, after=False)

    def _taken_over(self, model: Model, cases: int) -> int:
        """A set of the proof's own model as a set of samples: a free value becomes the computed one."""
        sets = self.model.sets

        @cache
        def over(a: int) -> int:
            if a in (NOTHING, EVERYTHING):
                return a
            found = NOTHING
            for value, kid in enumerate(model.sets.kids[a]):
                here = self.model.value_set(model.variables[model.sets.levels[a]], value)
                found = sets.either(found, sets.both(here, over(kid)))
            return found

        return over(cases)
