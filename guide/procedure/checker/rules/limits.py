"""Rules of limits: a reading can meet them and can fail them, and failing leads to something else."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR, WARNING


class LimitConstant(Rule):
    """A limit is met by every answer the fact takes, or by none.

    A check that nothing fails checks nothing; one that nothing passes never lets the job go on.

    Do: mend the limit, or the fact's range.

    Fails:

        facts:
          sweep: {time: {from: 1 s, to: 30 s, step: 0.1 s}, ask: How long from 90 to 12 degrees?}
        steps:
          - check:
              id: slow-enough   # here
              fact: sweep
              limit: ">= 0.5 s"
              why: At least 0.5 s.
              otherwise: {steps: [{end: {id: fast, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          sweep: {time: {from: 1 s, to: 30 s, step: 0.1 s}, ask: How long from 90 to 12 degrees?}
        steps:
          - check:
              id: slow-enough
              fact: sweep
              limit: ">= 5 s"
              why: At least 5 s.
              otherwise: {steps: [{end: {id: fast, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "limit-constant"
    level: ClassVar[str] = ERROR
    acceptable: ClassVar[bool] = True


class FailurePassed(Rule):
    """A failure goes on as if nothing had failed.

    In some case nothing under `otherwise` is done, asked or ended: the run comes to the next block exactly as it
    would with a good reading. A check that changes nothing need not be made.

    Do: end the run there, mend what failed, or ask what is to be done; a failure that may stand is at least
    reported by a `do`.

    Fails:

        facts:
          closer: {choice: {surface: Surface body, track: Track arm, hidden: Concealed}, ask: Which closer is it?}
        steps:
          - check:
              id: right-closer   # here
              fact: closer
              limit: surface
              otherwise:
                steps:
                  - do: {id: track-only, when: {closer: track}, text: Fetch the track's own template.}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          closer: {choice: {surface: Surface body, track: Track arm, hidden: Concealed}, ask: Which closer is it?}
        steps:
          - check:
              id: right-closer
              fact: closer
              limit: surface
              otherwise:
                steps:
                  - do: {id: track-only, when: {closer: track}, text: Fetch the track's own template.}
                  - end: {id: not-hidden, when: {closer: hidden}, outcome: refused, text: Fetch the foreman.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "failure-passed"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” can fail and go on as if it had not, with nothing done; give that case a step or an end."
    )


RULES = (LimitConstant, FailurePassed)
