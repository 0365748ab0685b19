"""Rules of ends and loops: each end says how the job ended, and a procedure can be finished."""

import re
from collections.abc import Iterator

from guide.checker.manual import at_block, at_part
from guide.files.findings import Finding
from guide.procedure import schema
from guide.procedure.graph import Graph, Node
from guide.procedure.load import Loaded
from guide.procedure.outcomes import ACHIEVED

REFUSING = re.compile(
    r"\b(do not|don't|must not|may not|cannot|will not|(drill|punch|cut|turn|touch) nothing"
    r"|(call|fetch|ask) the foreman|begin again)\b|\bstop[.:]",
    re.IGNORECASE,
)
"""Words of an end that leave the work undone."""


def finished_in_part(loaded: Loaded) -> Iterator[Finding]:
    """Each end of outcome `finished` in a file that has `counts_on`."""
    for source in loaded.sources.values():
        shape = source.shape
        if isinstance(shape, schema.ProcedureShape) and "counts_on" in shape.model_fields_set:
            for path, end in ends_in(shape.steps, ("steps",)):
                if end.outcome == "finished":
                    message = (
                        f"“{end.id}” ends the whole job as finished from within a part; "
                        "write not-started, or let the part stop."
                    )
                    yield at_part(source, path, "finished-in-part", message)


def never_finished(loaded: Loaded) -> Iterator[Finding]:
    """A whole procedure that has ends, and none that comes to its purpose (`ACHIEVED`) in any file."""
    shape = loaded.root.shape
    if not isinstance(shape, schema.ProcedureShape) or "counts_on" in shape.model_fields_set:
        return
    outcomes = [
        end.outcome
        for source in loaded.sources.values()
        if isinstance(source.shape, schema.ProcedureShape)
        for _, end in ends_in(source.shape.steps, ("steps",))
    ]
    if loaded.whole and outcomes and not set(outcomes) & set(ACHIEVED):
        message = "No way through ends as finished, left-to-do or found; correct the outcome of the last end."
        yield at_part(loaded.root, ("steps",), "never-finished", message, key=True)


def finished_refusing(graph: Graph) -> Iterator[Finding]:
    """Each end of outcome `finished` with words that leave the work undone."""
    for node in graph.nodes:
        if node.kind == "end" and node.body.get("outcome") == "finished":
            words = _refusing(node)
            if words:
                message = (
                    f"“{node.id}” is finished, and its words say “{words}”; "
                    "write not-started, or correct the words."
                )
                yield at_block(node, "finished-refusing", message)


def _refusing(node: Node) -> str:
    """The words that refuse; empty if there are none, or if the end leads to another procedure."""
    words = " ".join(node.body.get(key, "") for key in ("text", "say"))
    found = REFUSING.search(words)
    return found[0].rstrip(".:") if found and "leads_to" not in node.body else ""


def ends_in(
    blocks: list[schema.AnyBlock], path: tuple[str | int, ...]
) -> Iterator[tuple[tuple[str | int, ...], schema.EndShape]]:
    """Every end of these blocks, however deep, with its place."""
    for index, block in enumerate(blocks):
        here = (*path, index, block.kind)
        if block.end is not None:
            yield here, block.end
        if block.by_case is not None:
            for number, branch in enumerate(block.by_case.cases):
                yield from ends_in(branch.steps, (*here, "cases", number, "steps"))
        inner = block.repeat or block.each
        if inner is not None:
            yield from ends_in(inner.steps, (*here, "steps"))
        failing = block.check or block.repeat
        if failing is not None:
            yield from ends_in(failing.otherwise.steps, (*here, "otherwise", "steps"))


def started_already(graph: Graph) -> Iterator[Finding]:
    """Each end of outcome `not-started` that some way comes to after a cut: that work is not undone by an end.

    What an earlier turn cut is of another thing, of which such an end says nothing."""
    after: list[Node | None] = [None] * len(graph.nodes)
    changed = True
    while changed:
        changed = False
        for node in graph.nodes:
            cut = node if node.body.get("cuts") else after[node.index]
            if node.kind == "turn":
                cut = None
            for edge in node.edges:
                if cut is not None and after[edge.target] is None:
                    after[edge.target] = cut
                    changed = True
    for node in graph.nodes:
        cut = after[node.index]
        if node.kind == "end" and node.body.get("outcome") == "not-started" and cut is not None:
            message = (
                f"“{node.id}” is not-started, and can come after the cut “{cut.id}”; "
                "write made-safe or left-to-do."
            )
            yield at_block(node, "started-already", message)


_SAYS = {
    "left-to-do": re.compile(r"\bleft to do\b", re.IGNORECASE),
    "made-safe": re.compile(r"\b(make|leave|made|left) (it|\w+ \w+) safe\b", re.IGNORECASE),
    "finished": re.compile(r"(^|[.:] )finished\b(?! with)", re.IGNORECASE),
}
"""The outcomes that the words of an end can name."""


def outcome_against_words(graph: Graph) -> Iterator[Finding]:
    """Each end whose id or words name another outcome than its own."""
    for node in graph.nodes:
        if node.kind == "end":
            own = node.id.rpartition("/")[2].replace("-", " ")
            texts = (own, node.body.get("text", ""), node.body.get("say", ""))
            told = {name for name, words in _SAYS.items() if any(map(words.search, texts))}
            if told and node.body.get("outcome") not in told:
                message = (
                    f"“{node.id}” has the outcome {node.body.get('outcome')}, and its words say {min(told)}; "
                    "correct one of the two."
                )
                yield at_block(node, "outcome-against-words", message)


def stage_twice(loaded: Loaded) -> Iterator[Finding]:
    """Each stage of the work that begins again after another one has begun."""
    shape = loaded.root.shape
    begun: list[str] = []
    for index, block in enumerate(shape.steps if isinstance(shape, schema.ProcedureShape) else ()):
        stage = block.include.stage if block.include is not None else None
        if block.include is None or stage is None or begun[-1:] == [stage]:
            continue
        if stage in begun:
            message = (
                f"The stage “{stage}” begins again at “{block.include.id}”, after “{begun[-1]}”; "
                "put its parts next to each other, or give it another name."
            )
            yield at_part(loaded.root, ("steps", index, "include", "stage"), "stage-twice", message)
        begun.append(stage)
