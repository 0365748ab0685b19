"""The ways through a procedure that a door's known facts leave open.

Loops are gone through once: what is done again is not planned. A block is certain if every way to a finished job goes
through it. The procedure is followed part by part (`known.Part`), since few facts decide each of them.
"""

from collections.abc import Container, Iterator
from dataclasses import dataclass

from guide.procedure.graph import Node
from guide.procedure.outcomes import ACHIEVED
from guide.site.plan.known import Fork, Known, Part, Planning
from guide.site.plan.stretch import Stretch


@dataclass(frozen=True)
class Way:
    """The ways that are open through the whole procedure."""

    stretches: tuple[Stretch, ...]
    """Empty if no way leads to a finished job."""
    stopped: Node | None
    """Where the job ends before it is finished, if no way leads there."""

    @property
    def nodes(self) -> list[Node]:
        """Every block on some way to a finished job, in order."""
        return [node for one in self.stretches for node in one.nodes]

    @property
    def certain(self) -> frozenset[int]:
        """Those that every way goes through, by index."""
        return frozenset(index for one in self.stretches for index in one.certain)

    @property
    def least(self) -> int:
        """Minutes of the shortest way."""
        return sum(one.least for one in self.stretches)

    @property
    def most(self) -> int:
        """Minutes of the longest way, nothing done twice."""
        return sum(one.most for one in self.stretches)

    @property
    def asked(self) -> list[str]:
        """The facts that every way asks, each once, in order."""
        return list(dict.fromkeys(name for one in self.stretches for name in one.asked))

    @property
    def tools(self) -> list[str]:
        """The tools of the steps that every way has, each once."""
        return list(dict.fromkeys(tool for one in self.stretches for tool in one.tools))

    @property
    def perhaps(self) -> list[str]:
        """The tools of the other steps."""
        others = dict.fromkeys(tool for one in self.stretches for tool in one.all_tools)
        certain = set(self.tools)
        return [tool for tool in others if tool not in certain]


def way_of(planning: Planning, known: Known) -> Way:
    """The ways through the procedure."""
    found = []
    for part in planning.parts:
        key = (part.first, *(known.value(name) for name in part.facts))
        stretch = planning.ways.get(key)
        if stretch is None:
            stretch = planning.ways[key] = _stretch(planning, part, known)
        if stretch.stopped is not None:
            return Way((), stretch.stopped)
        found.append(stretch)
    return Way(tuple(found), None)


def _stretch(planning: Planning, part: Part, known: Known) -> Stretch:
    nodes = planning.graph.nodes
    edges = _reached(planning, part, known)
    minutes = _minutes(planning, part, edges)
    if part.first not in minutes:
        ends = [index for index in edges if index in planning.ends]
        return Stretch((), frozenset(), 0, 0, nodes[max(ends, default=max(edges))])
    useful = tuple(nodes[index] for index in edges if index in minutes)
    return Stretch(useful, _certain(part, edges, minutes), *minutes[part.first], None)


def _reached(planning: Planning, part: Part, known: Known) -> dict[int, list[int]]:
    """Every node of a part that may be come to, in order, each with those that it may lead on to."""
    found: dict[int, list[int]] = {}
    reached = {part.first}
    for index in range(part.first, part.after):
        if index in reached:
            forks = planning.forks[index]
            onward = forks if isinstance(forks, list) else list(_open(forks, known))
            found[index] = onward
            reached.update(onward)
    return found


def _open(fork: Fork, known: Known) -> Iterator[int]:
    """The nodes that a fork may lead on to. The first case that holds is the way on."""
    for target, guard in fork:
        held = known.holds(guard)
        if held is not False:
            yield target
        if held:
            return


def _minutes(
    planning: Planning, part: Part, edges: dict[int, list[int]]
) -> dict[int, tuple[int, int]]:
    """The least and the most minutes from each node to the next part or a finished job, or if no way leads there to one
    with something left to do; without the nodes from which none leads there."""
    ends = {index: planning.ends[index] for index in edges if index in planning.ends}
    goals = [index for index, outcome in ends.items() if outcome == "finished"]
    if any(part.after in onward for onward in edges.values()):
        goals.append(part.after)
    goals = goals or [index for index, outcome in ends.items() if outcome in ACHIEVED]
    found = dict.fromkeys(goals, (0, 0))
    for index in reversed(edges):
        onward = [found[target] for target in edges[index] if target in found]
        if len(onward) == 1:
            least, most = onward[0]
        elif onward:
            least, most = min(one for one, _ in onward), max(one for _, one in onward)
        else:
            continue
        own = planning.minutes[index]
        found[index] = least + own, most + own
    return found


_END = 1_000_000
"""Past every node: after an end nothing is certain."""


def _certain(part: Part, edges: dict[int, list[int]], useful: Container[int]) -> frozenset[int]:
    """The nodes that no way jumps over, nor ends before."""
    found = set()
    furthest = part.first
    for index, onward in edges.items():
        if index not in useful:
            continue
        if furthest <= index:
            found.add(index)
        ahead = [target for target in onward if target in useful]
        furthest = max(furthest, *ahead) if ahead else _END
    return frozenset(found)
