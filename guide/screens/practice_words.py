"""The words of a practice door: its facts, the leaf's place on its way, and the debrief."""

from fractions import Fraction

from guide.measures import Quantity, nearest, write
from guide.practice.door import PracticeDoor
from guide.practice.practice import Practice, PracticeSwing
from guide.practice.wording import edge_at, force
from guide.procedure.facts import Fact
from guide.screens.key_hint import KeyHint
from guide.screens.words_shown import Piece
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.swing.path import TWELVE
from guide.trade.tuning.readings import LONGEST, LONGEST_LAST, SHORTEST

WATCHED = Fact("swing_time", "time", step=Quantity(Fraction(1, 10), "s"))
"""The fact that the stopwatch reads."""
UNTIMED = "Not timed. A, then T: the same swing with the watch."
_WAY = 24
"""Columns of the leaf's way."""


def told(at: PracticeDoor) -> list[str]:
    """The measurable facts of the door, and its requirements."""
    leaf = f"{_length(at.door.width, at.units)} by {_length(at.door.height, at.units)}"
    lines = [
        f"- Leaf {leaf}",
        f"- A {MOUNT_WORDS[at.mount]}",
        f"- {SHORTEST:g} to {LONGEST:g} s from 90 degrees to the mark",
        f"- {mark_words(at)}",
        f"- {LONGEST_LAST:g} s at most from the mark to shut",
        "- Latches from 90, 45 and 10 degrees, and never slams",
        "- Pushed open, it is cushioned before its stop",
    ]
    if at.limit is not None:
        lines.append(f"- Opens with {force(at.limit, at.units)} at most")
    return lines


def told_in_full(at: PracticeDoor) -> list[str]:
    """The same with the complaint, and where the limit of the force comes from."""
    lines = [at.about, *told(at)]
    if at.limit_from:
        lines.append(f"- The limit of the force: {at.limit_from}")
    return lines


def mark_words(at: PracticeDoor) -> str:
    """The distance at 12 degrees, measured with a tape, since an angle cannot be seen."""
    return f"The mark, 12 degrees: {edge_at(at.door.width, TWELVE, at.units)} at the edge"


def beside(practice: Practice) -> list[Piece]:
    """The panel: the door, and the readings of watch and gauge so far."""
    lines = told(practice.at)
    lines += [f"- {force(one, practice.at.units)} opened it" for one in practice.forces]
    lines += [
        f"- From {swung.start:g}: {', '.join(f'{one:.1f} s' for one in swung.read)}"
        for swung in practice.swings
        if swung.read
    ]
    return [(f"{practice.at.title}\n", "bold $secondary"), "\n".join(lines)]


def done_so_far(practice: Practice) -> list[Piece]:
    """The door, and every act so far with its result."""
    pieces: list[Piece] = [(practice.at.title, "bold $secondary")]
    pieces += ["\n", "\n".join(told_in_full(practice.at)), ("\n\nDone so far", "bold $secondary")]
    pieces.append(f"\n{so_far(practice)}")
    readings = {f"Swing {swung.number} ": swung for swung in practice.swings}
    for act in practice.acts:
        pieces.append((f"\n- {act.did}", "bold"))
        pieces += [f"\n  {line}" for line in act.said]
        swung = next((one for start, one in readings.items() if act.did.startswith(start)), None)
        if swung is not None and swung.read:
            pieces.append(f"\n  {read_of(swung)}")
    return pieces


def so_far(practice: Practice) -> str:
    """The swings and turns so far, and the time at the door."""
    turns = len(practice.turned) + practice.forced
    counted = (("let go", len(practice.swings)), ("screws turned", turns))
    done = [f"{words} {_times(count)}" for words, count in counted if count]
    if not practice.acts:
        return "So far: nothing done."
    return f"So far: {', '.join([*done, f'{practice.spent / 60:.0f} min'])}."


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def read_of(swung: PracticeSwing) -> str:
    """The stopwatch readings of a swing."""
    parts = [f"{seconds:.1f} s" for seconds in swung.read]
    if swung.start <= TWELVE:
        return f"Your watch: {parts[0]} to shut."
    return f"Your watch: {parts[0]} to the mark" + (f", {parts[1]} to shut." if parts[1:] else ".")


def way_words(deg: float, opens_to: float) -> str:
    """The leaf between shut and wide open, with the 12-degree mark on its way."""
    cells = ["─"] * _WAY
    cells[_cell(TWELVE, opens_to)] = "┼"
    cells[_cell(deg, opens_to)] = "●"
    return f"shut ├{''.join(cells)}┤ open"


def _cell(deg: float, opens_to: float) -> int:
    return min(_WAY - 1, max(0, round(deg / opens_to * (_WAY - 1))))


def debrief_words(sections: list[tuple[str, list[str]]]) -> list[Piece]:
    """The debrief, ready to be paged."""
    pieces: list[Piece] = []
    for heading, lines in sections:
        pieces.append((f"{heading}\n", "bold $secondary"))
        pieces.append("\n".join(f"- {line}" for line in lines) + "\n\n")
    return pieces


def help_on_practice() -> list[Piece]:
    """Every key of a practice door."""
    pieces: list[Piece] = [("Keys of a practice door", "bold $secondary")]
    for key, meaning in (
        ("1-9", "Pick the item of that number"),
        ("T", "Let the leaf go and start the watch; at the mark; when it is shut"),
        ("Enter", "Let it go without the watch, so without times; go on"),
        ("H", "Keep a hand on the leaf, or not"),
        ("F", "Skip the rest of a swing or a push; it is not timed"),
        ("A", "The same swing again"),
        ("S", "What was done so far"),
        ("←", "Back"),
        ("Ctrl+Q", "Close; without a verdict nothing is kept"),
    ):
        pieces += ["\n", (f"{key:<7}", "bold"), meaning]
    pieces.append("\nAbove the drawing a line shows the leaf on its way; ┼ is the 12-degree mark.")
    return pieces


def _length(metres: float, units: str) -> str:
    if units == "metric":
        return write(Quantity(Fraction(round(metres * 1000)), "mm"))
    inches = Quantity(Fraction(round(metres / 0.0254 * 16), 16), "in")
    return write(nearest(inches, Quantity(Fraction(1, 16), "in")))


PICK = KeyHint("enter", "Enter", "Pick")
LET_GO = (
    KeyHint("t", "T", "Timed"),
    KeyHint("enter", "Enter", "Not timed"),
    KeyHint("h", "H", "Hand"),
)
MOVING = (KeyHint("t", "T", "Stopwatch"), KeyHint("f", "F", "Skip"))
STOOD = (KeyHint("enter", "Enter", "Go on"), KeyHint("a", "A", "Again"))
PUSHING = (KeyHint("f", "F", "Skip"),)
BACK = KeyHint("left", "←", "Back")
KNOWN = KeyHint("s", "S", "Done so far")
HELP = KeyHint("question_mark", "?", "Help")
