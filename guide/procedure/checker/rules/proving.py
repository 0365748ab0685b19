"""What is said where the proof itself came to its bounds."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ADVICE


class NotProved(Rule):
    """Something could be neither proved nor disproved.

    Either too many facts decide at once, and the proof stopped at its bound, or a counter-example did
    not come about when it was carried through the real engine: a computed value decides there, of which no
    case was found, or the closer's sheet, which a check does not have. Nothing is claimed then, either way. What
    would be an error, were it so, is told as a warning all the same.

    Do: mend what the message names, if the case can come. Where it cannot, accept the finding with the reason. Past
    the bound, let fewer facts decide at once, or split the procedure. Rehearse what was not proved.
    """

    code: ClassVar[str] = "not-proved"
    level: ClassVar[str] = ADVICE
    acceptable: ClassVar[bool] = True


RULES = (NotProved,)
