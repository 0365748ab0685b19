"""Rules of kinds of value: units, ranges, comparisons, and which block asks for what."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR


class UnitWrong(Rule):
    """A measure has no unit, or a unit of another kind.

    36 may be inches or millimetres; a length is never compared with a force.

    Do: write the measure with a unit of the fact's kind.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48}, ask: How wide is the leaf?}   # here

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
    """

    code: ClassVar[str] = "unit-wrong"
    level: ClassVar[str] = ERROR


class RangeWrong(Rule):
    """A range runs backwards, has a step of nothing, or its usual part reaches past it.

    A range that is wrong refuses right answers, or lets a slip of the tape through.

    Do: put the smaller value first, and keep the usual range inside the range.

    Fails:

        facts:
          width:
            length: {from: 24 in, to: 48 in, usual: 28 in to 52 in}   # here
            ask: How wide is the leaf?

    Passes:

        facts:
          width:
            length: {from: 24 in, to: 48 in, usual: 28 in to 42 in}
            ask: How wide is the leaf?
    """

    code: ClassVar[str] = "range-wrong"
    level: ClassVar[str] = ERROR


class ComparisonWrong(Rule):
    """A fact is compared in a way its kind does not have.

    A choice is not above or below anything; a measure has no labels.

    Do: write what the message shows.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - do: {id: two-hands, when: {width: wide}, text: Wider than 42 in take two hands.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - do: {id: two-hands, when: {width: "> 42 in"}, text: Wider than 42 in take two hands.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "comparison-wrong"
    level: ClassVar[str] = ERROR


class ConditionWrong(Rule):
    """A condition is not written as one.

    A condition is a mapping from facts to what they must be; `all` and `any` take lists of conditions.

    Do: write it as in {leaf: wood}, {width: "> 36 in"} or {any: [{leaf: wood}, {fire: yes}]}.

    Fails:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {any: {fire: yes}}, text: Read the label.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {any: [{fire: yes}]}, text: Read the label.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "condition-wrong"
    level: ClassVar[str] = ERROR


class FactWorked(Rule):
    """A computed fact is asked for.

    The run computes it; an answer given by hand would contradict its inputs.

    Do: show it with a `work` block.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
        steps:
          - ask: {id: how-wide, fact: width}
          - ask: {id: spring, fact: size}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
        steps:
          - ask: {id: how-wide, fact: width}
          - work: {id: spring, fact: size}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "fact-worked"
    level: ClassVar[str] = ERROR


class FactAsked(Rule):
    """A `work` block shows a fact that is asked, not computed.

    It has no working to show.

    Do: use `ask`.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - work: {id: how-wide, fact: width}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "fact-asked"
    level: ClassVar[str] = ERROR


RULES = (UnitWrong, RangeWrong, ComparisonWrong, ConditionWrong, FactWorked, FactAsked)
