"""`swing`: one closing of an invented door, to teach with and to test with (`model`)."""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity
from guide.measures.units import unit_named
from guide.trade.answer import Answer, OutOfDomain
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.pressure import PRESSURE_SIGN
from guide.trade.inputs import HEIGHT_INPUT, WIDTH_INPUT
from guide.trade.mounts import MOUNT_WORDS, MOUNTS, SIZES
from guide.trade.shown import METRES_PER_INCH, length, rounded, speed
from guide.trade.shown import force as force_text
from guide.trade.swing.model import (
    CAUTION,
    SLAM_SPEED,
    Closing,
    SwingingDoor,
    close,
    opening_force,
    push_open,
)
from guide.trade.swing.valves import MOST_TURNS, Valves

USUAL_PUSH = 60.0
"""The push at the handle for the opening that is shown, to 60 deg [N]; ours."""


def size_of(inputs: Mapping[str, Given]) -> float:
    """The EN size given; OutOfDomain unless it is a whole or half one from 1 to 7."""
    size = needed(inputs, "size", float)
    if not (SIZES[0] <= size <= SIZES[1] and size * 2 == int(size * 2)):
        raise OutOfDomain(
            f"size {size:g} is outside what is worked here: EN sizes {SIZES[0]} to {SIZES[1]},"
            " whole or half."
        )
    return size


def _turns(inputs: Mapping[str, Given], name: str, usual: float) -> float:
    turns = given(inputs, name, float)
    if turns is None:
        return usual
    if not 0 <= turns <= MOST_TURNS:
        raise OutOfDomain(
            f"{name} {turns:g} is outside what is worked here: 0 to {MOST_TURNS:g} turns open."
        )
    return turns


def _si(inputs: Mapping[str, Given], name: str, unit: str) -> float:
    """An input in that unit; 0 where it is left out."""
    value = given(inputs, name, Quantity)
    return 0.0 if value is None else float(value.to(unit).magnitude)


def _swing(inputs: Mapping[str, Given]) -> Answer:
    mount = needed(inputs, "mount", str)
    valves = Valves(
        sweep=_turns(inputs, "sweep", 1.25),
        latch=_turns(inputs, "latch", 1.25),
        back=_turns(inputs, "back", 1.0),
    )
    door = SwingingDoor(
        width=_si(inputs, "width", "m"),
        height=_si(inputs, "height", "m"),
        mass=_si(inputs, "mass", "kg"),
        geometry=usual_geometry(mount),
        size=size_of(inputs),
        valves=valves,
        pressure=_si(inputs, "pressure", "Pa"),
        seal=_si(inputs, "seal", "N m"),
        latch_force=_si(inputs, "latch_force", "N"),
        hinge_drag=_si(inputs, "hinge_drag", "N m"),
    )
    closing = close(door)
    force = _force(opening_force(door), needed(inputs, "width", Quantity).unit)
    value = {
        "s_90_12": _rounded(closing.s_90_12),
        "s_12_0": _rounded(closing.s_12_0),
        "latched": closing.latched,
        "edge_speed": round(closing.edge_speed, 4),
        "open_force": force,
    }
    system = unit_named(force.unit).systems[0]
    working = _working(door, closing, mount, force)
    return Answer(value, working, _cautions(door, closing, system))


def _force(newtons: float, length_unit: str) -> Quantity:
    unit = "lbf" if length_unit in ("in", "ft") else "N"
    exact = Quantity(Fraction(round(newtons * 10_000), 10_000), "N").to(unit).magnitude
    return Quantity(Fraction(round(exact * 100), 100), unit)


def _rounded(seconds: float | None) -> float | None:
    return None if seconds is None else round(seconds, 4)


def _working(door: SwingingDoor, closing: Closing, mount: str, force: Quantity) -> tuple[str, ...]:
    system = unit_named(force.unit).systems[0]
    push = force_text(USUAL_PUSH, system)
    reach = length(door.lever / METRES_PER_INCH, system)
    opened = push_open(door, USUAL_PUSH, 60.0)
    if closing.latched:
        end = f"It shuts at {speed(closing.edge_speed, system)} at the latch edge."
    else:
        end = f"It stops {closing.stopped_at:.1f} deg from shut."
    pushed = f"Pushed with {push} to 60 deg and let go, it swings to {opened.peak:.0f} deg."
    if opened.peak < 1:
        pushed = f"A push of {push} does not open it."
    return (
        (
            f"A usual {MOUNT_WORDS[mount]}, invented, at EN size {door.size:g}; valve zones turn with"
            " the pinion."
        ),
        end,
        f"It takes {rounded(force)} at the handle to open, {reach} from the hinges.",
        pushed,
    )


def _cautions(door: SwingingDoor, closing: Closing, system: str) -> tuple[str, ...]:
    lines = [CAUTION]
    if closing.edge_speed > SLAM_SPEED:
        lines.append(
            f"It slams: over {speed(SLAM_SPEED, system)} at the latch edge, a limit of ours."
        )
    if closing.latched:
        short = [start for start in (45.0, 10.0) if not close(door, start).latched]
        lines += [f"Let go from {start:g} deg it does not latch." for start in short]
    if door.pressure < 0:
        lines.append("Air pushes it open: judge with the air handling running.")
    return tuple(lines)


def _moment(name: str, about: str) -> Input:
    low, high = Quantity(Fraction(0), "N m"), Quantity(Fraction(50), "N m")
    return Input(name, "moment", False, about, low=low, high=high)


MASS_INPUT = Input(
    "mass",
    "mass",
    True,
    "mass of the leaf",
    low=Quantity(Fraction(5), "kg"),
    high=Quantity(Fraction(400), "kg"),
)
MOUNT_INPUT = Input("mount", "choice", True, "how the closer is mounted", MOUNTS)
SIZE_INPUT = Input(
    "size", "number", True, "EN size the spring stands at, 1 to 7, or half way between"
)

COMPUTATION = Computation(
    name="swing",
    about="How a door closes, let go from 90 degrees, and how hard it is to open: a model.",
    inputs=(
        WIDTH_INPUT,
        MASS_INPUT,
        HEIGHT_INPUT,
        MOUNT_INPUT,
        SIZE_INPUT,
        Input("sweep", "number", True, "turns the sweep valve is open, 0 to 4"),
        Input("latch", "number", True, "turns the latch valve is open, 0 to 4"),
        Input("back", "number", False, "turns the backcheck valve is open; 1 if left out"),
        Input(
            "pressure",
            "pressure",
            False,
            f"{PRESSURE_SIGN}; none if left out",
            low=Quantity(Fraction(-200), "Pa"),
            high=Quantity(Fraction(200), "Pa"),
            signed=True,
        ),
        _moment("seal", "what the seal resists with when almost shut; none if left out"),
        Input(
            "latch_force",
            "force",
            False,
            "what the latch bolt resists with at the edge; none if left out",
            low=Quantity(Fraction(0), "N"),
            high=Quantity(Fraction(200), "N"),
        ),
        _moment("hinge_drag", "friction of the hinges; none if left out"),
    ),
    output=Output("mapping", ("s_90_12", "s_12_0", "latched", "edge_speed", "open_force")),
    compute=_swing,
    source="an invented spring, arm and valves; seconds, and m/s at the latch edge",
    example="width='36 in' height='84 in' mass='110 lb' size=3 sweep=0.75 latch=0.5 mount=regular",
)
