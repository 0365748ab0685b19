"""How a drawing is turned: the person is at its foot, on the side where the body is fitted.

Left in the drawing is then left for that person, for either hand of the door. The affine mapping from the
plan of `guide.trade.arm.geometry` (leaf along +x, pull side +y) is a reflection in one or both axes:

    x' = along * x        along = +1 (hinges on the left) or -1
    y' = up * y           up = -1 (person on the pull side) or +1
"""

from dataclasses import dataclass

from guide.drawing.scene import Point
from guide.trade.holes.layout import FRAME, LEAF, SOFFIT, hinges_in_front

STANDS = {"regular": "pull", "top-jamb": "push", "parallel": "push"}
"""The side of the door the body is on, by mount."""

ON = {LEAF: "on the leaf", FRAME: "on the frame head", SOFFIT: "under the soffit"}
"""Where a part is fixed, as a fitter says it."""


@dataclass(frozen=True, slots=True)
class Facing:
    """The mapping from the plan to a drawing of this hand and mount."""

    stands: str
    """The side the person stands on, "pull" or "push"."""
    hinges: str
    """Where the hinges are for the person, "left" or "right"."""

    @property
    def along(self) -> float:
        """+1 if the leaf extends to the right of its hinges, -1 if to the left."""
        return 1.0 if self.hinges == "left" else -1.0

    @property
    def up(self) -> float:
        """+1 if the pull side is at the top of a plan, -1 if it is at the foot."""
        return -1.0 if self.stands == "pull" else 1.0

    def point(self, place: Point) -> Point:
        """A place of the plan (leaf along +x, pull side +y) in the drawing."""
        return self.along * place[0], self.up * place[1]

    def arc(self, start_deg: float, sweep_deg: float) -> tuple[float, float]:
        """A bearing and a sweep of the plan in the drawing."""
        start = self.up * start_deg if self.along > 0 else 180.0 - self.up * start_deg
        return start, self.along * self.up * sweep_deg

    def side(self, edge: str) -> str:
        """Whether the "hinge" or the "latch" edge is on the person's left or right."""
        return self.hinges if edge == "hinge" else other_side(self.hinges)


def facing_for(mount: str, knuckles: str) -> Facing:
    """How the drawing of a mount is turned. `knuckles` is the side they are on, seen from the pull side.

    KeyError for a mount that is not one of `MOUNTS`.
    """
    return Facing(STANDS[mount], hinges_in_front(mount, knuckles))


def other_side(side: str) -> str:
    """Left for right, pull for push, and back."""
    return {"left": "right", "right": "left", "pull": "push", "push": "pull"}[side]
