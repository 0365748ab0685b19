"""Rules of computed facts: a computation of the trade, fed with what it can take."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR, WARNING


class ComputationUnknown(Rule):
    """A computation is named that there is not.

    `hingeside work` lists what can be computed.

    Do: take the spelling that is offered.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          size: {worked: spring-sise, using: {width: width}}   # here

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
    """

    code: ClassVar[str] = "computation-unknown"
    level: ClassVar[str] = ERROR


class PartWrong(Rule):
    """A computation's answer has several parts and none is named, or it has none and one is.

    `handing` gives the hand's North American name and the DIN hand; a fact can be only one of them.

    Do: name the part with `part`, or take it out.

    Fails:

        facts:
          hinges: {choice: {left: Left, right: Right}, ask: Where are the hinges?}
          swing: {choice: {away: Away from you, toward: Toward you}, ask: Which way does it open?}
          hand: {worked: handing, using: {hinges: hinges, swing: swing}}   # here

    Passes:

        facts:
          hinges: {choice: {left: Left, right: Right}, ask: Where are the hinges?}
          swing: {choice: {away: Away from you, toward: Toward you}, ask: Which way does it open?}
          hand: {worked: handing, part: hand, using: {hinges: hinges, swing: swing}}
    """

    code: ClassVar[str] = "part-wrong"
    level: ClassVar[str] = ERROR


class InputWrong(Rule):
    """A computation gets an input that it does not have, cannot take, or is left without one it needs.

    Its answer would be none, or would be about another door.

    Do: fill each input under `using` with a fact of its kind, or with a fixed value such as "= 12 deg".

    Fails:

        facts:
          hinge: {choice: {butt: Butt, pivot: Pivot}, ask: What does the leaf hang on?}
          size: {worked: spring-size, using: {width: hinge}}   # here

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
    """

    code: ClassVar[str] = "input-wrong"
    level: ClassVar[str] = ERROR


class FactCircle(Rule):
    """A computed fact is computed from itself, perhaps by way of others.

    It would never have a value.

    Do: fill one of the inputs with a fact that is asked.

    Fails:

        facts:
          mark: {worked: chord, using: {width: mark, angle: "= 12 deg"}}   # here

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          mark: {worked: chord, using: {width: width, angle: "= 12 deg"}}
    """

    code: ClassVar[str] = "fact-circle"
    level: ClassVar[str] = ERROR


class InputOutOfDomain(Rule):
    """A computation can be asked past the limits it holds for.

    A table or a formula has a domain; past it the person on the ladder gets no answer, where they need
    one.

    Do: narrow the fact's range, or branch before, and send the rest to the foreman.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 240 in}, ask: How wide is the leaf?}
          mark: {worked: chord, using: {width: width, angle: "= 12 deg"}}
        steps:
          - ask: {id: how-wide, fact: width}
          - work: {id: the-mark, fact: mark}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
          mark: {worked: chord, using: {width: width, angle: "= 12 deg"}}
        steps:
          - ask: {id: how-wide, fact: width}
          - work: {id: the-mark, fact: mark}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "input-out-of-domain"
    level: ClassVar[str] = ERROR
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” computes “{detail}” past the limits it holds for; narrow the fact, or branch before."
    )


class NoAnswerShown(Rule):
    """A step gives a computed value that may have no answer.

    A computation past its table answers `none`. A step that goes by it then reads “set the spring to EN size no
    answer”, on a door for which there is no size. A `work` block that shows the value itself is there to say so,
    and is left alone; so are computed measures.

    Do: end the run, or branch, where the value is `none`, before it is given.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 96 in, step: 1/16 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
        steps:
          - ask: {id: how-wide, fact: width}
          - do: {id: set-spring, text: "Set the spring to EN size {size}."}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 96 in, step: 1/16 in}, ask: How wide is the leaf?}
          size: {worked: spring-size, using: {width: width}}
        steps:
          - ask: {id: how-wide, fact: width}
          - end: {id: past-the-table, when: {size: none}, outcome: refused, text: Ask the maker for one that covers it.}
          - do: {id: set-spring, text: "Set the spring to EN size {size}."}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "no-answer-shown"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” gives “{detail}” where it may have no answer; branch on none before, or end there."
    )


RULES = (ComputationUnknown, PartWrong, InputWrong, FactCircle, InputOutOfDomain, NoAnswerShown)
