"""The lines that holes are measured from: those that the fitter can see from where they stand.

On the pull side the hinge pins and the top of the leaf are in view. On the push side the stop hides both: along is
measured from the hinge edge, which shows when the leaf is opened, and up and down from the underside of the stop.
"""

from dataclasses import dataclass
from fractions import Fraction

from guide.trade.holes.layout import Layout

PIN, EDGE = "hinge pin centre", "hinge edge"
STOP, TOP = "underside of the stop", "top of the leaf"

_CARRIED_TO = {"top-jamb": "frame's face", "parallel": "soffit"}
"""What else is marked on the push side, beside the leaf."""
VISIBLE = {"regular": (None, TOP), "top-jamb": (EDGE, STOP), "parallel": (EDGE, STOP)}
"""By mount: from where along is measured, and up and down; None for the sheet's own line."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line that a number is measured from."""

    name: str
    """As a phrase: "hinge edge"."""
    offset: Fraction
    """How far it lies from the line that the sheet measures from, toward the latch or upward [in]."""
    sheet_line: str
    """The line that the sheet measures from."""
    carried: str
    """How the fitter gets it to where the mark goes, a sentence; empty if it is in view there."""


def visible_lines(mount: str, along_from: str, datum: str) -> tuple[str, str]:
    """From where along, and up and down, is marked on that mount, the sheet measuring from these."""
    along, up = VISIBLE[mount]
    return along or along_from, up or datum


def along_line(shown: Layout, by_sheet: Layout, edge: Fraction) -> Line:
    """The line along is measured from; `edge` is the hinge edge from the pin centre, toward the latch [in]."""
    name, own = shown.along_from, by_sheet.along_from
    offset = Fraction(0) if name == own else (edge if name == EDGE else -edge)
    carried = ""
    if shown.mount != "regular":
        carried = (
            "Open the leaf, hook the tape on its hinge edge and mark its push face; shut it, and carry"
            f" the mark to the {_CARRIED_TO[shown.mount]} with a square."
        )
    return Line(name, offset, own, carried)
