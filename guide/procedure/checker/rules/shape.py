"""Rules of shape: which keys a part has, and what each takes."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR


class KeyUnknown(Rule):
    """A key is not one that this part knows.

    A misspelt key would be passed over: the caution behind `warnign` would never be shown.

    Do: take the spelling that is offered, or take the key out.

    Fails:

        steps:
          - do:
              id: drill
              text: Drill the lead holes.
              cuation: {warning: Wear eye protection.}   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do:
              id: drill
              text: Drill the lead holes.
              caution: {warning: Wear eye protection.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "key-unknown"
    level: ClassVar[str] = ERROR


class KeyMissing(Rule):
    """A key that this part cannot do without is missing.

    An `ask` without its fact asks nothing; an `end` without its outcome leaves the record without one.

    Do: write the key.

    Fails:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done}   # here

    Passes:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "key-missing"
    level: ClassVar[str] = ERROR


class ShapeWrong(Rule):
    """A value is not what its key takes.

    A list stands where one line belongs, a word where a number, a number past its limits, or a block
    has two kinds at once.

    Do: write it as the message says; `hingeside schema` describes every key for an editor.

    Fails:

        steps:
          - do: {id: cover, text: Fit the cover., minutes: two}   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do: {id: cover, text: Fit the cover., minutes: 2}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "shape"
    level: ClassVar[str] = ERROR


RULES = (KeyUnknown, KeyMissing, ShapeWrong)
