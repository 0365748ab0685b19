"""The stopwatch of a timed step: the time in large figures, every swing, and what counts."""

from guide import measures
from guide.procedure.facts import Fact
from guide.run.stopwatch import Stopwatch
from guide.screens.figures import in_five_rows, in_three_rows
from guide.screens.host import host
from guide.screens.words_shown import Piece, Words
from guide.translation import _, ngettext

_ROOM = 20
"""Rows of the window from which the large figures have five rows."""


class WatchPanel(Words):
    """The running time, or the median of the swings so far."""

    def show(self, watch: Stopwatch, fact: Fact | None) -> None:
        """Show the watch as it is now, for the times of `fact`; nothing for None."""
        if fact is None:
            self.tell()
            return
        timed = watch.taken(fact)
        if watch.running:
            digits = f"{watch.reading():.1f}"
        else:
            digits = f"{float(timed.value.base):.1f}" if timed is not None else "0.0"
        ascii_wanted = host(self.app).ascii
        if self.app.size.height >= _ROOM or ascii_wanted:
            rows = in_five_rows(digits, ascii_only=ascii_wanted)
        else:
            rows = in_three_rows(digits)
        pieces: list[Piece] = [("\n".join(rows), "$primary")]
        if timed is not None:
            swings = ", ".join(map(measures.write, timed.swings))
            counts = ngettext(
                "Swing: {swings}.", "Swings: {swings}; the median counts.", len(timed.swings)
            )
            pieces.append(f"\n{counts.format(swings=swings)}")
            if timed.dropped:
                dropped = ", ".join(map(measures.write, timed.dropped))
                slip = _("\nNot counted, a slip of the thumb: {dropped}.").format(dropped=dropped)
                pieces.append((slip, "bold"))
        self.tell(*pieces)
