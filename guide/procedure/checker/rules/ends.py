"""Rules of ends and loops: from everywhere there is a way out."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR


class NoEnd(Rule):
    """The run can fall off the end of the steps.

    The record must say how the job ended: finished, refused, or made safe and handed over. Only a part that
    others include, which says so with `given`, may simply stop.

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
          fire: {yesno: {}, ask: Is it a fire door?}
          plain: {yesno: {}, ask: Is its closer's spring marked?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: look, text: Look at the spring's mark.}   # here
          - check:
              id: marked
              fact: plain
              limit: yes
              otherwise:
                steps:
                  - do: {id: once, when: {fire: yes}, text: Ask the owner.}
          - choose:
              id: by-fire
              branches:
                - {id: rated, when: {fire: yes}, steps: [{do: {id: again, text: Look again.}}]}
                - {id: not-rated, when: {fire: no}, steps: [{end: {id: done, outcome: finished}}]}
          - check: {id: never, fact: plain, limit: yes, otherwise: {go: look}}
          - check: {id: nor-this, fact: plain, limit: no, otherwise: {go: look}}
          - end: {id: shut, outcome: finished}

    Passes:

        facts:
          plain: {yesno: {}, ask: Is its closer's spring marked?}
        steps:
          - do: {id: look, text: Look at the spring's mark.}
          - check: {id: marked, fact: plain, limit: yes, otherwise: {go: look}}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "stranded"
    level: ClassVar[str] = ERROR
    message: ClassVar[str] = (
        "From “{id}” there is a case in which no answer leads to an end; give it a way out."
    )


RULES = (NoEnd, Stranded)
