"""What an access or fire rule is, the limits of the opening force, and the judgements that most rules share."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from guide.measures import Quantity, write
from guide.trade.answer import about
from guide.trade.inputs import USUAL_IBC


class ForceLimit(NamedTuple):
    """A limit, and where it comes from."""

    most: Quantity
    whence: str
    """Stands after the figure in a sentence."""


LIGHT = Quantity(Fraction(5), "lbf")
"""Most to open an interior door other than a fire door: 2010 ADA Standards 404.2.9 on an accessible route, and IBC
1010.1.3 on a way out."""
EXIT = Quantity(Fraction(15), "lbf")
"""Most to swing any other door of a way out fully open, and to unlatch it: IBC 1010.1.3 and NFPA 101 7.2.1.4.5."""
START = Quantity(Fraction(30), "lbf")
"""Most to set such a door in motion: the same."""
BRITISH = Quantity(Fraction(30), "N")
"""From 0 to 30 degrees, at the leading edge: BS 8300-2 of 2018 and Approved Document M."""
BRITISH_LATER = Quantity(Fraction("22.5"), "N")
"""From 30 to 60 degrees: the same."""
FRENCH = Quantity(Fraction(50), "N")
"""With a closer or without: French order (arrêté) of 1 August 2006. The 25 N of EN 12217, to which DIN 18040 refers,
are not for self-closing doors (abstract of DIN EN 12217:2015)."""
OWN_FORCE = Quantity(Fraction(67), "N")
"""If no rule has a figure for such a door; about 15 lbf, common practice."""
OWN_FORCE_US = EXIT
"""The same in the unit of the other American limits."""


SMALL_SHORTFALL = Fraction(1, 5)
"""A force over its limit by no more than this share is a small shortfall; ours. More is not a matter of the spring."""


def force_limit(
    code: str, *, fire: bool, exterior: bool, way_out: bool = False, accessible: bool = True
) -> ForceLimit:
    """The limit by the rules of `code`, one of `CODES` of `rules`.

    Access rules bind where the opening is on an accessible route, those of ways out on a way out; elsewhere common
    practice is left.
    """
    if code == "us":
        return _american(fire or exterior, way_out, accessible)
    if code == "uk" and accessible and not fire:
        return ForceLimit(BRITISH, " to 30 degrees (BS 8300 and Approved Document M)")
    if code == "eu" and accessible and not fire:
        return ForceLimit(FRENCH, " (French order of 1 August 2006; other countries differ)")
    if code in ("uk", "eu") and fire:
        told = " (common practice; for a fire door agree it with building control)"
        return ForceLimit(OWN_FORCE, told)
    told = "no rules are set" if code == "none" else "no access rule reaches this door"
    return ForceLimit(OWN_FORCE, f" (common practice; {told})")


def _american(fire_or_exterior: bool, way_out: bool, accessible: bool) -> ForceLimit:
    if fire_or_exterior:
        told = " to swing it open (IBC 1010.1.3 for ways out); the authority may require less"
        return ForceLimit(EXIT, told)
    if accessible:
        return ForceLimit(LIGHT, " (2010 ADA Standards 404.2.9)")
    if way_out:
        return ForceLimit(LIGHT, " (IBC 1010.1.3)")
    return ForceLimit(OWN_FORCE_US, " (common practice; on no accessible route, and no way out)")


PASS, FAIL, NOT_APPLICABLE, DECIDES, NOT_MEASURED = (
    "pass",
    "fail",
    "not applicable",
    "authority decides",
    "not measured",
)

Judgement = tuple[str, str]
"""A verdict, and one sentence with the reading and the limit."""

HOLD_OPEN = "hold-open"

PUSH, TURN, NO_LATCH = RELEASES = ("push", "turn", "none")
"""What releases the latch of a way out: a push or pull, a lever or knob that turns, or there is no latch."""

NOT_ACCESSIBLE = "It is on no accessible route."


@dataclass(frozen=True, slots=True)
class JudgedDoor:
    """What is known of a door that is to be handed over; None for what was not asked or not measured."""

    fire: bool | None = None
    exterior: bool | None = None
    way_out: bool | None = None
    accessible: bool | None = None
    """Whether it is on an accessible route."""
    ibc: str = USUAL_IBC
    """The edition of the International Building Code, one of `IBC_EDITIONS`."""
    width: Quantity | None = None
    """Of the leaf."""
    s_90_12: Quantity | None = None
    """From 90 to 12 degrees, without the wait of a delayed action."""
    s_12_0: Quantity | None = None
    """From 12 degrees to shut."""
    delay: Quantity | None = None
    """How long a delayed action holds the leaf."""
    delayed: bool | None = None
    """Whether a delayed action is used; its valve is closed where it is not."""
    force: Quantity | None = None
    """The most it takes to swing it open, the latch held back."""
    force_30_60: Quantity | None = None
    """The most it takes from 30 to 60 degrees open, where it was measured apart."""
    exit_forces: bool | None = None
    """Whether 30 lbf start the leaf and 15 lbf open it fully."""
    released_by: str | None = None
    """What releases the latch from the inside: one of `RELEASES`."""
    unlatches: bool | None = None
    """Whether the latch is released within the limit of that hardware."""
    valves: str | None = None
    """`two`, `three` or `four`, of which the fourth is delayed action."""
    latches: bool | None = None
    """Whether it closes and latches by itself from every position."""
    closes: bool | None = None
    """Whether it closes fully from every position, where that was tried apart from the latch."""
    arm: str | None = None
    size: int | None = None
    """EN size the spring is set to."""
    clear: Quantity | None = None
    """Clear width, the door open 90 degrees."""
    deep: bool | None = None
    """Whether the opening is deeper than 24 in."""
    altered: bool | None = None
    """Whether the opening is being altered, and is not a new one."""
    existing: bool | None = None
    """Whether it is an existing door in an existing building."""
    projects: Quantity | None = None
    """How far anything projects into the clear width, from 34 to 80 in above the floor."""
    projects_low: bool | None = None
    """Whether anything projects into it below 34 in."""
    head_room: Quantity | None = None
    """From the floor to the lowest part of the closer."""


@dataclass(frozen=True, slots=True)
class CodeRule:
    """One rule of one code."""

    name: str
    code: str
    citation: str
    """Where it is written, with its edition where editions differ."""
    judge: Callable[[JudgedDoor], Judgement]


def limit_of(number: int | str, unit: str) -> Quantity:
    """A limit as its text prints it."""
    return Quantity(Fraction(number), unit)


def at_least(value: Quantity | None, limit: Quantity, what: str, after: str = "") -> Judgement:
    """A reading that must not be less. `what` begins the sentence: “Closing time from 90 degrees”."""
    return _compared(value, limit, what, "at least", after)


def at_most(value: Quantity | None, limit: Quantity, what: str, after: str = "") -> Judgement:
    """A reading that must not be more."""
    return _compared(value, limit, what, "at most", after)


def _compared(
    value: Quantity | None, limit: Quantity, what: str, side: str, after: str
) -> Judgement:
    wanted = f"to be {side} {write(limit)}"
    if value is None:
        return NOT_MEASURED, f"{what}: not measured, {wanted}."
    if value.unit != limit.unit:
        # The reading stays as it was taken: converted and rounded it could look like the limit.
        wanted += f" ({about(limit.to(value.unit).magnitude, 2)} {value.unit})"
    met = value >= limit if side == "at least" else value <= limit
    return (PASS if met else FAIL), f"{what}: {write(value)}, {wanted}{after}."


def reading(value: Quantity | None, what: str) -> str:
    """A reading that no limit is set to."""
    return f"{what}: {'not measured' if value is None else write(value)}."


def not_asked(what: str) -> Judgement:
    """What the rule turns on is not known."""
    return NOT_MEASURED, f"Whether it is {what} was not asked."


def shuts_itself(door: JudgedDoor) -> Judgement:
    """A fire door closes and latches by itself."""
    if door.fire is None:
        return not_asked("a fire door")
    if not door.fire:
        return NOT_APPLICABLE, "It is not a fire door."
    if door.latches is None and door.closes is not False:
        return NOT_MEASURED, "Whether it closes and latches by itself was not tried."
    if door.latches and door.closes is not False:
        return PASS, "It closes and latches by itself from every position tried."
    return (
        FAIL,
        "A fire door must close and latch by itself from every position, and this one does not.",
    )


def no_hold_open(door: JudgedDoor) -> Judgement:
    """A fire door has no arm that holds it open by itself."""
    if door.fire is None:
        return not_asked("a fire door")
    if not door.fire:
        return NOT_APPLICABLE, "It is not a fire door."
    if door.arm is None:
        return NOT_MEASURED, "Which arm it has was not asked."
    if door.arm == HOLD_OPEN:
        return (
            FAIL,
            "A hold-open arm may not stay on a fire door; a listed release holds it instead.",
        )
    return PASS, "The arm does not hold the fire door open."
