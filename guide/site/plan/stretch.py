"""The ways that are open through one part of a procedure."""

from dataclasses import dataclass
from functools import cached_property

from guide.procedure.graph import Node


@dataclass(frozen=True)
class Stretch:
    """The ways that are open through one part of the procedure."""

    nodes: tuple[Node, ...]
    """Every block on some way on, or to a finished job, in order; empty if no way leads there."""
    certain: frozenset[int]
    """Those that every way goes through, by index."""
    least: int
    """Minutes of the shortest way: what the procedure gives for its steps."""
    most: int
    """Minutes of the longest way, nothing done twice."""
    stopped: Node | None
    """Where the job ends before it is finished, if no way leads on: the furthest that it can get."""

    @cached_property
    def asked(self) -> tuple[str, ...]:
        """The facts that every way asks."""
        asking = (node for node in self.nodes if node.kind in ("ask", "check"))
        return tuple(node.body["fact"] for node in asking if node.index in self.certain)

    @cached_property
    def tools(self) -> tuple[str, ...]:
        """Those of the steps that every way has."""
        certain = (node for node in self.nodes if node.index in self.certain)
        return tuple(tool for node in certain for tool in node.body.get("tools", ()))

    @cached_property
    def all_tools(self) -> tuple[str, ...]:
        """Those of every step."""
        return tuple(tool for node in self.nodes for tool in node.body.get("tools", ()))
