"""Rules of the files that a procedure gathers."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ERROR


class FileUnknown(Rule):
    """A file is named that is not in this file's folder.

    The part that it holds would be missing from the job.

    Do: look at the spelling, or put the file there.

    Fails:

        steps:
          - include: {id: holes, file: hloes.yaml}   # here
          - end: {id: done, outcome: finished}
        # --- holes.yaml
        counts_on: []
        steps:
          - do: {id: mark, text: Mark the holes.}

    Passes:

        steps:
          - include: {id: holes, file: holes.yaml}
          - end: {id: done, outcome: finished}
        # --- holes.yaml
        counts_on: []
        steps:
          - do: {id: mark, text: Mark the holes.}
    """

    code: ClassVar[str] = "file-unknown"
    level: ClassVar[str] = ERROR


class FileOutside(Rule):
    """A file outside this file's folder is named.

    A procedure must stay whole when its folder is copied to a phone or sent to a colleague.

    Do: put the file into the folder, and write its name alone.

    Fails:

        steps:
          - include: {id: holes, file: ../holes.yaml}   # here
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - include: {id: holes, file: holes.yaml}
          - end: {id: done, outcome: finished}
        # --- holes.yaml
        counts_on: []
        steps:
          - do: {id: mark, text: Mark the holes.}
    """

    code: ClassVar[str] = "file-outside"
    level: ClassVar[str] = ERROR


class FileWrong(Rule):
    """A file of facts is included, or a procedure is named under `facts_in`.

    `facts_in` gathers files that hold nothing but facts; `include` carries out another file's steps.

    Do: move the name to the other place.

    Fails:

        steps:
          - include: {id: shared, file: shared.yaml}   # here
          - end: {id: done, outcome: finished}
        # --- shared.yaml
        facts:
          fire: {yesno: {}, ask: Is it a fire door?}

    Passes:

        facts_in: [shared.yaml]
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {fire: yes}, text: Read the label.}
          - end: {id: done, outcome: finished}
        # --- shared.yaml
        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
    """

    code: ClassVar[str] = "file-wrong"
    level: ClassVar[str] = ERROR


class IncludeCircle(Rule):
    """A file includes itself, perhaps by way of others.

    The job would have no end.

    Do: take one of the includes out; for work that is done again write a `repeat`.

    Fails:

        counts_on: []
        steps:
          - do: {id: turn, text: Turn the sweep valve an eighth slower.}
          - include: {id: again, file: example.yaml}   # here

    Passes:

        facts:
          slow: {yesno: {}, ask: Is the sweep slow enough?}
        counts_on: []
        steps:
          - repeat:
              id: tune
              steps:
                - do: {id: turn, text: Turn the sweep valve an eighth slower.}
                - ask: {id: slow-yet, fact: slow}
              until: {slow: yes}
              at_most: 4
              otherwise: {steps: [{do: {id: look, text: Look for a leak.}}]}
    """

    code: ClassVar[str] = "include-circle"
    level: ClassVar[str] = ERROR


RULES = (FileUnknown, FileOutside, FileWrong, IncludeCircle)
