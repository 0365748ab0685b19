"""Rules of repeats: each round does something in the cases that need it, and nothing in those that do not."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import WARNING


class DoneWhenOver(Rule):
    """A step of a repeat is done although the reading is already right.

    It stands after the last reading that `until` goes by, and nobody reads again after it: a valve that was right is
    turned once more, and the repeat is over. Mostly `until`, or the `when` of the step, is turned round, or the
    `when` is missing.

    Do: give the step a `when` that leaves out the cases in which the repeat is over, or put it behind the repeat.

    Fails:

        facts:
          latch: {choice: {shuts: Shuts softly, slams: Slams}, ask: What does the latch do?}
        steps:
          - repeat:
              id: tune
              steps:
                - ask: {id: now, fact: latch}
                - do: {id: slower, text: Turn the latch valve an eighth slower.}   # here
              until: {latch: shuts}
              at_most: 3
              otherwise: {steps: [{end: {id: give-up, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          latch: {choice: {shuts: Shuts softly, slams: Slams}, ask: What does the latch do?}
        steps:
          - repeat:
              id: tune
              steps:
                - ask: {id: now, fact: latch}
                - do: {id: slower, when: {latch: slams}, text: Turn the latch valve an eighth slower.}
              until: {latch: shuts}
              at_most: 3
              otherwise: {steps: [{end: {id: give-up, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "done-when-over"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” is done although “{detail}” is over then; guard it with when, or put it behind the repeat."
    )


class OnlyFirstRound(Rule):
    """A step of a repeat is never done on a second round.

    It stands before the reading, for a case in which the repeat is over: once it has been read again, the run
    either leaves or comes round with another reading. Mostly `until` is turned round.

    Do: mend `until` or the `when` of the step, or put the step before the repeat.

    Fails:

        facts:
          latch: {choice: {shuts: Shuts softly, slams: Slams}, ask: What does the latch do?}
        steps:
          - ask: {id: at-first, fact: latch}
          - repeat:
              id: tune
              steps:
                - do: {id: swing, text: Swing it twice.}
                - do: {id: slower, when: {latch: slams}, text: Turn the latch valve slower.}   # here
                - ask: {id: now, fact: latch}
              until: {latch: slams}
              at_most: 3
              otherwise: {steps: [{end: {id: give-up, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          latch: {choice: {shuts: Shuts softly, slams: Slams}, ask: What does the latch do?}
        steps:
          - ask: {id: at-first, fact: latch}
          - repeat:
              id: tune
              steps:
                - do: {id: swing, text: Swing it twice.}
                - do: {id: slower, when: {latch: slams}, text: Turn the latch valve slower.}
                - ask: {id: now, fact: latch}
              until: {latch: shuts}
              at_most: 3
              otherwise: {steps: [{end: {id: give-up, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "only-first-round"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” is never done on a second round of “{detail}”; mend until or its when, or put it before."
    )


class RoundForNothing(Rule):
    """A repeat goes round with nothing done between two readings.

    In some case none of its steps is for the reading, and yet it is not over: the same is read again, and again,
    until the tries are spent. Mostly a `when` and `until` do not meet, or a case has no step.

    Do: give the case a step, or mend the conditions so that every case is either over or acted on.

    Fails:

        facts:
          sweep: {time: {from: 1 s, to: 30 s, step: 1/10 s}, ask: How long to the 12 degree mark?}
        steps:
          - repeat:
              id: tune   # here
              steps:
                - time: {id: now, fact: sweep, why: At least 5 s. Aim for 5 s to 7 s.}
                - do: {id: slower, when: {sweep: "< 5 s"}, text: Turn the sweep valve slower.}
              until: {sweep: 5 s to 7 s}
              at_most: 3
              otherwise: {steps: [{end: {id: give-up, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          sweep: {time: {from: 1 s, to: 30 s, step: 1/10 s}, ask: How long to the 12 degree mark?}
        steps:
          - repeat:
              id: tune
              steps:
                - time: {id: now, fact: sweep, why: At least 5 s. Aim for 5 s to 7 s.}
                - do: {id: slower, when: {sweep: "< 5 s"}, text: Turn the sweep valve slower.}
                - do: {id: faster, when: {sweep: "> 7 s"}, text: Turn the sweep valve faster.}
              until: {sweep: 5 s to 7 s}
              at_most: 3
              otherwise: {steps: [{end: {id: give-up, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "round-for-nothing"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” goes round in some case with none of its steps done; give that case a step."
    )


RULES = (DoneWhenOver, OnlyFirstRound, RoundForNothing)
