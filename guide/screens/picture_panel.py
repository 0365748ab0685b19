"""A drawing of this opening, in the room that there is."""

from typing import TYPE_CHECKING

from guide.screens.door_picture import DoorPicture
from guide.screens.host import host
from guide.screens.words_shown import Words

if TYPE_CHECKING:
    from guide.drawing.plot import Plot


class PicturePanel(Words):
    """The opening as it is known, or nothing."""

    def show(self, picture: DoorPicture | None, columns: int, rows: int) -> bool:
        """Draw it in at most so many cells; whether anything was drawn."""
        if picture is None or columns < 1 or rows < 1:
            self.tell()
            return False
        lines = picture.lines(columns, rows, host(self.app).ascii)
        self.tell("\n".join(lines))
        return bool(lines)

    def show_plot(self, plot: "Plot | None", columns: int, rows: int) -> None:
        """Draw a plot in at most so many cells, or nothing."""
        if plot is None:
            self.tell()
            return
        from guide.drawing.plot import text_plot  # a few steps have one

        ascii_wanted = host(self.app).ascii
        self.tell("\n".join(text_plot(plot, columns, rows, ascii_only=ascii_wanted)))
