"""From which side of the door the present step is done, and on which hand its hinges are then."""

from typing import NamedTuple

from guide.run.state import State
from guide.trade.mounts import PULL_SIDE

BUTTS, CONTINUOUS, PIVOTS = "butts", "continuous", "pivots"
_SHAPES = {
    "butt": BUTTS,
    "swing-clear": BUTTS,
    "continuous": CONTINUOUS,
    "centre-pivot": PIVOTS,
    "offset-pivot": PIVOTS,
}
_OTHER = {"left": "right", "right": "left"}


class Standpoint(NamedTuple):
    """Where the fitter stands."""

    side: str
    """`pull` or `push`."""
    hinges: str
    """`left` or `right`, for somebody who faces the door from there."""
    shape: str
    """BUTTS, CONTINUOUS or PIVOTS."""

    @property
    def says(self) -> str:
        """In one sentence."""
        return f"{self.side.capitalize()} side. The hinges are on your {self.hinges}."


def standpoint(state: State) -> Standpoint | None:
    """The side for the step the run is at; None before the hand is known.

    Until the mount is chosen the door is looked at from the pull side, where the knuckles are; then from the side
    that the closer goes on.
    """
    knuckles, mount = state.known("knuckles"), state.known("mount")
    if knuckles not in _OTHER:
        return None
    pull = mount is None or mount in PULL_SIDE
    shape = _SHAPES.get(str(state.known("hinge")), BUTTS)
    if pull:
        return Standpoint("pull", str(knuckles), shape)
    return Standpoint("push", _OTHER[str(knuckles)], shape)
