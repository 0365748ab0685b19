"""Rules of accepted findings: what a file lets stand, it names rightly and gives a reason for."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR, WARNING


class AcceptedUnused(Rule):
    """An entry under `accepted` accepts nothing.

    What it once accepted was mended or has moved; left there, it would hide the next fault at that place.

    Do: take the entry out.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
        accepted:
          - {code: case-overlap, at: by-width, because: Either way serves at 36 in.}   # here
        steps:
          - ask: {id: how-wide, fact: width}
          - by_case:
              id: by-width
              cases:
                - {id: narrow, when: {width: "< 36 in"}, steps: []}
                - {id: wide, when: {width: ">= 36 in"}, steps: [{do: {id: help, text: Fetch a helper.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
        accepted:
          - {code: case-overlap, at: by-width, because: Either way serves at 36 in.}
        steps:
          - ask: {id: how-wide, fact: width}
          - by_case:
              id: by-width
              cases:
                - {id: narrow, when: {width: "<= 36 in"}, steps: []}
                - {id: wide, when: {width: ">= 36 in"}, steps: [{do: {id: help, text: Fetch a helper.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "accepted-unused"
    level: ClassVar[str] = WARNING


class AcceptedRefused(Rule):
    """A finding is accepted that cannot be.

    A case without a branch, a fact that is not known, a cut that was not read back, a loop without a way out:
    these strand or hurt whoever follows the file, and no reason makes up for that.

    Do: mend what is found, and take the entry out.

    Fails:

        accepted:
          - {code: no-end, at: cover, because: The next file goes on from here.}   # here
        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "accepted-refused"
    level: ClassVar[str] = ERROR


class AcceptedUnknown(Rule):
    """An entry under `accepted` names a finding or a block that there is not.

    It accepts nothing, and usually one letter is wrong.

    Do: take the spelling that is offered; `hingeside check` shows the code of each finding in brackets.

    Fails:

        accepted:
          - {code: step-longg, at: cover, because: The words are the sheet's own.}   # here
        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do: {id: cover, text: Fit the cover.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "accepted-unknown"
    level: ClassVar[str] = ERROR


RULES = (AcceptedUnused, AcceptedRefused, AcceptedUnknown)
