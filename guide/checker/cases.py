"""What the parts of the proof ask of the model of all cases, so that the model may import them."""

from collections.abc import Callable, Mapping, Sequence
from typing import Protocol

from guide.checker.diagram import Diagrams
from guide.checker.domains import Cell
from guide.checker.intervals import Interval
from guide.procedure.facts import Value
from guide.procedure.graph import Graph


class Cases(Protocol):
    """The model of all cases (`CaseModel` in `model.py`)."""

    graph: Graph
    sets: Diagrams

    @property
    def ends(self) -> Mapping[str, Interval]:
        """The interval of each fact."""

    @property
    def cells(self) -> Mapping[str, Sequence[Cell]]:
        """The cells of each fact, in order."""

    def known(self, name: str) -> int:
        """The cases in which a fact has a value."""

    def cell_set(self, name: str, wanted: Callable[[Value], bool]) -> int:
        """The cases in which a fact has a value of a cell whose sample is wanted."""

    def by_rounds(self, name: str) -> bool:
        """Whether a computation reads every round of a loop."""
