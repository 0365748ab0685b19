"""Rules of limits: a reading can meet them, and can fail them."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR


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
              otherwise: {steps: [{end: {id: fast, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "limit-constant"
    level: ClassVar[str] = ERROR
    acceptable: ClassVar[bool] = True


RULES = (LimitConstant,)
