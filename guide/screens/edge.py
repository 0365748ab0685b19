"""The card's edge: where the hinges are for somebody who faces the door, in the hinge's own shape."""

from textual.widget import Widget

from guide.run.standpoint import CONTINUOUS, PIVOTS, Standpoint
from guide.screens.host import host

LATCH, NONE = "latch", "none"
_MIRRORED = {ord("▐"): "▌"}


class Edge(Widget):
    """One edge of the card: three knuckles, one long bar, two dots, or the latch bolt across from them."""

    def __init__(self, side: str) -> None:
        """`side` is `left` or `right`."""
        super().__init__(classes=f"-{side} -none")
        self.shape = NONE
        self._side = side

    def show(self, stand: Standpoint | None) -> None:
        """Show what is on this side for somebody who stands there; nothing where nobody knows."""
        shape = NONE if stand is None else stand.shape if stand.hinges == self._side else LATCH
        if shape != self.shape:
            self.remove_class(f"-{self.shape}").add_class(f"-{shape}")
            self.shape = shape
            self.refresh(layout=True)

    def render(self) -> str:
        """The edge, line by line."""
        wide, high = self.size
        if high < 1 or wide < 1:
            return ""
        rows = [("▐█" if self.shape == CONTINUOUS else " ▐")[-wide:]] * high
        if self.shape == LATCH:
            rows = ["▐" if y in (high // 2 - 1, high // 2) else " " for y in range(high)]
        elif self.shape == PIVOTS:
            for at in {1, high - 2} & set(range(high)):
                rows[at] = "●▐"[:wide]
        elif self.shape != CONTINUOUS and high >= 5:
            knuckle = ["▄█", "██", "▀█"] if wide > 1 else ["█"] * 3
            for top in (1, (high - 3) // 2, high - 4):
                rows[top : top + 3] = knuckle
        if self._side == "right":
            rows = [row[::-1].translate(_MIRRORED) for row in rows]
        text = "\n".join(rows[:high])
        return text.translate(_ASCII) if host(self.app).ascii else text


_ASCII = {ord(sign): "|" for sign in "▐▌"} | {ord(sign): "#" for sign in "█▄▀"} | {ord("●"): "o"}
