"""The rows of the stopwatch: the time in large type, every swing, and what the next press means."""

from guide import measures
from guide.procedure.facts import Fact
from guide.screens.big_digits import large
from guide.screens.rows import Row
from guide.screens.stopwatch import Stopwatch


def watch_rows(watch: Stopwatch, fact: Fact) -> list[Row]:
    """The running time or the median so far, and the swings it comes from."""
    timed = watch.taken(fact)
    if watch.running:
        digits = f"{watch.reading():.1f}"
    else:
        digits = f"{float(timed.value.base):.1f}" if timed is not None else "0.0"
    rows = [Row(), *large(digits)]
    if timed is None:
        return rows
    swings = ", ".join(measures.write(one) for one in timed.swings)
    many = len(timed.swings) > 1
    rows += [Row(), Row(f"Swings: {swings}; the median counts." if many else f"Swing: {swings}.")]
    if timed.dropped:
        dropped = ", ".join(measures.write(one) for one in timed.dropped)
        rows.append(Row(f"Not counted, a slip of the thumb: {dropped}.", "bold"))
    return rows


def watch_hint(watch: Stopwatch) -> str:
    """What the next press means while it runs."""
    if watch.parts_left > 1:
        return "running: T as the edge passes the mark"
    return "running: T stops it"
