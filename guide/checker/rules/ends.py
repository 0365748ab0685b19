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
GOING_ON = re.compile(r"\bgo (straight )?on with\b", re.IGNORECASE)
"""Words of an end whose work is done in another procedure: the fault is found here, and the leak repaired there."""


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
    """The words that refuse; empty if there are none, or if another procedure continues."""
    words = " ".join(node.body.get(key, "") for key in ("text", "say"))
    found = REFUSING.search(words)
    return found[0].rstrip(".:") if found and not GOING_ON.search(words) else ""


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
        if block.repeat is not None:
            yield from ends_in(block.repeat.steps, (*here, "steps"))
        failing = block.check or block.repeat
        if failing is not None:
            yield from ends_in(failing.otherwise.steps, (*here, "otherwise", "steps"))
