"""`fasteners`: what holds a closer on this leaf and in this frame, as one answer.

The rules are in `fastening`; here the inputs are read and the two halves put together.
"""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity
from guide.text import either
from guide.trade.answer import Answer, BadInput, NoAnswer, Result
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.fastening.fixings import (
    CORES,
    DOORS,
    FASTENERS,
    FRAMES,
    USUAL_FOOT,
    Leaf,
    frame_fastening,
    leaf_fastening,
    system_of,
)
from guide.trade.inputs import optional_length

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
        Leaf(
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
    """The core given, or the only one there is; BadInput where it does not go with the door."""
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


COMPUTATIONS = (
    Computation(
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
    ),
)
