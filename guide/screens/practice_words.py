"""The words of a practice door: its facts, the leaf's place on its way, and the debrief."""

from fractions import Fraction

from guide.measures import Quantity
from guide.practice.door import PracticeDoor
from guide.practice.practice import Practice, PracticeSwing
from guide.practice.wording import edge_at, force, length, let_go
from guide.procedure.facts import Fact
from guide.screens.key_hint import KeyHint
from guide.screens.step_words import key_rows
from guide.screens.words_shown import Piece, in_lines
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.swing.path import TWELVE
from guide.trade.tuning.readings import LONGEST, LONGEST_LAST, SHORTEST
from guide.translation import _

WATCHED = Fact("swing_time", "time", step=Quantity(Fraction(1, 10), "s"))
"""The fact that the stopwatch reads."""
UNTIMED = _("Not timed. A, then T: the same swing with the watch.")
_WAY = 24
"""Columns of the leaf's way."""


def told(at: PracticeDoor) -> list[str]:
    """The measurable facts of the door, and its requirements."""
    leaf = f"{length(at.door.width, at.units)} by {length(at.door.height, at.units)}"
    lines = [
        _("- Leaf {leaf}").format(leaf=leaf),
        f"- A {MOUNT_WORDS[at.mount]}",
        _("- {shortest:g} to {longest:g} s from 90 degrees to the mark").format(
            shortest=SHORTEST, longest=LONGEST
        ),
        f"- {mark_words(at)}",
        _("- {most:g} s at most from the mark to shut").format(most=LONGEST_LAST),
        _("- Latches from 90, 45 and 10 degrees, and never slams"),
        _("- Pushed open, it is cushioned before its stop"),
    ]
    if at.limit is not None:
        lines.append(_("- Opens with {force} at most").format(force=force(at.limit, at.units)))
    return lines


def told_in_full(at: PracticeDoor) -> list[str]:
    """The same with the complaint, and where the limit of the force comes from."""
    lines = [at.about, *told(at)]
    if at.limit_from:
        lines.append(_("- The limit of the force: {limit_from}").format(limit_from=at.limit_from))
    return lines


def mark_words(at: PracticeDoor) -> str:
    """The distance at 12 degrees, measured with a tape, since an angle cannot be seen."""
    return _("The mark, 12 degrees: {distance} at the edge").format(
        distance=edge_at(at.door.width, TWELVE, at.units)
    )


def beside(practice: Practice) -> list[Piece]:
    """The panel: the door, and the readings of watch and gauge so far, first since the window may end below them."""
    lines = [
        _("- {force} opened it").format(force=force(one, practice.at.units))
        for one in practice.forces
    ]
    lines += [
        f"- From {swung.start:g}: {', '.join(f'{one:.1f} s' for one in swung.read)}"
        for swung in practice.swings
        if swung.read
    ]
    read: list[Piece] = ["\n".join(lines), "\n\n"] if lines else []
    return [(f"{practice.at.title}\n", "bold $secondary"), *read, "\n".join(told(practice.at))]


def done_so_far(practice: Practice) -> list[Piece]:
    """The door, and every act so far with its result."""
    rows: list[list[Piece]] = [[(practice.at.title, "bold $secondary")]]
    rows += [[line] for line in told_in_full(practice.at)]
    rows += [[], [(_("Done so far"), "bold $secondary")], [so_far(practice)]]
    readings = {let_go(swung.number, swung.start, False): swung for swung in practice.swings}
    for act in practice.acts:
        rows.append([(f"- {act.did}", "bold")])
        rows += [[f"  {line}"] for line in act.said]
        swung = next((one for start, one in readings.items() if act.did.startswith(start)), None)
        rows += [[f"  {read_of(swung)}"]] if swung is not None and swung.read else []
    return in_lines(rows)


def so_far(practice: Practice) -> str:
    """The swings and turns so far, and the time at the door."""
    turns = len(practice.turned) + practice.forced
    counted = ((_("let go"), len(practice.swings)), (_("screws turned"), turns))
    done = [f"{words} {_times(count)}" for words, count in counted if count]
    done.append(_("{minutes:.0f} min").format(minutes=practice.spent / 60))
    if not practice.acts:
        return _("So far: nothing done.")
    return _("So far: {done}.").format(done=", ".join(done))


def _times(count: int) -> str:
    return {1: _("once"), 2: _("twice")}.get(count) or _("{count} times").format(count=count)


def read_of(swung: PracticeSwing) -> str:
    """The stopwatch readings of a swing."""
    parts = [f"{seconds:.1f} s" for seconds in swung.read]
    if swung.start <= TWELVE:
        return _("Your watch: {time} to shut.").format(time=parts[0])
    if not parts[1:]:
        return _("Your watch: {time} to the mark.").format(time=parts[0])
    told = _("Your watch: {to_mark} to the mark, {to_shut} to shut.")
    return told.format(to_mark=parts[0], to_shut=parts[1])


def way_words(deg: float, opens_to: float) -> str:
    """The leaf between shut and wide open, with the 12-degree mark on its way."""
    cells = ["─"] * _WAY
    cells[_cell(TWELVE, opens_to)] = "┼"
    cells[_cell(deg, opens_to)] = "●"
    return _("shut {way} open").format(way=f"├{''.join(cells)}┤")


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
    keys = key_rows(_KEYS)
    line = _("Above the drawing a line shows the leaf on its way; ┼ is the 12-degree mark.")
    return in_lines([[(_("Keys of a practice door"), "bold $secondary")], *keys, [line]])


_KEYS = (
    ("1-9", _("Pick the item of that number")),
    ("T", _("Let the leaf go and start the watch; at the mark; when it is shut")),
    ("Enter", _("Let it go without the watch, so without times; go on")),
    ("H", _("Keep a hand on the leaf, or not")),
    ("F", _("Skip the rest of a swing or a push; it is not timed")),
    ("A", _("The same swing again")),
    ("S", _("What was done so far")),
    ("←", _("Back")),
    ("Ctrl+Q", _("Close; without a verdict nothing is kept")),
)


PICK = KeyHint("enter", _("Pick"))
LET_GO = (KeyHint("t", _("Timed")), KeyHint("enter", _("Not timed")), KeyHint("h", _("Hand")))
MOVING = (KeyHint("t", _("Stopwatch")), KeyHint("f", _("Skip")))
STOOD = (KeyHint("enter", _("Go on")), KeyHint("a", _("Again")))
PUSHING = (KeyHint("f", _("Skip")),)
BACK = KeyHint("left", _("Back"))
KNOWN = KeyHint("s", _("Done so far"))
HELP = KeyHint("question_mark", _("Help"))
