"""Rules of questions that are answered blind."""

from collections.abc import Iterator

from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.compiler import TEXT_KEYS
from guide.procedure.graph import Graph, Node
from guide.text import names_in


def blind_shown(graph: Graph) -> Iterator[Finding]:
    """Each blind question whose own words show a value that it hides."""
    for node in graph.nodes:
        hidden = graph.hidden_at(node)
        shown = next((name for name in _shown(node) if name in hidden), "") if hidden else ""
        if shown:
            message = f"“{node.id}” is answered blind and its own words show “{shown}”; take it out of the words."
            yield at_block(node, "blind-shown", message)


def _shown(node: Node) -> list[str]:
    """The facts in the words of a block, in order."""
    texts = [node.body[key] for key in TEXT_KEYS if key in node.body]
    texts += [text for caution in node.body.get("caution", ()) for text in caution.values()]
    return [name for text in texts for name in names_in(text)]
