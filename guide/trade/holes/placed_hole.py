"""One hole of a closer on one opening: which part it goes into, from which lines, and what it takes."""

from dataclasses import dataclass
from fractions import Fraction

from guide.trade.holes.fixing import Fixing
from guide.trade.holes.layout import ReferencePoint


@dataclass(frozen=True, slots=True)
class PlacedHole:
    """One hole on this opening."""

    name: str
    """The part and what its drawing calls the hole: "body valve end upper", "drop plate far end lower"."""
    of: str
    """What it belongs to: "body", "shoe", or the accessory's name."""
    line: ReferencePoint
    """The reference point of the part that it carries, or that it belongs to; it names part, datum and direction."""
    along: Fraction
    across: Fraction
    fixing: Fixing
    only_if: str = ""
    """When it is drilled at all, a phrase; empty if always."""
    kind: str = "screw"
    """One of `sheet.parts.HOLE_KINDS`."""

    @property
    def part(self) -> str:
        """What it goes into; one of `layout.PARTS`."""
        return self.line.part
