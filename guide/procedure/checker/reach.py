"""Reach: every block can be come to, and from every block the run can end."""

from collections.abc import Iterator

from guide.procedure.findings import ERROR, Finding
from guide.procedure.graph import Graph


def check_reach(graph: Graph) -> Iterator[Finding]:
    """Blocks that no way leads to, and blocks from which no end can be reached."""
    if not graph.nodes:
        return
    reached = {0}
    todo = [0]
    while todo:
        for edge in graph.nodes[todo.pop()].edges:
            if edge.target >= 0 and edge.target not in reached:
                reached.add(edge.target)
                todo.append(edge.target)
    before: dict[int, list[int]] = {}
    for node in graph.nodes:
        for edge in node.edges:
            before.setdefault(edge.target, []).append(node.index)
    ending = {node.index for node in graph.nodes if node.kind == "end"}
    todo = list(ending)
    while todo:
        for index in before.get(todo.pop(), ()):
            if index not in ending:
                ending.add(index)
                todo.append(index)
    for node in graph.nodes:
        if node.index not in reached and node.id != "end-of-part":
            yield Finding(
                node.file,
                node.line,
                node.column,
                "unreachable",
                ERROR,
                f"No way leads to “{node.id}”; the block before it always ends or jumps.",
            )
        elif node.index not in ending:
            yield Finding(
                node.file,
                node.line,
                node.column,
                "no-way-out",
                ERROR,
                f"From “{node.id}” no end can be reached; give the loop a way out.",
            )
