"""Rules of ends and loops: from everywhere there is a way out, and each end says how the job stands."""

import re
from collections.abc import Iterator
from typing import ClassVar

from guide.procedure import schema
from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR, WARNING, Finding
from guide.procedure.graph import Graph, Node
from guide.procedure.load import Loaded

REFUSING = re.compile(
    r"\b(do not|don't|must not|may not|cannot|will not|(drill|punch|cut|turn|touch) nothing"
    r"|(call|fetch|ask) the foreman|begin again)\b|\bstop[.:]",
    re.IGNORECASE,
)
"""Words of an end that leave the work undone."""
GOING_ON = re.compile(r"\bgo (straight )?on with\b", re.IGNORECASE)
"""Words of an end whose work is done in another procedure: the fault is found, and the leak mended there."""


class NoEnd(Rule):
    """The run can fall off the end of the steps.

    The record must say how the job ended: finished, refused, or made safe and handed over. Only a part
    that others include, which says so with `counts_on`, may simply stop.

    Do: finish every way with an `end` block, or write `counts_on: []` where this is a part.

    Fails:

        steps:   # here
          - do: {id: cover, text: Fit the cover.}

    Passes:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "no-end"
    level: ClassVar[str] = ERROR


class Stranded(Rule):
    """From a block there is a case in which no answer leads to an end.

    The person would go round and round a loop and could only stop by making the job safe. Usually a `go`
    leads back before a check whose fact is not asked again on the way.

    Do: ask again inside the loop, or give the failure a way on, such as an end.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 54 in, step: 1/16 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
        steps:
          - ask: {id: how-wide, fact: width}
          - work: {id: spring, fact: size}   # here
          - check:
              id: body-has-it
              fact: size
              limit: 2 to 4
              why: This body has EN sizes 2 to 4.
              otherwise: {go: spring}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 54 in, step: 1/16 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
        steps:
          - ask: {id: how-wide, fact: width}
          - work: {id: spring, fact: size}
          - check:
              id: body-has-it
              fact: size
              limit: 2 to 4
              why: This body has EN sizes 2 to 4.
              otherwise: {go: how-wide}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "stranded"
    level: ClassVar[str] = ERROR
    message: ClassVar[str] = (
        "From “{id}” there is a case in which no answer leads to an end; give it a way out."
    )


class FinishedInPart(Rule):
    """A part ends the whole job as finished.

    An `end` in a part ends the procedure that includes it, with all the parts behind it undone. As a refusal that
    is what it is for; as `finished` it writes into the record that the job is complete.

    Do: write `outcome: refused`, or let the part simply stop and have the procedure go on. Where the job is
    complete at that point whichever procedure includes the part, accept the finding, with the reason.

    Fails:

        facts:
          hangs: {yesno: {}, ask: Does the leaf swing free?}
        counts_on: []
        steps:
          - ask: {id: swings, fact: hangs}
          - end: {id: door-first, when: {hangs: no}, outcome: finished, text: Have the leaf rehung.}   # here

    Passes:

        facts:
          hangs: {yesno: {}, ask: Does the leaf swing free?}
        counts_on: []
        steps:
          - ask: {id: swings, fact: hangs}
          - end: {id: door-first, when: {hangs: no}, outcome: refused, text: Have the leaf rehung.}
    """

    code: ClassVar[str] = "finished-in-part"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” ends the whole job as finished from within a part; write refused, or let the part stop."
    )

    @classmethod
    def in_facts(cls, loaded: Loaded) -> Iterator[Finding]:
        """Each end of outcome `finished` in a file that has `counts_on`."""
        for source in loaded.sources.values():
            shape = source.shape
            if isinstance(shape, schema.ProcedureShape) and "counts_on" in shape.model_fields_set:
                for path, end in ends_in(shape.steps, ("steps",)):
                    if end.outcome == "finished":
                        message = cls.message.format(id=end.id)
                        yield Finding(
                            source.shown, *source.mark(path), cls.code, cls.level, message
                        )


class NeverFinished(Rule):
    """No way through a procedure ends as finished.

    Every door is refused or made safe, the good ones too; mostly the last `end` has the wrong outcome.

    Do: write `outcome: finished` where the work is done.

    Fails:

        steps:   # here
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: refused, text: The closer is fitted.}

    Passes:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished, text: The closer is fitted.}
    """

    code: ClassVar[str] = "never-finished"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = False
    message: ClassVar[str] = "No way through ends as finished; mend the outcome of the last end."

    @classmethod
    def in_facts(cls, loaded: Loaded) -> Iterator[Finding]:
        """A whole procedure that has ends, and none of outcome `finished` in any file."""
        shape = loaded.root.shape
        if not isinstance(shape, schema.ProcedureShape) or "counts_on" in shape.model_fields_set:
            return
        outcomes = [
            end.outcome
            for source in loaded.sources.values()
            if isinstance(source.shape, schema.ProcedureShape)
            for _, end in ends_in(source.shape.steps, ("steps",))
        ]
        if loaded.whole and outcomes and "finished" not in outcomes:
            mark = loaded.root.mark(("steps",), key=True)
            yield Finding(loaded.root.shown, *mark, cls.code, cls.level, cls.message)


class FinishedRefusing(Rule):
    """An end is called finished, and its words refuse the work.

    “Drill nothing”, “do not”, “cannot”, “stop”, “call the foreman”, “begin again”: whoever reads the record sees a
    finished job, and the door has no closer. An end that says which procedure to go on with is left alone.

    Do: write `outcome: refused`, or mend the words.

    Fails:

        facts:
          fits: {yesno: {}, ask: Does the closer fit?}
        steps:
          - ask: {id: fits-it, fact: fits}
          - end: {id: not-this, when: {fits: no}, outcome: finished, text: Drill nothing. Ask for another.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          fits: {yesno: {}, ask: Does the closer fit?}
        steps:
          - ask: {id: fits-it, fact: fits}
          - end: {id: not-this, when: {fits: no}, outcome: refused, text: Drill nothing. Ask for another.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "finished-refusing"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” is finished, and its words say “{detail}”; write refused, or mend the words."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each end of outcome `finished` with words that leave the work undone."""
        for node in graph.nodes:
            if node.kind == "end" and node.body.get("outcome") == "finished":
                words = _refusing(node)
                if words:
                    message = cls.message.format(id=node.id, detail=words)
                    yield Finding(node.file, node.line, node.column, cls.code, cls.level, message)


def _refusing(node: Node) -> str:
    """The words that refuse; empty where there are none, or where another procedure goes on."""
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


RULES = (NoEnd, Stranded, FinishedInPart, NeverFinished, FinishedRefusing)
