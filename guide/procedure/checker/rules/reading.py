"""Rules of reading a file: that it is there, is text, and is YAML written plainly."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR


class CannotRead(Rule):
    """The file is not there, or cannot be opened.

    Nothing can be said about a file that cannot be read; a run that needs it never begins.

    Do: look at the spelling and the folder, and name a YAML file.
    """

    code: ClassVar[str] = "cannot-read"
    level: ClassVar[str] = ERROR


class NotText(Rule):
    """The file is no plain text.

    A word processor's file, a picture, or text in an old encoding looks right on one screen and wrong
    on the next. Procedures are plain text in UTF-8.

    Do: save it from a text editor as plain text, UTF-8.
    """

    code: ClassVar[str] = "not-text"
    level: ClassVar[str] = ERROR


class TooLarge(Rule):
    """The file, or what it gathers, is larger than any real procedure.

    The tool stops there, so that a mistake or a hostile file cannot hold up the person who waits.

    Do: split the work into several procedures.
    """

    code: ClassVar[str] = "too-large"
    level: ClassVar[str] = ERROR


class TooDeep(Rule):
    """Parts stand within parts too deep.

    Nobody can read aloud what is indented sixty times, and a run would carry as many open branches.

    Do: flatten the blocks, or move a part into a file of its own and include it.
    """

    code: ClassVar[str] = "too-deep"
    level: ClassVar[str] = ERROR


class TooMany(Rule):
    """More is wrong than is told at once.

    After the first hundred the rest mostly follows from what was told already.

    Do: mend those that are told, and check again.
    """

    code: ClassVar[str] = "too-many"
    level: ClassVar[str] = ERROR


class Empty(Rule):
    """There is nothing in the file.

    An empty file is often one that was saved under the wrong name.

    Do: write it, or name another file.

    Fails:

        # nothing but this remark

    Passes:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
    """

    code: ClassVar[str] = "empty"
    level: ClassVar[str] = ERROR


class YamlSyntax(Rule):
    """The file is no YAML from here on.

    Most often a text holds a colon and a space and is not quoted, a bracket is not closed, or a tab
    stands where spaces belong.

    Do: look at the indentation, quotes and colons of this line and the one before.

    Fails:

        steps:
          - do: {id: set-spring, text: Spring: EN size 3.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do: {id: set-spring, text: "Spring: EN size 3."}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "yaml-syntax"
    level: ClassVar[str] = ERROR


class Alias(Rule):
    """A part is repeated by reference: an anchor, an alias or a merge key.

    Whoever reads the file aloud would have to look the other place up, and a few references can blow up
    into millions of entries.

    Do: write the part out; for a longer one make a file and include it.

    Fails:

        steps:
          - do: {id: mark, text: Mark the holes., tools: &kit [pencil, square]}   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do: {id: mark, text: Mark the holes., tools: [pencil, square]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "alias"
    level: ClassVar[str] = ERROR


class Tag(Rule):
    """A value carries a YAML tag.

    Every value is read as the text that is written, and its place says what it is. A tag would say
    otherwise.

    Do: take the tag out.

    Fails:

        facts:
          knuckles:
            count: {from: !!int 2, to: 5}   # here
            ask: How many hinges carry the leaf?

    Passes:

        facts:
          knuckles:
            count: {from: 2, to: 5}
            ask: How many hinges carry the leaf?
    """

    code: ClassVar[str] = "tag"
    level: ClassVar[str] = ERROR


class DuplicateKey(Rule):
    """One key is written twice in one place.

    Most programs that read YAML keep one of the two in silence. A caution that was dropped so is a
    caution nobody sees.

    Do: keep one, or join the two.

    Fails:

        steps:
          - do:
              id: join-arms
              text: Join main arm and forearm.
              watch: The elbow snaps.
              watch: Keep fingers off it.   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do:
              id: join-arms
              text: Join main arm and forearm.
              watch: The elbow snaps. Keep fingers off it.
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "duplicate-key"
    level: ClassVar[str] = ERROR


class KeyWrong(Rule):
    """A key is a list or a mapping instead of a word.

    It comes of a question mark, or of brackets before a colon.

    Do: write one word before the colon.

    Fails:

        facts:
          [width]: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}   # here

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
    """

    code: ClassVar[str] = "key-wrong"
    level: ClassVar[str] = ERROR


class ControlCharacter(Rule):
    r"""An invisible character stands in the text.

    It hides or reorders what is written: the file reads otherwise than it is stored, and a terminal may
    take it for an order. It usually comes with text pasted from elsewhere.

    Do: take it out; retype the word if you cannot find it.

    Fails:

        steps:
          - do: {id: mark, text: "Mark the \u202eleft hinge edge."}   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do: {id: mark, text: "Mark the left hinge edge."}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "control-character"
    level: ClassVar[str] = ERROR


RULES = (
    CannotRead,
    NotText,
    TooLarge,
    TooDeep,
    TooMany,
    Empty,
    YamlSyntax,
    Alias,
    Tag,
    DuplicateKey,
    KeyWrong,
    ControlCharacter,
)
