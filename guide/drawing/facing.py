"""How a drawing is turned: the person stands at its foot, on the side where the body is fitted.

Left in the drawing is then left for that person, whichever hand the door has.
"""

from dataclasses import dataclass

from guide.drawing.scene import Point
from guide.trade.handing import SIDES

SIDE_OF = {"regular": "pull", "top-jamb": "push", "parallel": "push"}
"""The side of the door the body is on, by mount."""


@dataclass(frozen=True, slots=True)
class Facing:
    """From the plan of `guide.trade.linkage` to a drawing of this hand and mount."""

    knuckles: str
    """The side the hinge knuckles are on, seen from the pull side."""
    stands: str
    """"pull" or "push": the side the person stands on."""

    def __post_init__(self) -> None:
        if self.knuckles not in SIDES:
            raise ValueError(f"The knuckles are on the left or the right, not “{self.knuckles}”.")

    @property
    def hinge_side(self) -> str:
        """Where the hinges are for the person: "left" or "right"."""
        if self.stands == "pull":
            return self.knuckles
        return "right" if self.knuckles == "left" else "left"

    @property
    def along(self) -> float:
        """+1 where the leaf runs to the right of its hinges, -1 where it runs to the left."""
        return 1.0 if self.hinge_side == "left" else -1.0

    @property
    def up(self) -> float:
        """+1 where the pull side is at the top of a plan, -1 where it is at the foot."""
        return -1.0 if self.stands == "pull" else 1.0

    def point(self, place: Point) -> Point:
        """A place of the plan (leaf along +x, pull side +y) in the drawing."""
        return self.along * place[0], self.up * place[1]

    def arc(self, start_deg: float, sweep_deg: float) -> tuple[float, float]:
        """A bearing and a sweep of the plan in the drawing."""
        start = self.up * start_deg if self.along > 0 else 180.0 - self.up * start_deg
        return start, self.along * self.up * sweep_deg


def facing_for(mount: str, knuckles: str) -> Facing:
    """How the drawing of that mount is turned; KeyError for an unknown mount."""
    return Facing(knuckles, SIDE_OF[mount])
