"""A model door with its own hidden state, turned by the sentences that a step shows, and timed by a watch.

Invented, as the model is. `acts` says what a person does at each step of the tuning, for whichever front end
carries it out: keys, or a voice.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.run import replies
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.state import State
from guide.screens.run_view import RunView
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SLAM_SPEED, SwingingDoor, close, opening_force
from guide.trade.swing.valves import MOST_TURNS, Valves
from tests.screens.back_door import Hand

LBF = 4.4482216152605
_TURN = re.compile(
    r"(Sweep valve|Latch valve|Spring screw): (.+?) (?:by the \w+|(?:anti)?clockwise)"
    r" \((slower|faster|stronger|weaker)\)"
)
_COUNTS = {"three": 3, "five": 5, "seven": 7}
_PARTS = {"sixteenth": 1, "eighth": 2, "quarter": 4, "half": 8}
"""Words for parts of a turn, in sixteenths; `three eighths` is three of them."""
STARTS = (90.0, 45.0, 10.0)
"""Where it is let go to see what it does [deg]."""


def office_door(**hidden: float) -> SwingingDoor:
    """A 36 in office door, 84 in high, on a regular arm; what is hidden as given."""
    valves = Valves(sweep=hidden.get("sweep", 2.6), latch=hidden.get("latch", 2.9))
    return SwingingDoor(
        width=0.9144,
        height=2.1336,
        mass=50,
        geometry=usual_geometry("regular"),
        size=hidden.get("size", 1.0),
        valves=valves,
        pressure=hidden.get("pressure", 0.0),
        seal=hidden.get("seal", 0.5),
        latch_force=hidden.get("latch_force", 6.0),
        hinge_drag=0.2,
    )


@dataclass
class DoorToTune:
    """The door as the person meets it: let go, timed, pushed open, and turned."""

    door: SwingingDoor
    turns_per_size: Fraction | None = None
    """Turns of the spring screw for an EN size, where the sheet says so."""
    turned: list[str] = field(default_factory=list)
    """Every sentence that was carried out."""
    tests: int = 0
    did: str = ""
    """What it did when it was last let go from the three places."""

    def seen(self) -> str:
        """What it does, let go from 90, 45 and 10 degrees: an answer to `let_go`."""
        wide, *nearer = (close(self.door, start) for start in STARTS)
        slams = wide.edge_speed > SLAM_SPEED
        if wide.s_90_12 is None:
            self.did = "high"
        elif all(one.latched for one in (wide, *nearer)):
            self.did = "slams" if slams else "latches"
        else:
            self.did = "both" if slams else "short"
        return self.did

    def times(self) -> tuple[float, ...]:
        """Seconds from 90 to 12 degrees, and from there to shut where that is asked for."""
        wide = close(self.door)
        assert wide.s_90_12 is not None
        if self.did == "short" or wide.s_12_0 is None:
            return (wide.s_90_12,)
        return wide.s_90_12, wide.s_12_0

    def force(self) -> str:
        """What opens it, as the gauge reads."""
        return f"{opening_force(self.door) / LBF:.1f} lbf"

    def turn(self, sentence: str) -> None:
        """Do what a step says."""
        self.turned.append(sentence)
        for part, amount, direction in _TURN.findall(sentence):
            many = _many(amount)
            if part == "Spring screw":
                sizes = many if "size" in amount else many / (self.turns_per_size or 1)
                size = self.door.size + float(sizes if direction == "stronger" else -sizes)
                self.door = replace(self.door, size=size)
                continue
            valve = "sweep" if part == "Sweep valve" else "latch"
            open_now = getattr(self.door.valves, valve)
            open_then = open_now + float(many if direction == "faster" else -many)
            open_then = min(MOST_TURNS, max(0.0, open_then))
            self.door = replace(self.door, valves=replace(self.door.valves, **{valve: open_then}))


def _many(amount: str) -> Fraction:
    """Turns or sizes: `half a turn`, `2 and a quarter turns`, `1 size`."""
    words = amount.split()
    whole = Fraction(words[0]) if words[0].isdigit() else Fraction(0)
    count = next((_COUNTS[word] for word in words if word in _COUNTS), 1)
    part = sum(_PARTS.get(word.removesuffix("s"), 0) for word in words)
    return whole + Fraction(count * part, 16)


@dataclass(frozen=True)
class Act:
    """What the person does next."""

    kind: str
    """`go-on`: the step is done; `answer` the question; `time` one swing with the stopwatch."""
    answer: str = ""
    times: tuple[float, ...] = ()
    """The parts of the swing [s]; the first alone where the leaf stops short."""


def acts(session: Session, door: DoorToTune, last: str = "tuned") -> Iterator[Act]:
    """What to do at each step, to the step `last` or the end.

    Whoever asks for the next act must have carried out the one before.
    """
    for _ in range(200):
        state = session.state
        block = _at(state)
        if block == last or state.node.kind == "end":
            return
        if block == "settle":
            door.turn(" ".join(one.text for one in prompt(state).passed))
            yield Act("go-on")
        elif block == "let-go":
            door.tests += 1
            yield Act("answer", door.seen())
        elif block == "sweep-now":
            yield Act("time", times=door.times())
        elif block == "force-now":
            yield Act("answer", door.force())
        elif state.node.kind in ("do", "work"):
            yield Act("go-on")
        else:
            raise AssertionError(f"nobody told the hands what to do at {block}")
    raise AssertionError("the tuning never ended")


def _at(state: State) -> str:
    return state.node.id.rpartition("/")[2]


GIVEN = {
    "width": "36 in",
    "mount": "regular",
    "fire": "no",
    "rated": "no",
    "exterior": "no",
    "way_out": "no",
    "accessible": "yes",
    "valves_counted": "two",
    "arm": "plain",
}
"""What the tuning is told of the office door before it begins."""


def tuning_session(**given: str) -> Session:
    """The shipped tuning of the office door, at its first question to be read off the door."""
    graph = graph_of(find("procedure", "tune-door"))
    session = Session.begin(MemoryJournal(), graph, device="bench", units="inch")
    told = {**GIVEN, **given}
    while session.state.node.id.startswith("counts-on/"):
        session.send(replies.answer(session.state, told[session.state.node.body["fact"]]))
    while _at(session.state) != "let-go":
        session.send(replies.done(session.state))
    return session


def tuning_run(clock: Callable[[], float], **given: str) -> Hand:
    """A hand on the keys of that run, on a clock of its own."""
    hand = Hand(tuning_session(**given))
    hand.view = RunView(hand.view.session, clock=clock)
    hand.look()
    return hand
