"""What an apprentice turned, looked at again: which turns went the wrong way, and which fought a hidden cause."""

from collections.abc import Iterable

from guide.practice.door import CAUSES, Fault, PracticeDoor
from guide.practice.practice import STARTS, Practice
from guide.practice.push import HARD, SOFT, feels_of
from guide.practice.wording import force
from guide.trade.swing.model import SLAM_SPEED, Door, close, opening_force
from guide.trade.tuning.readings import LONGEST, SHORTEST

NEAR = 0.3
"""A time that is within so much of its limits is not yet a reason to call a turn wrong [s]; ours."""


def looked_at_again(practice: Practice) -> list[str]:
    """A line for each turn that went the wrong way, and one for those that fought a hidden cause."""
    lines = []
    for turned in practice.turned:
        why = wrong_way(practice.at, turned.door, turned.screw, turned.direction)
        if why:
            lines.append(f"{turned.did}, though {why}: the wrong way.")
    vain = [(turned, fought(turned.faults, turned.screw)) for turned in practice.turned]
    causes = list(dict.fromkeys(cause for _, cause in vain if cause))
    if causes:
        turns = sum(1 for _, cause in vain if cause)
        times = "Once" if turns == 1 else f"{turns} times"
        lines.append(
            f"{times} a screw was turned while {causes[0]} was still there: no screw cures that."
        )
    return lines


def wrong_way(at: PracticeDoor, door: Door, screw: str, direction: str) -> str:
    """Why turning a screw so takes the door as it acts now further from its limits; empty where it does not."""
    judge = {"sweep": _sweep, "latch": _latch, "backcheck": _backcheck, "spring": _spring}.get(
        screw
    )
    if judge is None:
        return "it waits as it is" if direction == "longer" else ""
    return judge(at, door, direction)


def fought(faults: Iterable[Fault], screw: str) -> str:
    """Which hidden causes a turn fights in vain, in words; empty where there are none or it does not fight them.

    The backcheck has no part in the closing, and a delayed action is closed off whatever else is wrong.
    """
    if screw in ("backcheck", "delay"):
        return ""
    return " and ".join(CAUSES[fault.cause] for fault in faults)


def _sweep(at: PracticeDoor, door: Door, direction: str) -> str:
    seconds = close(door).s_90_12
    if seconds is None:
        return "it stopped before the mark" if direction == "slower" else ""
    if direction == "slower" and seconds > LONGEST + NEAR:
        return f"it took {seconds:.1f} s to the mark already"
    if direction == "faster" and seconds < SHORTEST - NEAR:
        return f"it took only {seconds:.1f} s to the mark"
    return ""


def _latch(at: PracticeDoor, door: Door, direction: str) -> str:
    ends = [close(door, start) for start in STARTS]
    slams = any(end.edge_speed > SLAM_SPEED for end in ends)
    short = not all(end.latched for end in ends)
    if direction == "faster" and slams and not short:
        return "it slammed"
    if direction == "slower" and short and not slams:
        return "it did not latch each time"
    return ""


def _backcheck(at: PracticeDoor, door: Door, direction: str) -> str:
    feels = feels_of(door, at.opens_to)
    if direction == "firmer" and feels == HARD:
        return "it was like a wall"
    if direction == "softer" and feels == SOFT:
        return "it banged into its stop"
    return ""


def _spring(at: PracticeDoor, door: Door, direction: str) -> str:
    push = opening_force(door)
    if direction == "stronger" and at.limit is not None and push > at.limit:
        return f"it took {force(push, at.units)} to open, more than it may"
    short = not all(close(door, start).latched for start in STARTS)
    if direction == "weaker" and short and (at.limit is None or push <= at.limit):
        return "it did not latch each time"
    return ""
