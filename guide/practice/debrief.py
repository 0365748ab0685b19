"""The debrief of a practice door: what was hidden, what was done, what an old hand would have done."""

from guide.practice.door import CAUSES
from guide.practice.experienced_fitter import OldHand, by_screws_alone, cheapest, old_hand
from guide.practice.moves import looked_at_again
from guide.practice.practice import RIGHT, Practice, Swung
from guide.practice.score import Score, amiss, score
from guide.trade.swing.model import CAUTION


def debrief(practice: Practice) -> tuple[Score, list[tuple[str, list[str]]]]:
    """The score, and the sections of the debrief: a heading and its lines."""
    guide = old_hand(practice.at)
    made = score(practice, guide)
    sections = [
        (
            f"{made.grade}: {made.points} of 100",
            [f"{row.what}: {row.points} of {row.most} ({row.why})" for row in made.rows],
        ),
        ("What was hidden", _hidden(practice)),
        ("Your turns, looked at again", looked_at_again(practice)),
        ("The times, yours and the model's", _times(practice)),
        ("What an old hand would have done", _guide(guide)),
        ("Mind", [CAUTION]),
    ]
    return made, [(heading, lines) for heading, lines in sections if lines]


def _hidden(practice: Practice) -> list[str]:
    at = practice.at
    lines = [
        f"{CAUSES[fault.cause].capitalize()}. Cheapest test: {cheapest(fault)}."
        for fault in at.faults
    ]
    if not lines:
        lines = ["Nothing: the screws alone cure this door."]
    else:
        alone = by_screws_alone(at)
        end = "does get it right" if alone.verdict == RIGHT else "gives up"
        lines.append(f"By screws alone the adviser {end} after {many(alone.tests, 'test')}.")
    valves = at.door.valves
    delay = f", delayed action {at.delay:g}" if at.delay is not None else ""
    lines.append(
        f"As found: sweep {valves.sweep:g} turns open, latch {valves.latch:g}, backcheck {valves.back:g}{delay},"
        f" spring at EN size"
        f" {at.door.size:g}; the width alone asks for EN size {at.size_for_width}."
    )
    left = amiss(practice.door, at)
    now = practice.settings
    lines.append(
        f"As left: sweep {now['sweep']:g} turns open, latch {now['latch']:g}, backcheck {now['backcheck']:g},"
        f" spring at EN size"
        f" {practice.size:g}: {'; '.join(left) or 'all within limits'}."
    )
    return lines


def _times(practice: Practice) -> list[str]:
    return [_timed(swung) for swung in practice.swings if swung.read]


def _timed(swung: Swung) -> str:
    closing = swung.closing
    true = [closing.s_90_12, closing.s_12_0] if swung.start > 12 else [closing.s_12_0]
    pairs = [
        f"{read:.1f} s ({'never' if exact is None else f'{exact:.2f} s'})"
        for read, exact in zip(swung.read, true, strict=False)
    ]
    return f"Swing {swung.number} from {swung.start:g} degrees: {', then '.join(pairs)}"


def _guide(guide: OldHand) -> list[str]:
    swings, minutes = len(guide.practice.swings), guide.practice.spent / 60
    total = f"In all {many(swings, 'swing')} and {minutes:.0f} minutes."
    if guide.tests:
        total += f" {many(guide.tests, 'test')}: each from 90, 45 and 10 degrees."
    return [*guide.steps, total]


def many(number: int, word: str) -> str:
    """A number and its word: 1 swing, 2 swings."""
    return f"{number} {word}{'' if number == 1 else 's'}"
