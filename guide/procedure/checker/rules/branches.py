"""Rules of cases: every case has one way on, and no way is for nobody."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR


class BranchMissing(Rule):
    """A case can come that no branch covers.

    The run stops there: whoever stands on the ladder is told that the procedure has no answer for this
    door. The example names the smallest such case. “I don't know” and a computation without an answer
    are cases too.

    Do: add a branch for the case, or widen one.

    Fails:

        facts:
          leaf:
            choice: {wood: Timber, steel: Steel}
            unsure: true
            ask: What is the leaf made of?
            find_out: Try a magnet.
        steps:
          - ask: {id: made-of, fact: leaf}
          - by_case:
              id: by-leaf   # here
              cases:
                - {id: timber, when: {leaf: wood}, steps: [{do: {id: lead, text: Drill lead holes.}}]}
                - {id: metal, when: {leaf: steel}, steps: [{do: {id: tap, text: Tap the holes.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          leaf:
            choice: {wood: Timber, steel: Steel}
            unsure: true
            ask: What is the leaf made of?
            find_out: Try a magnet.
        steps:
          - ask: {id: made-of, fact: leaf}
          - by_case:
              id: by-leaf
              cases:
                - {id: timber, when: {leaf: wood}, steps: [{do: {id: lead, text: Drill lead holes.}}]}
                - {id: metal, when: {leaf: steel}, steps: [{do: {id: tap, text: Tap the holes.}}]}
                - {id: unknown, when: {leaf: unsure}, steps: [{do: {id: ask-first, text: Ask first.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "case-missing"
    level: ClassVar[str] = ERROR
    message: ClassVar[str] = "No branch of “{id}” covers this case; add one, or widen one."


class BranchOverlap(Rule):
    """Two branches cover the same case.

    The run takes the first; whoever reads the file aloud may take the second.

    Do: narrow one of the two, so that each case belongs to one branch.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - by_case:
              id: by-width   # here
              cases:
                - {id: narrow, when: {width: "<= 36 in"}, steps: []}
                - {id: wide, when: {width: ">= 36 in"}, steps: [{do: {id: help, text: Fetch a helper.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - by_case:
              id: by-width
              cases:
                - {id: narrow, when: {width: "<= 36 in"}, steps: []}
                - {id: wide, when: {width: "> 36 in"}, steps: [{do: {id: help, text: Fetch a helper.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "case-overlap"
    level: ClassVar[str] = ERROR
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = "Two branches of “{id}” cover the same case ({detail}); narrow one."


class BranchNever(Rule):
    """No case takes a branch.

    Its steps are for nobody; more likely its condition is not what was meant.

    Do: mend its `when`, or take the branch out.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - by_case:
              id: by-width   # here
              cases:
                - {id: fits, when: {width: "<= 48 in"}, steps: []}
                - {id: wide, when: {width: "> 48 in"}, steps: [{do: {id: help, text: Fetch a helper.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 54 in, step: 1/16 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - by_case:
              id: by-width
              cases:
                - {id: fits, when: {width: "<= 48 in"}, steps: []}
                - {id: wide, when: {width: "> 48 in"}, steps: [{do: {id: help, text: Fetch a helper.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "case-never"
    level: ClassVar[str] = ERROR
    acceptable: ClassVar[bool] = True


class ConditionConstant(Rule):
    """A condition holds in every case that comes there, or in none.

    What decides nothing misleads whoever reads it, and often hides a slip: a wrong label, a turned sign.

    Do: take the condition out, or mend it.

    Fails:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {fire: [yes, no]}, text: Read the label.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {fire: yes}, text: Read the label.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "condition-constant"
    level: ClassVar[str] = ERROR
    acceptable: ClassVar[bool] = True


class Unreachable(Rule):
    """No case comes to a block.

    It stands behind an end, or behind a jump that always leads elsewhere.

    Do: take it out, or mend what stands before it.

    Fails:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished}
          - do: {id: clear-away, text: Clear away.}   # here
          - end: {id: clear, outcome: finished}

    Passes:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - do: {id: clear-away, text: Clear away.}
          - end: {id: clear, outcome: finished}
    """

    code: ClassVar[str] = "unreachable"
    level: ClassVar[str] = ERROR
    acceptable: ClassVar[bool] = True


RULES = (BranchMissing, BranchOverlap, BranchNever, ConditionConstant, Unreachable)
