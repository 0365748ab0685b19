"""Rules of ends and loops: from everywhere there is a way out."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR


class NoEnd(Rule):
    """The run can fall off the end of the steps.

    The record must say how the job ended: finished, refused, or made safe and handed over. Only a part
    that others include, which says so with `given`, may simply stop.

    Do: finish every way with an `end` block, or write `given: []` where this is a part.

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
          - check: {id: body-has-it, fact: size, limit: 2 to 4, otherwise: {go: spring}}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 54 in, step: 1/16 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
        steps:
          - ask: {id: how-wide, fact: width}
          - work: {id: spring, fact: size}
          - check: {id: body-has-it, fact: size, limit: 2 to 4, otherwise: {go: how-wide}}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "stranded"
    level: ClassVar[str] = ERROR
    message: ClassVar[str] = (
        "From “{id}” there is a case in which no answer leads to an end; give it a way out."
    )


RULES = (NoEnd, Stranded)
