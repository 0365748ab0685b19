"""A drawing of this opening, in the room that there is."""

from typing import TYPE_CHECKING

from guide.run.step_drawing import DrawnOpening
from guide.screens.host import host
from guide.screens.words_shown import Words

if TYPE_CHECKING:
    from guide.drawing.for_step import Drawing
    from guide.drawing.plot import Plot


class PicturePanel(Words):
    """The opening as it is known, or nothing."""

    _made: "tuple[tuple[object, ...], Drawing | None]" = ((), None)
    """What was drawn last, and the drawing: to draw takes longer than all the rest of a step."""

    def show(self, opening: DrawnOpening | None, columns: int, rows: int) -> str:
        """Draw it in at most so many cells; what to read instead where nothing could be drawn."""
        drawing = self._drawn(opening, columns, rows)
        self.tell("\n".join(drawing.lines if drawing is not None else ()))
        return drawing.says if drawing is not None and not drawing.lines else ""

    def _drawn(self, opening: DrawnOpening | None, columns: int, rows: int) -> "Drawing | None":
        if opening is None or columns < 1 or rows < 1:
            return None
        wanted = (opening, columns, rows)
        if self._made[0] != wanted:
            drawing = opening.drawing_in(columns, rows, ascii_only=host(self.app).ascii)
            self._made = (wanted, drawing)
        return self._made[1]

    def show_plot(self, plot: "Plot | None", columns: int, rows: int) -> None:
        """Draw a plot in at most so many cells, or nothing."""
        if plot is None:
            self.tell()
            return
        from guide.drawing.plot import text_plot  # a few steps have one

        ascii_wanted = host(self.app).ascii
        self.tell("\n".join(text_plot(plot, columns, rows, ascii_only=ascii_wanted)))
