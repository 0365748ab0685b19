"""The model of a flow chart: the graph's nodes as boxes and its edges as arrows, without a format."""

from dataclasses import dataclass, field

from guide.measures import without_braces
from guide.procedure.conditions import Condition, said
from guide.procedure.graph import Graph, Node
from guide.text import printable

LONGEST = 90
"""Characters of a box's text; a chart shows the way, not the words."""

DECIDES = ("by_case", "when", "repeat", "check")


@dataclass(frozen=True, slots=True)
class Box:
    """One block."""

    index: int
    kind: str
    """The block's kind; `when` for the condition of a block."""
    name: str
    """The block's id within its file."""
    group: str
    """The ids of the includes it came by, joined by `/`; empty for the file itself."""
    text: str
    cuts: bool
    depth: int
    """The number of branches, loops and conditions around it."""

    @property
    def decides(self) -> bool:
        """Whether the way on depends on what is known here."""
        return self.kind in DECIDES


@dataclass(frozen=True, slots=True)
class Arrow:
    """A way from one box to another."""

    source: int
    target: int
    label: str
    """The case in which it is followed; empty if there is no other way."""

    @property
    def back(self) -> bool:
        """Whether it leads to an earlier box, or to itself."""
        return self.target <= self.source


@dataclass(slots=True)
class Picture:
    """Everything on a chart."""

    title: str
    boxes: list[Box] = field(default_factory=list)
    arrows: list[Arrow] = field(default_factory=list)


def picture_of(graph: Graph) -> Picture:
    """The chart of a compiled procedure; a jump is an arrow, not a box."""
    picture = Picture(printable(graph.title))
    depths = _depths(graph)
    for node in graph.nodes:
        if node.kind == "go":
            continue
        group, _, name = node.id.rpartition("/")
        picture.boxes.append(
            Box(
                node.index,
                node.kind,
                printable(name),
                printable(group),
                printable(_short(_text(graph, node))),
                bool(node.body.get("cuts")),
                depths[node.index],
            )
        )
        for edge in node.edges:
            target = _behind_jumps(graph, edge.target)
            picture.arrows.append(
                Arrow(node.index, target, printable(_label(graph, node, edge.label, edge.guard)))
            )
    return picture


def _behind_jumps(graph: Graph, index: int) -> int:
    """The node that jumps lead to in the end."""
    for _ in graph.nodes:
        node = graph.nodes[index]
        if node.kind != "go":
            break
        index = node.edges[0].target
    return index


def _depths(graph: Graph) -> list[int]:
    steps = [0] * (len(graph.nodes) + 1)
    inside = [edge.inside for node in graph.nodes for edge in node.edges]
    inside += [(loop.low, loop.high) for loop in graph.loops if loop.at_most]
    for low, high in inside:
        steps[low] += 1
        steps[high] -= 1
    depths, depth = [], 0
    for step in steps[:-1]:
        depth += step
        depths.append(depth)
    return depths


def _text(graph: Graph, node: Node) -> str:
    body = node.body
    if node.kind == "when":
        return _words(graph, node.edges[0].guard)
    if node.kind == "turn":
        options = graph.facts[body["turn"]].options.values()
        return f"in turn: {', '.join(one.text for one in options)}"
    if node.kind == "repeat":
        return f"until {_words(graph, graph.untils.get(node.index))}"
    if node.kind == "check":
        return _words(graph, graph.limits.get(node.index))
    if node.kind == "hold":
        return f"read back {', '.join(name.replace('_', ' ') for name in node.shows)}"
    fact = graph.facts.get(body.get("fact", ""))
    if "text" in body:
        return without_braces(str(body["text"]))
    if fact is not None:
        return without_braces(fact.ask) or fact.name.replace("_", " ")
    return str(body.get("outcome", ""))


def _label(graph: Graph, node: Node, label: str, guard: Condition | None) -> str:
    if node.kind == "by_case":
        return _short(f"{label}: {_words(graph, guard)}")
    if node.kind == "repeat" and label == "again" and graph.takes_turns(node.edges[1].loop):
        return "the next"
    if node.kind == "repeat" and label == "again":
        tries = next(
            loop.at_most for loop in graph.loops if loop.high == node.index and loop.at_most
        )
        return f"again, at most {tries} times"
    names = {"until": "holds", "spent": "still not", "next": "", "go": ""}
    return names.get(label, label)


def _words(graph: Graph, condition: Condition | None) -> str:
    return said(condition, graph.facts).replace("_", " ") if condition is not None else ""


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= LONGEST else text[: LONGEST - 1].rstrip() + "…"
