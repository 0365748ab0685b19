"""What an access or fire rule is, what it is held against, and the words most of them share."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import about

PASS, FAIL, NOT_APPLICABLE, DECIDES, NOT_MEASURED = (
    "pass",
    "fail",
    "not applicable",
    "authority decides",
    "not measured",
)

Judged = tuple[str, str]
"""A verdict, and one sentence with the reading and the limit."""

HOLD_OPEN = "hold-open"


@dataclass(frozen=True, slots=True)
class Door:
    """What is known of a door that is to be handed over; None for what was not asked or not measured."""

    fire: bool | None = None
    exterior: bool | None = None
    way_out: bool | None = None
    accessible: bool | None = None
    """Whether access rules reach it; one of which nobody said so is held to them."""
    width: Quantity | None = None
    """Of the leaf."""
    s_90_12: Quantity | None = None
    """From 90 to 12 degrees, without the wait of a delayed action."""
    s_12_0: Quantity | None = None
    """From 12 degrees to shut."""
    delay: Quantity | None = None
    """How long a delayed action holds the leaf."""
    force: Quantity | None = None
    """The most it takes to swing it open, the latch held back."""
    force_30_60: Quantity | None = None
    """The most it takes from 30 to 60 degrees open, where it was measured apart."""
    exit_forces: bool | None = None
    """Whether 15 lbf release the latch, 30 lbf start the leaf and 15 lbf open it fully."""
    latches: bool | None = None
    """Whether it closes and latches by itself from every position."""
    closes: bool | None = None
    """Whether it closes fully from every position, where that was tried apart from the latch."""
    arm: str | None = None
    size: int | None = None
    """EN size the spring stands at."""
    clear: Quantity | None = None
    """Clear width, the door open 90 degrees."""
    head_room: Quantity | None = None
    """From the floor to the lowest part of the closer."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of one code."""

    name: str
    code: str
    citation: str
    """Where it stands, and “from memory” where it was not read again."""
    judge: Callable[[Door], Judged]


def limit_of(number: int | str, unit: str) -> Quantity:
    """A limit as its text prints it."""
    return Quantity(Fraction(number), unit)


def at_least(value: Quantity | None, limit: Quantity, what: str, after: str = "") -> Judged:
    """A reading that must not be less. `what` begins the sentence: “Closing time from 90 degrees”."""
    return _held(value, limit, what, "at least", after)


def at_most(value: Quantity | None, limit: Quantity, what: str, after: str = "") -> Judged:
    """A reading that must not be more."""
    return _held(value, limit, what, "at most", after)


def _held(value: Quantity | None, limit: Quantity, what: str, side: str, after: str) -> Judged:
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


def not_asked(what: str) -> Judged:
    """What the rule turns on is not known."""
    return NOT_MEASURED, f"Whether it is {what} was not asked."


def shuts_itself(door: Door) -> Judged:
    """A fire door closes and latches by itself."""
    if door.fire is None:
        return not_asked("a fire door")
    if not door.fire:
        return NOT_APPLICABLE, "It is no fire door."
    if door.latches is None and door.closes is not False:
        return NOT_MEASURED, "Whether it closes and latches by itself was not tried."
    if door.latches and door.closes is not False:
        return PASS, "It closes and latches by itself from every position tried."
    return (
        FAIL,
        "A fire door must close and latch by itself from every position, and this one does not.",
    )


def no_hold_open(door: Door) -> Judged:
    """A fire door has no arm that holds it open by itself."""
    if door.fire is None:
        return not_asked("a fire door")
    if not door.fire:
        return NOT_APPLICABLE, "It is no fire door."
    if door.arm is None:
        return NOT_MEASURED, "Which arm it has was not asked."
    if door.arm == HOLD_OPEN:
        return (
            FAIL,
            "A hold-open arm may not stay on a fire door; a listed release holds it instead.",
        )
    return PASS, "The arm does not hold the fire door open."
