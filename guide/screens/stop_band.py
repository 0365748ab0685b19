"""The band over a hold or a stop: nothing else has a red head over the whole width."""

from textual.containers import Horizontal

from guide.screens.figures import in_three_rows
from guide.screens.words_shown import Words
from guide.translation import _

READ_EACH = _("Read each value off your tape.\nNothing is drilled yet.")
STOP_SAYS = _("An answer that holes were drilled by has changed.")


class StopBand(Horizontal):
    """STOP in large figures, or as a word where there is little room, and why."""

    def __init__(self) -> None:
        self._said = Words(READ_EACH, classes="said")
        super().__init__(
            Words("\n".join(in_three_rows("STOP")), classes="big"),
            Words("STOP", classes="small"),
            self._said,
            id="stop",
        )

    def show(self, kind: str) -> None:
        """Say what a step of this kind stops for."""
        self._said.tell(STOP_SAYS if kind == "stop" else READ_EACH)
