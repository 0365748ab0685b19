"""Rules of knowledge: what a block needs is known on every way there, and can be found out."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR, WARNING


class FactNotKnown(Rule):
    """A block shows, reads or decides by a fact that is not known on every way there.

    The run stops there, at a step that nobody can do.

    Do: ask for the fact before, on every way that leads there.

    Fails:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
          gap: {length: {from: 0 in, to: 1 in}, ask: How wide is the gap at the head?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - ask: {id: how-wide, when: {fire: yes}, fact: gap}
          - do: {id: write-gap, text: "Write the gap of {gap} down."}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
          gap: {length: {from: 0 in, to: 1 in}, ask: How wide is the gap at the head?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - ask: {id: how-wide, when: {fire: yes}, fact: gap}
          - do: {id: write-gap, when: {fire: yes}, text: "Write the gap of {gap} down."}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "fact-not-known"
    level: ClassVar[str] = ERROR
    message: ClassVar[str] = (
        "“{id}” needs “{detail}”, which is not known on every way there; ask it before."
    )


class GivenNotKnown(Rule):
    """A part is included that counts on a fact which nothing in the procedure asks.

    `counts_on` names what a part expects to be known. By itself the part asks for it; included it does not.

    Do: ask for the fact before the include.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - include: {id: mark, file: mark.yaml}   # here
          - end: {id: done, outcome: finished}
        # --- mark.yaml
        counts_on: [width]
        steps:
          - do: {id: mark-leaf, text: "Mark the leaf of {width}."}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - include: {id: mark, file: mark.yaml}
          - end: {id: done, outcome: finished}
        # --- mark.yaml
        counts_on: [width]
        steps:
          - do: {id: mark-leaf, text: "Mark the leaf of {width}."}
    """

    code: ClassVar[str] = "counts-on-not-known"
    level: ClassVar[str] = ERROR


class FindOutMissing(Rule):
    """“I don't know” is offered, and no way to find out.

    An apprentice who does not know is left with a shrug; often one look at the hinge edge would tell.

    Do: say under `find_out` how to find out.

    Fails:

        facts:
          leaf:   # here
            choice: {wood: Timber, steel: Steel}
            unsure: true
            ask: What is the leaf made of?

    Passes:

        facts:
          leaf:
            choice: {wood: Timber, steel: Steel}
            unsure: true
            ask: What is the leaf made of?
            find_out: Try a magnet on its face.
    """

    code: ClassVar[str] = "find-out-missing"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True


RULES = (FactNotKnown, GivenNotKnown, FindOutMissing)
