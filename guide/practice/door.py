"""A door to practise on: its facts as known to the apprentice, and its hidden causes.

Invented, as the swing model is. A fault is one hidden cause that no screw cures; while it lasts it
changes how the leaf moves.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from guide.trade.en_1154 import EN_1154_TABLE_1
from guide.trade.mounts import SIZES
from guide.trade.swing.model import SwingingDoor
from guide.trade.tuning.nominal_door import NominalLeaf
from guide.translation import _

AIR, SEAL, HINGE, STRIKE, LEAK, SIZE = "air", "seal", "hinge", "strike", "leak", "size"

CAUSES = {
    AIR: _("air pressure across the leaf"),
    SEAL: _("a seal that is too stiff"),
    HINGE: _("a hinge that binds"),
    STRIKE: _("a strike that stands proud"),
    LEAK: _("a closer that leaks inside or out"),
    SIZE: _("a closer of the wrong size for this leaf"),
}
"""What may be wrong with a door that no screw cures, as a fitter says it."""

REMEDIES = {
    AIR: _("Ask for the air to be balanced"),
    SEAL: _("Ease the seal"),
    HINGE: _("Free the hinges"),
    STRIKE: _("Set the strike back"),
}
"""What a fitter can have put right without another closer."""

LEAK_A_SWING = 0.1
"""Turns by which a leaking closer's valves seem further open after each swing, as its oil warms; ours."""


@dataclass(frozen=True, slots=True)
class HiddenCause:
    """One hidden cause."""

    cause: str
    """One of `CAUSES`."""
    amount: float = 0.0
    """While it lasts: the air [Pa], the seal or the hinge's drag [N m], the bolt's force [N], or for a
    leak the turns by which a valve seems further open than it is. Nothing for a wrong size."""
    put_right: float | None = None
    """What is left of `amount` once it is put right; None if that cannot be done at this door today."""
    inside: bool = False
    """Of a leak: whether it is within the body, so that no oil shows."""


@dataclass(frozen=True, slots=True)
class PracticeDoor:
    """One door, before the apprentice touches it."""

    name: str
    title: str
    about: str
    """The complaint of the people who use it."""
    grade: int
    """1 to 4, the easiest first."""
    mount: str
    knuckles: str
    """The side the hinge knuckles are on, seen from the pull side: "left" or "right"."""
    door: SwingingDoor
    """As it is, without its faults and with its delayed action off."""
    delay: float | None = None
    """Turns by which the delayed-action valve is open; None if the closer has none."""
    opens_to: float = 110.0
    """How far it opens [deg]."""
    sizes: tuple[float, float] = SIZES
    """Weakest and strongest EN size of the closer by its label; equal if the spring is fixed."""
    limit: float | None = None
    """The greatest force that may be needed to open it, at the handle [N]; None if there is no limit."""
    limit_from: str = ""
    """Where the limit comes from."""
    faults: tuple[HiddenCause, ...] = ()
    units: str = "inch"

    @property
    def leaf(self) -> NominalLeaf:
        """The measurable leaf."""
        return NominalLeaf(self.door.width, self.mount, self.door.height, self.door.mass)

    @property
    def size_for_width(self) -> int:
        """The EN size for its width (EN 1154, table 1)."""
        wide = self.door.width * 1000
        return next(
            (size for size, most, _ in EN_1154_TABLE_1 if wide <= most + _ROUNDING), SIZES[1]
        )

    @property
    def hopeless(self) -> bool:
        """Whether it cannot be made right today: a fault of it cannot be put right."""
        return any(fault.put_right is None for fault in self.faults)


_ROUNDING = 0.5
"""How far an inch width may be from the table's millimetres by rounding [mm]."""


def acting(door: SwingingDoor, faults: Iterable[HiddenCause], swings: int = 0) -> SwingingDoor:
    """The door as its faults make it act after so many swings."""
    for fault in faults:
        door = _with(
            door, fault.cause, fault.amount + LEAK_A_SWING * swings * (fault.cause == LEAK)
        )
    return door


def without_fault(door: SwingingDoor, fault: HiddenCause) -> SwingingDoor:
    """The door with what is left of a fault once it is put right. ValueError if that cannot be done."""
    if fault.put_right is None:
        raise ValueError(
            _("{cause} cannot be put right at this door").format(cause=CAUSES[fault.cause])
        )
    return _with(door, fault.cause, fault.put_right)


def _with(door: SwingingDoor, cause: str, amount: float) -> SwingingDoor:
    if cause == AIR:
        return replace(door, pressure=amount)
    if cause == SEAL:
        return replace(door, seal=amount)
    if cause == HINGE:
        return replace(door, hinge_drag=amount)
    if cause == STRIKE:
        return replace(door, latch_force=amount)
    if cause == LEAK:
        valves = door.valves
        valves = replace(valves, sweep=valves.sweep + amount, latch=valves.latch + amount)
        return replace(door, valves=valves)
    return door
