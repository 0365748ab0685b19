"""The sentences that a practice door shows, as a fitter would say them."""

import math
from collections.abc import Iterable
from fractions import Fraction

from guide.measures import Quantity, nearest, write
from guide.practice.door import AIR, HINGE, LEAK, SEAL, STRIKE, HiddenCause, PracticeDoor
from guide.practice.push import HARD, SHORT, SOFT, PushResult
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.swing.model import Closing, SwingingDoor
from guide.trade.tuning.screw_words import amount
from guide.translation import _

BLOWS, GRIPS, BINDS, STANDS_PROUD = 8.0, 2.5, 2.0, 20.0
"""The least that a person notices of the air [Pa], the seal [N m], the hinges' drag [N m] and the bolt on the
strike [N]; ours."""

WAITS_FROM = 75.0
"""Let go from wider than this, the leaf shows its delayed action [deg]."""

LOOKED = {
    "closer": _("Inspected closer, arm and label"),
    "frame": _("Inspected frame, seal and strike"),
    "air": _("Held a strip of paper at the gap"),
}
FELT = _("Arm off, leaf moved by hand")
PUSHED = _("Pushed it briskly open")
MEASURED = _("Measured the force at the handle, bolt held back")
REMEDY_TRIED = {
    AIR: _("Asked for the air to be balanced"),
    SEAL: _("Had the seal seen to"),
    HINGE: _("Had the hinges seen to"),
    STRIKE: _("Had the strike seen to"),
}
SCREW_WORDS = {
    "sweep": _("Sweep valve"),
    "latch": _("Latch valve"),
    "backcheck": _("Backcheck valve"),
    "delay": _("Delayed action"),
    "spring": _("Spring screw"),
}


def seen(
    place: str, at: PracticeDoor, door: SwingingDoor, faults: Iterable[HiddenCause]
) -> tuple[str, ...]:
    """The sentences for one of the places inspected."""
    if place == "closer":
        return _closer(at, faults)
    if place == "air":
        return (_paper(door),)
    grip = (
        _("The seal is thick and new: a strip of paper is gripped hard the whole height.")
        if door.seal >= GRIPS
        else _("The seal grips a strip of paper lightly.")
    )
    bolt = (
        _("Bright metal on the lip of the strike: the bolt hits it before the leaf is home.")
        if door.latch_force >= STANDS_PROUD
        else _("The bolt's mark on the strike is faint and low.")
    )
    return (
        grip,
        bolt,
        _("Gaps even, hinge screws tight. How easily the hinges turn cannot be seen."),
    )


def _closer(at: PracticeDoor, faults: Iterable[HiddenCause]) -> tuple[str, ...]:
    low, high = at.sizes
    sizes = (
        _("EN size {low:g}, fixed").format(low=low)
        if low == high
        else _("EN sizes {low:g} to {high:g}").format(low=low, high=high)
    )
    has = _("sweep, latch, backcheck") + (_(", delayed action") if at.delay is not None else "")
    leaks = any(fault.cause == LEAK and not fault.inside for fault in faults)
    oil = _("Oil hangs under the body and has run down.") if leaks else _("The body is dry.")
    return (
        _("Label: {sizes}; valves: {has}; 4 turns from closed to open, never further.").format(
            sizes=sizes, has=has
        ),
        _("A {mount}, its joints tight. {oil}").format(mount=MOUNT_WORDS[at.mount], oil=oil),
    )


def _paper(door: SwingingDoor) -> str:
    if door.pressure <= -BLOWS:
        return _("The paper is blown the way the leaf opens: air pushes the leaf open.")
    if door.pressure >= BLOWS:
        return _("The paper is drawn the way the leaf shuts: air sucks the leaf shut.")
    return _("The paper hangs all but still.")


def felt(door: SwingingDoor, units: str) -> tuple[str, ...]:
    """The sentences for the leaf moved by hand, the arm off."""
    push = force(door.hinge_drag / door.lever, units)
    hinges = (
        _("The leaf binds the whole way: {push} at the handle to keep it moving.").format(push=push)
        if door.hinge_drag >= BINDS
        else _("The leaf moves with one finger and stays where it is left.")
    )
    said = [hinges]
    if abs(door.pressure) >= BLOWS:
        said.append(_("Near the frame something pushes at it: air."))
    if door.seal >= GRIPS:
        said.append(_("Over the last hand's width the seal pushes back hard."))
    if door.latch_force >= STANDS_PROUD:
        said.append(_("The bolt lands on the strike with a knock and needs a shove."))
    return tuple(said)


def swung(
    closing: Closing, start: float, at: PracticeDoor, *, hand: bool, would_slam: bool, waits: bool
) -> tuple[str, ...]:
    """The sentences for one swing."""
    said = []
    if waits and start > WAITS_FROM:
        said.append(_("It stands and waits, wide open, before it goes on."))
    if not closing.latched:
        gap = edge_at(at.door.width, closing.stopped_at, at.units)
        said.append(
            _("It stops short, its edge {gap} from the frame. Not latched.").format(gap=gap)
        )
    elif would_slam:
        said.append(_("Your hand takes the blow: it would slam.") if hand else _("It SLAMS."))
    else:
        said.append(_("It comes home and latches."))
    return tuple(said)


def pushed(one: PushResult) -> tuple[str, ...]:
    """The sentences for a brisk push."""
    if one.feels == SHORT:
        return (
            _("It turns back at {peak:.0f} degrees, before its backcheck begins.").format(
                peak=one.opening.peak
            ),
        )
    if one.feels == SOFT:
        return (_("It flies on and BANGS into its stop: the backcheck hardly brakes it."),)
    if one.feels == HARD:
        return (
            _("Like a wall near {begins:.0f} degrees: it jars the arm and your wrist.").format(
                begins=one.begins
            ),
        )
    end = (
        _("comes softly to its stop")
        if one.stopped
        else _("turns back at {peak:.0f}").format(peak=one.opening.peak)
    )
    return (
        _("From about {begins:.0f} degrees it is cushioned, and {end}.").format(
            begins=one.begins, end=end
        ),
    )


def edge_at(width: float, deg: float, units: str) -> str:
    """How far the latch edge of a leaf `width` [m] wide is from where it is when closed."""
    return length(2 * width * math.sin(math.radians(deg) / 2), units)


def length(metres: float, units: str) -> str:
    """As a tape reads it."""
    if units == "metric":
        return write(Quantity(Fraction(max(1, round(metres * 1000))), "mm"))
    inches = Quantity(Fraction(max(1, round(metres / 0.0254 * 16)), 16), "in")
    return write(nearest(inches, Quantity(Fraction(1, 16), "in")))


def force(newtons: float, units: str) -> str:
    """As a gauge reads it."""
    if units == "metric":
        return f"{newtons:.0f} N"
    return f"{newtons / float(Quantity(Fraction(1), 'lbf').base):.1f} lbf"


def let_go(number: int, start: float, hand: bool) -> str:
    """The swing, as it is listed."""
    return _("Swing {number} from {start:g} degrees").format(number=number, start=start) + (
        _(", a hand on the leaf") if hand else ""
    )


def turn(screw: str, direction: str, steps: float) -> str:
    """The turn of a screw in words, such as “Sweep valve: 1/4 turn slower”."""
    parts = Fraction(steps) / (2 if screw == "spring" else 4)
    unit = _("EN size") if screw == "spring" else "turn"
    return f"{SCREW_WORDS[screw]}: {amount(parts, unit)} {direction}"


def turned(screw: str, *, stiff: bool, forced: bool) -> tuple[str, ...]:
    """The sentences after a turn: how the screw felt, and what to do next."""
    if forced:
        return (_("It is at its end already, and you forced it. Stop when a screw turns stiff."),)
    if stiff:
        return (_("It turns stiff before that: it is at its end now."),)
    if screw == "backcheck":
        return (_("Turned. Push it open to feel what that did."),)
    return (_("Turned. A hand on the leaf for the first swing."),)


def no_such_screw(screw: str, at: PracticeDoor) -> str:
    """Why a screw cannot be turned."""
    if screw == "spring":
        return _(
            "There is no spring screw: by its label the spring is fixed at EN size {size:g}."
        ).format(size=at.sizes[0])
    return _("This closer has no delayed action.")


def remedied(cause: str, *, there: bool, can: bool) -> str:
    """The result of having a cause put right: whether it was there, and whether it could be done."""
    if not there:
        return _NOTHING[cause]
    return _DONE[cause] if can else _NOT_TODAY[cause]


_NOTHING = {
    AIR: _("The caretaker has the fans looked at: they are as they should be."),
    SEAL: _("Nothing to ease: the seal only touches."),
    HINGE: _("Nothing to free: the hinges turn easily."),
    STRIKE: _("Nothing to set: the bolt goes over it cleanly."),
}
_DONE = {
    AIR: _("The fans are balanced while you wait."),
    SEAL: _("The seal is eased: it touches now and no longer pushes."),
    HINGE: _("Shimmed and oiled, the hinges turn freely."),
    STRIKE: _("The strike is set back flush."),
}
_NOT_TODAY = {
    AIR: _(
        "The building answers: the air must stay as it is, it keeps smoke out. No closer is meant to fight it."
    ),
    SEAL: _("The seal belongs to the door's listing and may not be touched."),
    HINGE: _("The hinges are worn out; new ones are not to be had today."),
    STRIKE: _("The strike is welded into the frame and cannot be moved today."),
}
