"""This opening drawn on the screen, in whatever room there is; the leaf can be swung in it."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from guide.drawing.for_step import DoorFacts, Drawing


class DoorPicture:
    """One view of one opening; drawn once for each room it is shown in."""

    def __init__(
        self, door: "DoorFacts", view: str, angle: float = 0.0, *, swinging: bool = False
    ) -> None:
        self.door = door
        self.view = view
        self.angle = angle
        """How far the leaf stands open in a plan [deg]."""
        self.swinging = swinging
        """Whether a plan keeps its scale and place while the leaf is swung."""
        self.instead = ""
        """What to read if nothing could be drawn, once that was tried."""
        self._made: dict[tuple[int, int, bool], Drawing] = {}

    def lines(self, columns: int, rows: int, ascii_only: bool) -> Sequence[str]:
        """The drawing in at most that many cells; none if it finds no room or cannot be drawn."""
        from guide.drawing.for_step import drawing_for

        room = (columns, rows, ascii_only)
        if room not in self._made:
            self._made[room] = drawing_for(
                self.door,
                columns,
                rows,
                angle=self.angle,
                view=self.view,
                swinging=self.swinging,
                ascii_only=ascii_only,
            )
        self.instead = self._made[room].says
        return self._made[room].lines
