"""A demonstration by an experienced fitter: inspect the door, find what is hidden, then follow the adviser.

The adviser is `guide.trade.tuning.adviser`, with the model's exact times. It shows one good way, not the only one.
"""

from dataclasses import dataclass, field
from fractions import Fraction

from guide.practice.door import (
    AIR,
    CAUSES,
    HINGE,
    LEAK,
    SEAL,
    SIZE,
    STRIKE,
    HiddenCause,
    PracticeDoor,
)
from guide.practice.practice import PLACES, RIGHT, STARTS, TURNS, Practice
from guide.practice.push import HARD, SOFT
from guide.trade.tuning.adviser import Adviser
from guide.trade.tuning.readings import Advice, SwingReading, Travel
from guide.trade.tuning.screw_words import turn

CHEAPEST = {
    AIR: "a strip of paper at the gap: one minute",
    SEAL: "an inspection of the frame, with a strip of paper in the seal: one minute",
    STRIKE: "an inspection of the strike's lip: one minute",
    HINGE: "the arm off and one finger on the leaf: five minutes, and surer than any swing",
    LEAK: "an inspection of the body from below: one minute",
    SIZE: "the label compared with the width of the leaf: one minute",
}
INSIDE = "a quarter turn of the sweep valve and one more swing: nothing changes, since the oil goes another way"
"""The cheapest test for a leak if no oil shows."""


@dataclass(slots=True)
class Demonstration:
    """The acts of the experienced fitter, and the door after them."""

    practice: Practice
    """The door as it is left."""
    verdict: str = ""
    """RIGHT, or one of `CAUSES`; empty if the adviser found no way and there is no fault to name."""
    tests: int = 0
    """Of three swings each, without those that a hand stayed on."""
    steps: list[str] = field(default_factory=list)
    """The acts, a line each."""


def cheapest(fault: HiddenCause) -> str:
    """The cheapest test that shows a fault."""
    return INSIDE if fault.inside else CHEAPEST[fault.cause]


def demonstration(at: PracticeDoor) -> Demonstration:
    """The door put right, or rightly given up."""
    done = Demonstration(Practice(at))
    _find_causes(done)
    stays = next((fault for fault in done.practice.faults if fault.put_right is None), None)
    if stays is None:
        tune(done)
    else:
        done.verdict = stays.cause
        done.steps.append(f"No screw cures {CAUSES[stays.cause]}: stops, and says so.")
    return done


def by_screws_alone(at: PracticeDoor) -> Demonstration:
    """The result if nobody looks for a cause."""
    done = Demonstration(Practice(at))
    tune(done)
    return done


def _find_causes(done: Demonstration) -> None:
    practice = done.practice
    for place in PLACES:
        practice.look(place)
    done.steps.append("Inspects closer, label, frame and strike, and holds paper at the gap.")
    for fault in practice.at.faults:
        if fault.cause == HINGE:
            practice.feel()
        if fault.inside:
            practice.swing(90.0, hand=True)
            practice.turn("sweep", "slower", 1)
            practice.swing(90.0, hand=True)
        done.steps.append(f"Finds {CAUSES[fault.cause]}, by {cheapest(fault)}.")
        if fault.put_right is not None:
            practice.put_right(fault.cause)
            done.steps.append("Has that put right before any screw is turned.")


def tune(done: Demonstration) -> None:
    """Turn screws as the adviser says, until it is done or gives up."""
    practice, at = done.practice, done.practice.at
    if practice.settings.get("delay", 0.0) > 0:
        practice.turn("delay", "shorter", 4 * TURNS["delay"])
        done.steps.append("Closes the delayed action off before anything is timed.")
    travel = Travel(at.sizes, Fraction(TURNS["sweep"]), Fraction(TURNS["latch"]))
    adviser = Adviser(at.leaf, at.door.size, at.limit, travel=travel)
    while True:
        done.tests += 1
        reading = _test(practice)
        advice = adviser.next(reading)
        done.steps.append(_line(done.tests, reading, advice, at))
        if advice.outcome:
            break
        for move in advice.moves:
            practice.turn(move.part, move.direction, move.steps)
    if advice.done:
        _cushion(done)
        done.verdict = RIGHT
    elif practice.faults:
        done.verdict = practice.faults[0].cause


def _cushion(done: Demonstration) -> None:
    """Push it open; the backcheck by quarter turns until it neither bangs nor jars."""
    for _ in range(round(4 * TURNS["backcheck"])):
        feels = done.practice.push().feels
        if feels not in (HARD, SOFT):
            done.steps.append("Pushes it briskly open: the backcheck is as it should be.")
            return
        way = "softer" if feels == HARD else "firmer"
        done.practice.turn("backcheck", way, 1)
        done.steps.append(
            f"Pushes it briskly open: {'a wall' if feels == HARD else 'a bang'}."
            f" Backcheck valve: 1/4 turn {way}."
        )


def _test(practice: Practice) -> SwingReading:
    """A hand on the leaf first; if the hand feels no slam, the leaf is let go from all three places.

    An experienced hand goes with the leaf and stops only the blow, so that the time is still right.
    """
    force = practice.measure() if practice.at.limit is not None else None
    first = practice.swing(STARTS[0], hand=True)
    if first.would_slam:
        return SwingReading(
            first.closing.s_90_12, first.closing.s_12_0, True, True, force, from_near=True
        )
    wide, *nearer = (practice.swing(start) for start in STARTS)
    latched = all(swung.closing.latched for swung in (wide, *nearer))
    slammed = any(swung.slammed for swung in (wide, *nearer))
    return SwingReading(wide.closing.s_90_12, wide.closing.s_12_0, latched, slammed, force, True)


def _line(test: int, reading: SwingReading, advice: Advice, at: PracticeDoor) -> str:
    first = "stops before 12 degrees" if reading.s_90_12 is None else f"{reading.s_90_12:.1f} s"
    last = "" if reading.s_12_0 is None else f" and {reading.s_12_0:.1f} s"
    ends = (
        "slams into the hand"
        if reading.slammed
        else "latches"
        if reading.latched
        else "does not latch"
    )
    if advice.done:
        then = "Turns nothing more."
    elif advice.impossible:
        then = "Gives up on the screws."
    else:
        then = " ".join(turn(move, None) for move in advice.moves) or "Measures the force again."
        then = then.replace(" by the label", "").replace(" by the sheet", "")
    return f"Test {test}: {first}{last}, {ends}. {then}"
