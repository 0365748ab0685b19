"""Practice on a model door: what is done to it, what that shows, and what it costs.

Every swing is the model's (`guide.trade.swing.model`); no real closer was measured. The screws, the inspections
and the tests are those of a real door, and each needs the time it needs there.
"""

from dataclasses import dataclass, field, replace

from guide.errors import FOUND, HingesideError
from guide.practice import wording as words
from guide.practice.door import CAUSES, HiddenCause, PracticeDoor, acting, without_fault
from guide.practice.push import PushResult, push
from guide.trade.swing.model import SLAM_SPEED, Closing, SwingingDoor, close, opening_force
from guide.trade.swing.path import TWELVE
from guide.trade.swing.valves import MOST_TURNS
from guide.translation import _

STARTS = (90.0, 45.0, 10.0)
"""The angles at which a leaf is let go to see whether it latches each time [deg]."""

PLACES = ("closer", "frame", "air")
"""The places to inspect."""

SCREWS = ("sweep", "latch", "backcheck", "delay", "spring")

WAYS = {
    "backcheck": ("firmer", "softer"),
    "delay": ("shorter", "longer"),
    "spring": ("weaker", "stronger"),
}
"""The two ways to turn a screw, the closing one first; a valve not named here is slower or faster."""

TURNS = {"sweep": MOST_TURNS, "latch": MOST_TURNS, "backcheck": MOST_TURNS, "delay": 2.0}
"""Turns of each valve from closed to fully open; the delayed action is off when it is closed [turns]."""

TAKES = {"look": 60, "feel": 300, "measure": 60, "turn": 30, "put-right": 900, "open": 5}
"""The time each act needs at a door [s], the swing itself not counted; ours, common practice. To move the leaf by
hand, the arm is taken off and put on again."""

HAND_LAST = 1.5
"""With a hand on the leaf the last 12 degrees last at least so long [s]; ours."""

RIGHT = "right"
"""The verdict that the door is right; the others are `CAUSES`."""


class Impossible(HingesideError):
    """That cannot be done on this door; the sentence says why. It costs nothing."""

    status = FOUND


@dataclass(slots=True)
class PracticeSwing:
    """One closing of the leaf."""

    number: int
    start: float
    """Where it was let go [deg]."""
    hand: bool
    """Whether a hand stayed on the leaf."""
    unproved: bool
    """Whether it was the first since something was changed."""
    closing: Closing
    """As the model has it without a hand."""
    trace: tuple[tuple[float, float], ...]
    """(seconds since it was let go, opening [deg]), beginning with the start."""
    read: tuple[float, ...] = ()
    """What the apprentice's stopwatch read of it [s]: to the 12 deg mark and from there to shut."""

    @property
    def would_slam(self) -> bool:
        """Whether it slams without a hand."""
        return self.closing.edge_speed > SLAM_SPEED

    @property
    def slammed(self) -> bool:
        """Whether it did."""
        return self.would_slam and not self.hand

    @property
    def seconds(self) -> float:
        """Until it is shut or has stopped."""
        return self.trace[-1][0]

    def angle(self, seconds: float) -> float:
        """How far the leaf is open so long after it was let go [deg]."""
        before = self.trace[0]
        for after in self.trace:
            if after[0] > seconds:
                share = (seconds - before[0]) / (after[0] - before[0])
                return before[1] + share * (after[1] - before[1])
            before = after
        return before[1]


@dataclass(frozen=True, slots=True)
class Act:
    """One thing done, and what it showed."""

    did: str
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScrewTurn:
    """One turn of a screw, with the door as it acted just before it."""

    did: str
    screw: str
    direction: str
    door: SwingingDoor
    faults: tuple[HiddenCause, ...]


@dataclass(slots=True)
class Practice:
    """One apprentice at one door. Its numbers are shown with `CAUTION` of the swing model."""

    at: PracticeDoor
    settings: dict[str, float] = field(init=False)
    """Turns by which each valve is open."""
    size: float = field(init=False)
    """EN size the spring is set to."""
    faults: list[HiddenCause] = field(init=False)
    """Those that last."""
    remedied: list[HiddenCause] = field(default_factory=list)
    acts: list[Act] = field(default_factory=list)
    swings: list[PracticeSwing] = field(default_factory=list)
    turned: list[ScrewTurn] = field(default_factory=list)
    """Every turn, but those that only forced a screw."""
    forced: int = 0
    """How often a screw was forced past its end."""
    spent: float = 0.0
    """Time at the door [s]."""
    verdict: str = ""
    """RIGHT or one of `CAUSES`, once the apprentice has given it."""
    forces: list[float] = field(default_factory=list)
    """Every force that was measured [N]."""
    changed: bool = False
    """Whether anything was changed since the last swing."""
    proved: set[float] = field(default_factory=set)
    """From which of `STARTS` it was let go without a hand since the last change; wider counts as 90."""
    untried: bool = False
    """Whether the backcheck was turned and the leaf not pushed open since."""
    weighed: bool = False
    """Whether the force was measured since anything was changed that it depends on."""

    def __post_init__(self) -> None:
        valves = self.at.door.valves
        self.settings = {"sweep": valves.sweep, "latch": valves.latch, "backcheck": valves.back}
        if self.at.delay is not None:
            self.settings["delay"] = self.at.delay
        self.size = self.at.door.size
        self.faults = list(self.at.faults)

    @property
    def door(self) -> SwingingDoor:
        """The leaf as it acts now."""
        door = self.at.door
        for fault in self.remedied:
            door = without_fault(door, fault)
        valves = replace(
            door.valves,
            sweep=self.settings["sweep"],
            latch=self.settings["latch"],
            back=self.settings["backcheck"],
            delay=_delay(self.settings.get("delay", 0.0)),
        )
        door = replace(door, size=self.size, valves=valves)
        return acting(door, self.faults, len(self.swings))

    @property
    def screws(self) -> tuple[str, ...]:
        """The screws that this closer has."""
        fixed = self.at.sizes[0] == self.at.sizes[1]
        return tuple(
            screw for screw in SCREWS if screw in self.settings or (screw == "spring" and not fixed)
        )

    def look(self, place: str) -> tuple[str, ...]:
        """Inspect a place: what can be seen at the closer, at the frame, or of the air with a strip of paper."""
        self.spent += TAKES["look"]
        said = words.seen(place, self.at, self.door, self.faults)
        return self._did(words.LOOKED[place], said)

    def feel(self) -> tuple[str, ...]:
        """Move the leaf by hand, the arm off."""
        self.spent += TAKES["feel"]
        return self._did(words.FELT, words.felt(self.door, self.at.units))

    def measure(self) -> float:
        """Gauge the force at the handle that opens it, the bolt held back [N]."""
        self.spent += TAKES["measure"]
        force = opening_force(self.door)
        self.forces.append(force)
        self.weighed = True
        self._did(words.MEASURED, (words.force(force, self.at.units),))
        return force

    def swing(self, start: float, *, hand: bool = False) -> PracticeSwing:
        """Let the leaf go at `start` [deg], above 0, with or without a hand on it."""
        trace: list[tuple[float, float]] = []
        closing = close(self.door, start, trace)
        path = ((0.0, start), *trace)
        if hand and closing.latched and closing.s_till_stop < HAND_LAST:
            path = _held_back(path, HAND_LAST / closing.s_till_stop)
        made = PracticeSwing(len(self.swings) + 1, start, hand, self.changed, closing, path)
        self.swings.append(made)
        self.changed = False
        if not hand:
            self.proved.add(min(start, STARTS[0]))
        self.spent += TAKES["open"] + made.seconds
        waits = self.settings.get("delay", 0.0) > 0
        self._did(words.let_go(made.number, start, hand), self.said_of(made, waits=waits))
        return made

    def said_of(self, made: PracticeSwing, *, waits: bool = False) -> tuple[str, ...]:
        """The sentences for a swing as a person sees it."""
        return words.swung(
            made.closing,
            made.start,
            self.at,
            hand=made.hand,
            would_slam=made.would_slam,
            waits=waits,
        )

    def push(self) -> PushResult:
        """Push the leaf briskly open, to feel its backcheck; a hand brings it back."""
        pushed = push(self.door, self.at.opens_to)
        self.untried = False
        self.spent += TAKES["open"] + pushed.seconds
        self._did(words.PUSHED, words.pushed(pushed))
        return pushed

    def turn(self, screw: str, direction: str, steps: float) -> tuple[str, ...]:
        """Turn a screw: a valve by quarter turns, whole or half ones, the spring by half EN sizes.

        No screw goes past its end; to turn one that is already there is to force it. Impossible if
        the closer has no such screw.
        """
        if screw not in self.screws:
            raise Impossible(words.no_such_screw(screw, self.at))
        low, high = self.at.sizes if screw == "spring" else (0.0, TURNS[screw])
        now = self.size if screw == "spring" else self.settings[screw]
        unit = 0.5 if screw == "spring" else 0.25
        wanted = now + steps * unit * (1 if direction == ways(screw)[1] else -1)
        there = min(max(wanted, low), high)
        self.spent += TAKES["turn"]
        did = words.turn(screw, direction, steps)
        forced = there == now
        if forced:
            self.forced += 1
        else:
            self.turned.append(ScrewTurn(did, screw, direction, self.door, tuple(self.faults)))
            if screw == "backcheck":
                self.untried = True  # it has no part in the closing: what was proved of that stands
            else:
                self._changes(force_too=screw == "spring")
            if screw == "spring":
                self.size = there
            else:
                self.settings[screw] = there
        said = words.turned(screw, stiff=there != wanted, forced=forced)
        return self._did(did, said)

    def put_right(self, cause: str) -> tuple[str, ...]:
        """Have one cause put right, as far as that can be done here."""
        fault = next((one for one in self.faults if one.cause == cause), None)
        can = fault is not None and fault.put_right is not None
        self.spent += TAKES["put-right" if can else "look"]
        if fault is not None and can:
            self.faults.remove(fault)
            self.remedied.append(fault)
            self._changes(force_too=True)
        said = words.remedied(cause, there=fault is not None, can=can)
        return self._did(words.REMEDY_TRIED[cause], (said,))

    def finish(self, verdict: str) -> None:
        """Say that the door is right, or that it cannot be, and why. KeyError for no such cause."""
        if verdict != RIGHT:
            CAUSES[verdict]
        self.verdict = verdict
        said = (
            _("The door is right.")
            if verdict == RIGHT
            else _("Cannot be done: {cause}.").format(cause=CAUSES[verdict])
        )
        self._did(_("Verdict"), (said,))

    def _changes(self, *, force_too: bool) -> None:
        """What was proved before no longer holds."""
        self.changed = True
        self.proved.clear()
        self.weighed = self.weighed and not force_too

    def _did(self, did: str, said: tuple[str, ...]) -> tuple[str, ...]:
        self.acts.append(Act(did, said))
        return said


def ways(screw: str) -> tuple[str, str]:
    """The closing way to turn a screw, and the opening one, in words."""
    return WAYS.get(screw, ("slower", "faster"))


def _delay(turns: float) -> float | None:
    """The model's delay valve: the further the delayed action is opened, the more it throttles. Closed is off;
    half a turn is about 9 s of waiting on a usual door."""
    return None if turns <= 0 else 0.25 / turns


def _held_back(
    path: tuple[tuple[float, float], ...], longer: float
) -> tuple[tuple[float, float], ...]:
    """The path with its last 12 degrees so many times longer."""
    begins = next((seconds for seconds, deg in path if deg <= TWELVE), 0.0)
    return tuple(
        (seconds if seconds <= begins else begins + (seconds - begins) * longer, deg)
        for seconds, deg in path
    )
