"""`fasteners`: what holds a closer on: the fastener, its drill and depth, by leaf, core, reinforcement and frame.

Common practice throughout: wood screws in solid wood, machine screws in tapped reinforcement, through-bolts if the core
or missing reinforcement requires them. The screws are the usual ones of a closer's box, 1/4-20 and No. 14; the maker's
sheet and the door's listing govern.
"""

import math
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from guide.measures import Quantity, write
from guide.text import either
from guide.trade.answer import Answer, BadInput, NoAnswer, Result, decimal
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.sheet_steel import CLOSER_REINFORCEMENT, GAUGES
from guide.trade.fastening.drills import INCH, Drill, nearest_drill
from guide.trade.fastening.lead_hole import HARDER_ABOVE, lead_drill
from guide.trade.fastening.threads import (
    ENOUGH_THREADS,
    USUAL_PERCENT,
    hole_for_percent,
    thread_named,
    threads_engaged,
)
from guide.trade.fastening.wood_screws import SPECIFIC_GRAVITIES
from guide.trade.inputs import optional_length

DOORS = ("steel", "wood", "aluminium", "glass")
FRAMES = ("steel", "wood", "aluminium", "grouted")

CORES = {
    "steel": ("honeycomb", "foam", "mineral", "stiffened", "hollow"),
    "wood": ("solid-wood", "particleboard", "mineral", "honeycomb", "hollow"),
    "aluminium": ("tube",),
}
"""What each leaf can have inside; a hollow one has nothing but air, or paper between wood faces."""

_MACHINE = thread_named("1/4-20")
_WOOD_SCREW = "14"
FASTENERS = ("machine-screw", "wood-screw", "through-bolt", "threaded-insert")
"""What holds a body or a shoe."""

_SLEEVE = Quantity(Fraction(3, 8), "in")
"""Hole for the sleeve of a 1/4-20 through-bolt; common practice, the sleeve in the box decides."""
_USUAL_SKIN = 18
"""Usual gauge of a steel leaf's skin; common practice."""
_BOLT = Quantity(Fraction(9, 32), "in")
"""Clearance hole for a 1/4-20 bolt; common practice."""
USUAL_FOOT = Quantity(Fraction(1, 4), "in")
"""Thickness of the body's foot under the bolt's head; common practice."""
_TAPPED_DEPTH = Quantity(Fraction(1, 2), "in")
"""Where the depth stop is set for a tapped hole: past skin and reinforcement, far from the other
face; common practice."""
_LEFT_STANDING = Quantity(Fraction(3, 8), "in")
"""Wood left between a pilot hole and the far face; common practice."""
_DEEPEST_PILOT = Quantity(Fraction(3, 2), "in")
"""For the usual wood screws of a closer; common practice."""
_LEAST_PILOT = Quantity(Fraction(1), "in")
"""A leaf that leaves less for the thread is through-bolted; common practice."""


_DEPTH_STEP = {
    "inch": Quantity(Fraction(1, 32), "in"),
    "metric": Quantity(Fraction(1, 2), "mm"),
}
"""What a depth stop is set to; a depth is rounded down."""


def system_of(length: Quantity) -> str:
    """The units that a length was given in: "inch" or "metric"."""
    return "inch" if length.unit in ("in", "ft") else "metric"


class Fastening(NamedTuple):
    """What goes into one of the two, leaf or frame."""

    fastener: str
    """"machine-screw", "wood-screw", "through-bolt" or "threaded-insert"."""
    size: str
    """Its thread or screw number."""
    drill: str | None
    """The drill by name; None if the insert in hand decides."""
    drill_size: Quantity | None
    depth: Quantity | None
    """How deep to drill [length]; the whole thickness for a through-bolt."""
    working: tuple[str, ...]
    cautions: tuple[str, ...] = ()
    grip: Quantity | None = None
    """Between the heads of a through-bolt [length]; None for other fasteners."""


@cache
def _tap_drill() -> Drill:
    return nearest_drill(hole_for_percent(_MACHINE, Fraction(USUAL_PERCENT)), INCH)


@cache
def _sleeve_drill() -> Drill:
    return nearest_drill(_SLEEVE, INCH)


def _at_stop(depth: Quantity, system: str) -> Quantity:
    """A depth as a depth stop is set, in that system's unit."""
    step = _DEPTH_STEP[system]
    steps = math.floor(depth.to(step.unit).magnitude / step.magnitude)
    return Quantity(steps * step.magnitude, step.unit)


def _machine_screw(into: str, why: str, system: str) -> Fastening:
    drill = _tap_drill()
    depth = _at_stop(_TAPPED_DEPTH, system)
    working = (
        f"{into}: {why}, so {_MACHINE.name} machine screws. Drill {drill.name} and tap, depth stop"
        f" at {write(depth)}: through the skin and what backs it, no further."
    )
    return Fastening("machine-screw", _MACHINE.name, drill.name, drill.size, depth, (working,))


def _with_thin_steel_caution(fastening: Fastening) -> Fastening:
    metal = GAUGES[CLOSER_REINFORCEMENT]
    count = threads_engaged(_MACHINE, metal)
    skin = threads_engaged(_MACHINE, GAUGES[_USUAL_SKIN])
    caution = (
        f"{CLOSER_REINFORCEMENT} gauge reinforcement holds about {decimal(count, 1)} threads of {_MACHINE.name},"
        f" with an {_USUAL_SKIN} gauge skin {decimal(count + skin, 1)}; {ENOUGH_THREADS} are wanted: tap both, keep"
        " every one, and use through-bolts if the sheet offers them."
    )
    return fastening._replace(cautions=(*fastening.cautions, caution))


def _through_bolt(why: str, thickness: Quantity, foot: Quantity) -> Fastening:
    grip = _at_stop(_sum(thickness, foot), system_of(thickness))
    sleeve = _sleeve_drill()
    working = (
        f"Leaf: {why}, so {_MACHINE.name} through-bolts with sleeves, heads to the far side.",
        (
            f"Pilot right through from the body's side, then open up: {write(_BOLT)} from the body's side,"
            f" {sleeve.name} from the far side for the sleeve."
        ),
        f"{write(thickness)} leaf and {write(foot)} foot: {write(grip)} between the heads.",
    )
    return Fastening(
        "through-bolt",
        _MACHINE.name,
        sleeve.name,
        sleeve.size,
        thickness,
        working,
        ("Tighten until the leaf's faces are held, not until they dish.",),
        grip,
    )


def _wood_screw(into: str, why: str, deepest: Quantity, system: str) -> Fastening:
    depth = _at_stop(deepest, system)
    softer = lead_drill(_WOOD_SCREW, HARDER_ABOVE)
    harder = lead_drill(_WOOD_SCREW, SPECIFIC_GRAVITIES["red oak"])
    working = (
        f"{into}: {why}, so No. {_WOOD_SCREW} wood screws. Pilot {softer.name} ({harder.name} in"
        f" harder wood, as oak), {write(depth)} deep."
    )
    return Fastening(
        "wood-screw", f"No. {_WOOD_SCREW}", softer.name, softer.size, depth, (working,)
    )


def _threaded_insert(why: str) -> Fastening:
    working = (
        f"Frame: {why}, so steel threaded inserts or a steel plate behind, for {_MACHINE.name}"
        " screws. Drill as the insert's own sheet says."
    )
    return Fastening("threaded-insert", _MACHINE.name, None, None, None, (working,))


def _sum(one: Quantity, other: Quantity) -> Quantity:
    return Quantity(one.magnitude + other.to(one.unit).magnitude, one.unit)


class DrilledLeaf(NamedTuple):
    """The leaf where the holes fall."""

    door: str
    """One of `DOORS`."""
    core: str
    """One of the door's `CORES`."""
    reinforced: bool
    """Steel plate, or solid timber blocking, where the holes fall."""
    thickness: Quantity
    foot: Quantity = USUAL_FOOT
    """Thickness of the body's foot."""


def leaf_fastening(leaf: DrilledLeaf) -> Fastening:
    """What holds on this leaf. NoAnswer for a hollow core without reinforcement."""
    if leaf.reinforced and leaf.door in ("steel", "aluminium"):
        return _with_thin_steel_caution(
            _machine_screw(
                "Leaf",
                f"{leaf.door} with reinforcement where the holes fall",
                system_of(leaf.thickness),
            )
        )
    if not leaf.reinforced and _is_hollow(leaf):
        raise NoAnswer(
            "A hollow core without reinforcement holds neither a screw nor a bolt, and its faces"
            " dish: have blocking or a plate put in where the holes fall, or another leaf."
        )
    if leaf.core == "solid-wood" or (leaf.door == "wood" and leaf.reinforced):
        why = "solid wood" if leaf.core == "solid-wood" else "solid blocking where the holes fall"
        return _in_wood(leaf, why)
    why = f"{leaf.door} with {_said(leaf.core)} holds no thread without reinforcement"
    bolts = _through_bolt(why, leaf.thickness, leaf.foot)
    return bolts._replace(cautions=(*bolts.cautions, _CRUSHED)) if leaf.core == "tube" else bolts


_CRUSHED = (
    "An empty rail crushes under a bolt: put a spacer the rail's inner depth on each, or use rivet nuts"
    " where the sheet packs them."
)


def _is_hollow(leaf: DrilledLeaf) -> bool:
    return leaf.core == "hollow" or (leaf.door == "wood" and leaf.core == "honeycomb")


def _in_wood(leaf: DrilledLeaf, why: str) -> Fastening:
    left = _sum(leaf.thickness, Quantity(-_LEFT_STANDING.magnitude, "in"))
    if left < _LEAST_PILOT:
        return _through_bolt(f"{why}, but too thin for a screw", leaf.thickness, leaf.foot)
    screws = _wood_screw("Leaf", why, min(left, _DEEPEST_PILOT), system_of(leaf.thickness))
    if leaf.core == "solid-wood":
        return screws
    return screws._replace(
        cautions=("Blocking of chip or board holds no screw: then bolt through.",)
    )


def _said(core: str) -> str:
    return {"tube": "a hollow rail", "stiffened": "steel stiffeners"}.get(core, f"a {core} core")


def frame_fastening(frame: str, reinforced: bool, system: str = "inch") -> Fastening:
    """What holds in this frame (one of `FRAMES`), depths in the units of that system. NoAnswer for a frame
    filled with mortar."""
    if frame == "grouted":
        raise NoAnswer(
            "A frame filled with mortar is not drilled from here: dust of silica, broken drills and"
            " no room for a nut; ask the foreman for a plan."
        )
    if frame == "wood":
        return _wood_screw("Frame", "wood", _DEEPEST_PILOT, system)
    if reinforced:
        screws = _machine_screw("Frame", f"{frame} with reinforcement where the holes fall", system)
        return _with_thin_steel_caution(screws)
    return _threaded_insert(f"{frame} without reinforcement holds too little thread")


CLUTCH = "Clutch on a low setting; turn the last turns by hand."

_CORE_WORDS = {"solid": "solid-wood", "tubular": "tube", "none": "hollow"}
_DOOR_WORDS = {"hollow-metal": "steel", "metal": "steel", "aluminum": "aluminium", "timber": "wood"}


def _fasteners(inputs: Mapping[str, Given]) -> Answer:
    door = needed(inputs, "door", str)
    frame = needed(inputs, "frame", str)
    if door == "glass":
        raise NoAnswer(
            "A glass leaf is not drilled on site, it shatters: ask the glass door's maker for a"
            " closer in the floor or in its fittings."
        )
    reinforced = given(inputs, "reinforced", bool)
    frame_reinforced = given(inputs, "frame_reinforced", bool)
    thickness = needed(inputs, "thickness", Quantity)
    in_leaf = leaf_fastening(
        DrilledLeaf(
            door,
            _core(inputs, door),
            reinforced or False,
            thickness,
            given(inputs, "foot", Quantity) or USUAL_FOOT,
        )
    )
    in_frame = frame_fastening(
        frame,
        (reinforced if frame_reinforced is None else frame_reinforced) or False,
        system_of(thickness),
    )
    value: dict[str, Result] = {
        "door_fastener": in_leaf.fastener,
        "door_screw": in_leaf.size,
        "door_drill": in_leaf.drill,
        "door_drill_size": in_leaf.drill_size,
        "door_depth": in_leaf.depth,
        "bolt_length": in_leaf.grip,
        "frame_fastener": in_frame.fastener,
        "frame_screw": in_frame.size,
        "frame_drill": in_frame.drill,
        "frame_drill_size": in_frame.drill_size,
        "frame_depth": in_frame.depth,
        "clutch": "low",
    }
    cautions = [*dict.fromkeys((*in_leaf.cautions, *in_frame.cautions))]
    if reinforced is None and in_leaf.fastener == "through-bolt":
        cautions.append("Reinforcement was not given, so none was counted on: find out first.")
    if frame_reinforced is None and frame in ("steel", "aluminium"):
        same = "reinforced" if reinforced else "not reinforced"
        cautions.append(f"The frame was taken as {same}, like the leaf: look before drilling.")
    cautions.append("The maker's sheet, the screws in its box and the door's listing govern.")
    return Answer(value, (*in_leaf.working, *in_frame.working, CLUTCH), tuple(cautions))


def _core(inputs: Mapping[str, Given], door: str) -> str:
    """The core given, or the only one there is; BadInput if it does not go with the door."""
    cores = CORES[door]
    core = given(inputs, "core", str)
    if core is None:
        if len(cores) == 1:
            return cores[0]
        raise BadInput(f"core is missing; for a {door} door give {either(cores)}.")
    if core == "hollow" and cores == ("tube",):
        return "tube"
    if core not in cores:
        raise BadInput(f"core {core} does not go with door {door}; give {either(cores)}.")
    return core


def _door_typed(text: str) -> str:
    word = "-".join(text.lower().split())
    return _DOOR_WORDS.get(word, word)


def _core_typed(text: str) -> str:
    word = "-".join(text.lower().split()).removesuffix("-core")
    return _CORE_WORDS.get(word, word)


COMPUTATION = Computation(
    name="fasteners",
    about="The fastener, drill and depth in leaf and frame, by what they are made of.",
    inputs=(
        Input("door", "choice", True, "what the leaf is made of", DOORS, tidy=_door_typed),
        Input("frame", "choice", True, "what the frame is made of", FRAMES, tidy=_door_typed),
        Input(
            "core",
            "choice",
            False,
            "what is inside the leaf",
            tuple(dict.fromkeys(core for cores in CORES.values() for core in cores)),
            tidy=_core_typed,
        ),
        Input(
            "reinforced",
            "yesno",
            False,
            "whether a steel plate or solid timber blocking is where the leaf's holes fall; not"
            " counted on if left out",
        ),
        optional_length("thickness", "thickness of the leaf", Fraction(1), Fraction(3)),
        Input(
            "frame_reinforced",
            "yesno",
            False,
            "whether the frame is reinforced where its holes fall; as the leaf if left out",
        ),
        optional_length(
            "foot",
            "thickness of the body's foot; 1/4 in if left out",
            Fraction(1, 16),
            Fraction(1),
        ),
    ),
    output=Output(
        "mapping",
        (
            "door_fastener",
            "door_screw",
            "door_drill",
            "door_drill_size",
            "door_depth",
            "bolt_length",
            "frame_fastener",
            "frame_screw",
            "frame_drill",
            "frame_drill_size",
            "frame_depth",
            "clutch",
        ),
        labels=(("door_fastener", FASTENERS), ("frame_fastener", FASTENERS)),
    ),
    compute=_fasteners,
    source="common practice; threads: ASME B1.1; lead holes: National Design Specification",
    example="door=wood frame=wood core=solid thickness='1 3/4 in'",
)
