"""Rules of work that cannot be undone."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR


class CutWithoutHold(Rule):
    """A block cuts, and something it depends on was not read back since it was last asked.

    A hole stays. Every value that decides where it goes is read back, and agreed to, before the drill
    turns. What a cut depends on is what its texts show and what it lists under `reads`.

    Do: read the fact back in a `hold` before the cut, after the last time it is asked.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          hand: {choice: {left: Left, right: Right}, ask: Which edge has the hinges?}
        steps:
          - ask: {id: how-wide, fact: width}
          - ask: {id: which-hand, fact: hand}
          - hold: {id: before-drilling, reads_back: [width]}
          - do:
              id: drill   # here
              cuts: true
              reads: [width, hand]
              text: Drill the leaf.
              caution: {warning: Wear eye protection.}
              hazards: [drilling]
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          hand: {choice: {left: Left, right: Right}, ask: Which edge has the hinges?}
        steps:
          - ask: {id: how-wide, fact: width}
          - ask: {id: which-hand, fact: hand}
          - hold: {id: before-drilling, reads_back: [width, hand]}
          - do:
              id: drill
              cuts: true
              reads: [width, hand]
              text: Drill the leaf.
              caution: {warning: Wear eye protection.}
              hazards: [drilling]
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "cut-without-hold"
    level: ClassVar[str] = ERROR
    message: ClassVar[str] = (
        "“{id}” cuts, and “{detail}” was not read back at a hold since it was last asked; read it back "
        "in a hold before."
    )


RULES = (CutWithoutHold,)
