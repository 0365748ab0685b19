"""The debrief of a practice door: what was hidden, which turns were wrong, and what an experienced fitter does."""

from collections.abc import Iterable

from guide.practice.door import CAUSES, HiddenCause, PracticeDoor
from guide.practice.experienced_fitter import (
    Demonstration,
    by_screws_alone,
    cheapest,
    demonstration,
)
from guide.practice.practice import RIGHT, STARTS, Practice, PracticeSwing
from guide.practice.push import HARD, SOFT, feels_of
from guide.practice.score import Score, past_limits, score
from guide.practice.wording import force
from guide.trade.swing.model import CAUTION, SLAM_SPEED, SwingingDoor, close, opening_force
from guide.trade.tuning.readings import LONGEST, SHORTEST
from guide.translation import _, ngettext


def debrief(practice: Practice) -> tuple[Score, list[tuple[str, list[str]]]]:
    """The score, and the sections of the debrief: a heading and its lines."""
    guide = demonstration(practice.at)
    made = score(practice, guide)
    sections = [
        (
            made.grade,
            [row.told for row in sorted(made.rows, key=lambda row: row.points < row.most)],
        ),
        (_("What was hidden"), _hidden(practice)),
        (_("Your turns that did not help"), wrong_turns(practice)),
        (_("The times, yours and the model's"), _times(practice)),
        (_("What an experienced fitter would have done"), _guide(guide)),
        (_("Keep in mind"), [CAUTION]),
    ]
    return made, [(heading, lines) for heading, lines in sections if lines]


def _hidden(practice: Practice) -> list[str]:
    at = practice.at
    lines = [
        _("{cause}. Cheapest test: {test}.").format(
            cause=CAUSES[fault.cause].capitalize(), test=cheapest(fault)
        )
        for fault in at.faults
    ]
    if not lines:
        lines = [_("Nothing: the screws alone cure this door.")]
    else:
        alone = by_screws_alone(at)
        end = _("does get it right") if alone.verdict == RIGHT else _("gives up")
        lines.append(
            _("By screws alone the adviser {end} after {many}.").format(
                end=end, many=_tests(alone.tests)
            )
        )
    valves = at.door.valves
    delay = _(", delayed action {delay:g}").format(delay=at.delay) if at.delay is not None else ""
    lines.append(
        _(
            "As found: sweep {sweep:g} turns open, latch {latch:g}, backcheck {back:g}{delay}, spring at EN size "
            "{size:g}; the width alone needs EN size {size_for_width}."
        ).format(
            sweep=valves.sweep,
            latch=valves.latch,
            back=valves.back,
            delay=delay,
            size=at.door.size,
            size_for_width=at.size_for_width,
        )
    )
    left = past_limits(practice.door, at)
    now = practice.settings
    lines.append(
        _(
            "As left: sweep {sweep:g} turns open, latch {latch:g}, backcheck {backcheck:g}, spring at EN size "
            "{size:g}: {limits}."
        ).format(
            sweep=now["sweep"],
            latch=now["latch"],
            backcheck=now["backcheck"],
            size=practice.size,
            limits="; ".join(left) or _("all within limits"),
        )
    )
    return lines


def _times(practice: Practice) -> list[str]:
    return [_timed(swung) for swung in practice.swings if swung.read]


def _timed(swung: PracticeSwing) -> str:
    closing = swung.closing
    true = [closing.s_90_12, closing.s_12_0] if swung.start > 12 else [closing.s_12_0]
    pairs = [
        f"{read:.1f} s ({'never' if exact is None else f'{exact:.2f} s'})"
        for read, exact in zip(swung.read, true, strict=False)
    ]
    return _("Swing {number} from {start:g} degrees: {times}").format(
        number=swung.number, start=swung.start, times=_(", then ").join(pairs)
    )


def _guide(guide: Demonstration) -> list[str]:
    swings, minutes = len(guide.practice.swings), guide.practice.spent / 60
    total = _("In all {many} and {minutes:.0f} minutes.").format(
        many=_swings(swings), minutes=minutes
    )
    if guide.tests:
        total += _(" {many}: each from 90, 45 and 10 degrees.").format(many=_tests(guide.tests))
    return [*guide.steps, total]


def _swings(count: int) -> str:
    return ngettext("{count} swing", "{count} swings", count).format(count=count)


def _tests(count: int) -> str:
    return ngettext("{count} test", "{count} tests", count).format(count=count)


NEAR = 0.3
"""A turn is not called wrong for a time so close to its limits [s]; ours."""


def wrong_turns(practice: Practice) -> list[str]:
    """A line for each turn that made the door worse, and one for those made in vain while a hidden cause lasted."""
    lines = []
    for turned in practice.turned:
        why = wrong_way(practice.at, turned.door, turned.screw, turned.direction)
        if why:
            lines.append(_("{did}, though {why}: the wrong way.").format(did=turned.did, why=why))
    vain = [(turned, fought(turned.faults, turned.screw)) for turned in practice.turned]
    causes = list(dict.fromkeys(cause for _, cause in vain if cause))
    if causes:
        turns = sum(1 for _, cause in vain if cause)
        times = _("Once") if turns == 1 else _("{turns} times").format(turns=turns)
        lines.append(
            _(
                "{times} a screw was turned while {cause} was still there: no screw cures that."
            ).format(times=times, cause=causes[0])
        )
    return lines


def wrong_way(at: PracticeDoor, door: SwingingDoor, screw: str, direction: str) -> str:
    """Why this turn of a screw moves the door as it acts now further from its limits; empty if it does not."""
    judge = {"sweep": _sweep, "latch": _latch, "backcheck": _backcheck, "spring": _spring}.get(
        screw
    )
    if judge is None:
        return _("it waits as it is") if direction == "longer" else ""
    return judge(at, door, direction)


def fought(faults: Iterable[HiddenCause], screw: str) -> str:
    """Which hidden causes a turn fights in vain, in words; empty if there are none or it does not fight them.

    The backcheck has no part in the closing, and a delayed action is closed off whatever else is wrong.
    """
    if screw in ("backcheck", "delay"):
        return ""
    return " and ".join(CAUSES[fault.cause] for fault in faults)


def _sweep(at: PracticeDoor, door: SwingingDoor, direction: str) -> str:
    seconds = close(door).s_90_12
    if seconds is None:
        return _("it stopped before the mark") if direction == "slower" else ""
    if direction == "slower" and seconds > LONGEST + NEAR:
        return _("it took {seconds:.1f} s to the mark already").format(seconds=seconds)
    if direction == "faster" and seconds < SHORTEST - NEAR:
        return _("it took only {seconds:.1f} s to the mark").format(seconds=seconds)
    return ""


def _latch(at: PracticeDoor, door: SwingingDoor, direction: str) -> str:
    ends = [close(door, start) for start in STARTS]
    slams = any(end.edge_speed > SLAM_SPEED for end in ends)
    short = not all(end.latched for end in ends)
    if direction == "faster" and slams and not short:
        return _("it slammed")
    if direction == "slower" and short and not slams:
        return _("it did not latch each time")
    return ""


def _backcheck(at: PracticeDoor, door: SwingingDoor, direction: str) -> str:
    feels = feels_of(door, at.opens_to)
    if direction == "firmer" and feels == HARD:
        return _("it was like a wall")
    if direction == "softer" and feels == SOFT:
        return _("it banged into its stop")
    return ""


def _spring(at: PracticeDoor, door: SwingingDoor, direction: str) -> str:
    push = opening_force(door)
    if direction == "stronger" and at.limit is not None and push > at.limit:
        return _("it needed {force} to open, more than the limit").format(
            force=force(push, at.units)
        )
    short = not all(close(door, start).latched for start in STARTS)
    if direction == "weaker" and short and (at.limit is None or push <= at.limit):
        return _("it did not latch each time")
    return ""
