"""The card's edge: where the hinges are for somebody who faces the door, in the hinge's own shape."""

from textual.widget import Widget

from guide.run.standpoint import CONTINUOUS, PIVOTS
from guide.screens.host import host

LATCH, NONE = "latch", "none"
_MIRRORED = {ord("▐"): "▌"}


class Edge(Widget):
    """One edge of the card: three knuckles, one long bar, two dots, or the latch bolt across from them."""

    def __init__(self, *, right: bool = False) -> None:
        name = "right-edge" if right else "left-edge"
        super().__init__(id=name, classes="-right -none" if right else "-none")
        self.shape = NONE
        self.right = right

    def show(self, shape: str) -> None:
        """Show another shape: one of those of `guide.run.standpoint`, LATCH or NONE."""
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
        if self.right:
            rows = [row[::-1].translate(_MIRRORED) for row in rows]
        text = "\n".join(rows[:high])
        return text.translate(_ASCII) if host(self.app).ascii else text


_ASCII = {ord(sign): "|" for sign in "▐▌"} | {ord(sign): "#" for sign in "█▄▀"} | {ord("●"): "o"}
