"""What is said where the proof itself came to its bounds."""

from typing import ClassVar

from guide.procedure.checker.rules.rule import Rule
from guide.procedure.findings import ADVICE


class NotProved(Rule):
    """Something could be neither proved nor disproved.

    Either too many facts decide at once, and the proof stopped at its bound, or a counter-example did
    not come about when it was carried through the real engine. Nothing is claimed then, either way.

    Do: let fewer facts decide at once, or split the procedure; rehearse what was not proved.
    """

    code: ClassVar[str] = "not-proved"
    level: ClassVar[str] = ADVICE
    acceptable: ClassVar[bool] = True


RULES = (NotProved,)
