"""Rules of names: every name that is used is there, once, and means one thing."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR


class FactUnknown(Rule):
    """A fact is named that no file declares.

    Usually one letter is wrong. A text would show nothing in its place, and a branch could never be
    taken.

    Do: take the spelling that is offered, or declare the fact under `facts`.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: widht}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "fact-unknown"
    level: ClassVar[str] = ERROR


class BlockUnknown(Rule):
    """A `go` names a block that this file does not have.

    A jump leads to a block of the same file, so that a part can be read by itself.

    Do: name a block of this file by its id.

    Fails:

        facts:
          latches: {yesno: {}, ask: Does it latch by itself?}
        steps:
          - do: {id: latch-valve, text: Turn the latch valve an eighth faster.}
          - check: {id: shuts, fact: latches, limit: yes, otherwise: {go: latch-vavle}}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          latches: {yesno: {}, ask: Does it latch by itself?}
        steps:
          - do: {id: latch-valve, text: Turn the latch valve an eighth faster.}
          - check: {id: shuts, fact: latches, limit: yes, otherwise: {go: latch-valve}}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "block-unknown"
    level: ClassVar[str] = ERROR


class LabelUnknown(Rule):
    """A condition names an answer that the fact does not have.

    Such a branch is never taken, and the case that was meant has none.

    Do: use one of the fact's labels.

    Fails:

        facts:
          leaf: {choice: {wood: Timber, steel: Steel}, ask: What is the leaf made of?}
        steps:
          - ask: {id: made-of, fact: leaf}
          - do: {id: lead-holes, when: {leaf: timber}, text: Drill lead holes.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          leaf: {choice: {wood: Timber, steel: Steel}, ask: What is the leaf made of?}
        steps:
          - ask: {id: made-of, fact: leaf}
          - do: {id: lead-holes, when: {leaf: wood}, text: Drill lead holes.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "label-unknown"
    level: ClassVar[str] = ERROR


class IdTwice(Rule):
    """Two blocks of a file have the same id.

    The record, a scenario and a jump name a block by its id; with two of them nobody knows which was
    meant.

    Do: give one of the two another id.

    Fails:

        steps:
          - do: {id: tighten, text: Tighten the body's screws.}
          - do: {id: tighten, text: Tighten the shoe's screws.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do: {id: tighten, text: Tighten the body's screws.}
          - do: {id: tighten-shoe, text: Tighten the shoe's screws.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "id-twice"
    level: ClassVar[str] = ERROR


class NameReserved(Rule):
    """A name is used that has a meaning of its own here.

    `all`, `any`, `not` and `known` are words of conditions; `unsure` and `none` are answers that every
    file may use; `counts_on` and `end-of-part` name blocks that the tool lays down itself.

    Do: choose another name.

    Fails:

        facts:
          known: {yesno: {}, ask: Is the maker known?}   # here

    Passes:

        facts:
          maker_known: {yesno: {}, ask: Is the maker known?}
    """

    code: ClassVar[str] = "name-reserved"
    level: ClassVar[str] = ERROR


class WordTwice(Rule):
    """One word stands for two answers of a fact.

    Typed or said, it could mean either, and the run would have to guess.

    Do: change one of the two.

    Fails:

        facts:
          stop:
            choice:
              wall: {label: Wall stop, also: [stop]}
              arm: {label: Stop arm, also: [stop]}   # here
            ask: What stops the leaf?

    Passes:

        facts:
          stop:
            choice:
              wall: {label: Wall stop, also: [bumper]}
              arm: {label: Stop arm, also: [buffer]}
            ask: What stops the leaf?
    """

    code: ClassVar[str] = "word-twice"
    level: ClassVar[str] = ERROR


class BraceStray(Rule):
    """A brace stands in a text where no fact is shown.

    `{width}` shows a fact's value in `text`, `say`, `why`, `watch`, `looks_right` and cautions. A single
    brace, or a fact in a text that is shown as it stands, would reach the person as a brace.

    Do: name a fact between the braces, or write `{{` for a brace.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - do: {id: mark, text: "Mark the {width leaf."}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - do: {id: mark, text: "Mark the {width} leaf."}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "brace-stray"
    level: ClassVar[str] = ERROR


class FactTwice(Rule):
    """One fact is declared in two files that come together.

    The two could differ in their answers or ranges, and which one holds would depend on the order of
    reading.

    Do: put it into one file, and name that file under `facts_in` in both.

    Fails:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - include: {id: gaps, file: gaps.yaml}
          - end: {id: done, outcome: finished}
        # --- gaps.yaml
        counts_on: []
        facts:
          fire: {yesno: {}, ask: Is there a fire label?}   # here
        steps:
          - ask: {id: label, fact: fire}

    Passes:

        facts_in: [shared.yaml]
        steps:
          - include: {id: gaps, file: gaps.yaml}
          - end: {id: done, outcome: finished}
        # --- gaps.yaml
        facts_in: [shared.yaml]
        counts_on: []
        steps:
          - ask: {id: label, fact: fire}
          - do: {id: read-it, when: {fire: yes}, text: Read the label.}
        # --- shared.yaml
        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
    """

    code: ClassVar[str] = "fact-twice"
    level: ClassVar[str] = ERROR


RULES = (
    FactUnknown,
    BlockUnknown,
    LabelUnknown,
    IdTwice,
    NameReserved,
    WordTwice,
    BraceStray,
    FactTwice,
)
