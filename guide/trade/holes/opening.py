"""One opening, as far as it is known, and what somebody typed from a sheet or a schedule about its holes.

Both are built from values by name: the answers of a run, a row of a door schedule, or `key=value` on the command line.
Lengths in inches, exact; None is not known.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.computation import Given, Input, given
from guide.trade.door.handing import HANDS, SIDES
from guide.trade.door.hinges import HINGES, USUAL_THICKNESS
from guide.trade.fastening.fasteners import CORES
from guide.trade.holes.inputs import ALONG_WORDS, DATUM_WORDS, RANGE_INPUT
from guide.trade.holes.typed_pattern import NOTHING_TYPED, PATTERN_INPUTS, Pattern, pattern_of
from guide.trade.inputs import optional_length
from guide.trade.mounts import MOUNTS
from guide.trade.sheet.parts import SIDES_OF_BODY

SOFFITS = ("flat", "stepped", "blade", "narrow")
ROOMS = ("fits", "plate", "no-room")
HEAD_ITEMS = ("clear", "coordinator", "overhead", "seal", "lock", "rods", "several")
LEAVES = ("wood", "steel", "aluminium", "glass")
PREPARATIONS = ("tapped", "reinforced", "old", "plain")
FRAMES = ("steel", "wood", "aluminium", "grouted")
TEMPLATES = ("paper", "numbers", "missing")
"""The paper template from the box, numbers from the maker's sheet typed once, or neither."""


@dataclass(frozen=True, slots=True)
class Material:
    """What the holes of a part go into."""

    kind: str | None = None
    """"wood", "steel", "aluminium"; of a leaf also "glass", of a frame also "grouted"."""
    core: str | None = None
    """What is inside a leaf; one of `CORES` of its kind."""
    plate: bool | None = None
    """Whether a steel plate is where the holes fall."""
    preparation: str | None = None
    """One of `PREPARATIONS`."""


@dataclass(frozen=True, slots=True)
class Opening:
    """The door and its frame."""

    mount: str | None = None
    knuckles: str | None = None
    """The side the hinge knuckles are on, seen from the pull side."""
    hand: str | None = None
    hinge: str | None = None
    angle: Quantity | None = None
    """How far the leaf opens."""
    width: Fraction | None = None
    height: Fraction | None = None
    thickness: Fraction | None = None
    overlap: Fraction | None = None
    """Top of the leaf above the underside of the stop."""
    stop_depth: Fraction | None = None
    frame_proud: Fraction | None = None
    top_rail: Fraction | None = None
    """Height of the leaf's top rail, or of its solid part."""
    glass: Fraction | None = None
    """From the top of the leaf down to the glass or its bead."""
    frame_face: Fraction | None = None
    """Height of the face of the frame's head."""
    soffit: str | None = None
    """One of `SOFFITS`."""
    soffit_width: Fraction | None = None
    """Out from the push face of the leaf."""
    room: str | None = None
    """One of `ROOMS`."""
    head_items: tuple[str, ...] = ()
    """What is on the head; each one of `HEAD_ITEMS`."""
    leaf: Material = Material()
    frame: Material = Material()
    special: bool = False
    """Whether sheet or paper is the maker's special one for this hinge."""

    @property
    def usual_thickness(self) -> Fraction:
        """The leaf's thickness, a usual one where it is not known [in]."""
        return USUAL_THICKNESS if self.thickness is None else self.thickness


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed from the maker's paper, or came with a schedule. Lengths in inches."""

    mount: str | None = None
    """The mount that paper or schedule is for."""
    along_from: str | None = None
    """"hinge edge" or "hinge pin centre"."""
    datum: str | None = None
    """"underside of the stop" or "top of the leaf"."""
    body_along: Quantity | None = None
    body_across: Quantity | None = None
    shoe_along: Quantity | None = None
    shoe_across: Quantity | None = None
    valves_toward: str | None = None
    pattern: Pattern = NOTHING_TYPED
    """The parts' holes; without them the numbers give only the two crosses."""

    @property
    def numbers(self) -> dict[str, Quantity | None]:
        """The four numbers by name, in the order in which they are asked."""
        return {name: getattr(self, name) for name in NUMBERS}

    @property
    def missing(self) -> tuple[str, ...]:
        """What must still be typed before anything can be marked from it."""
        needed = ("along_from", "datum", *NUMBERS)
        return tuple(f"typed_{name}" for name in needed if getattr(self, name) is None)


NUMBERS = ("body_along", "body_across", "shoe_along", "shoe_across")

_ANYWHERE = (Fraction(0), Fraction(120))


def _choice(name: str, about: str, options: tuple[str, ...]) -> Input:
    return Input(name, "choice", False, about, options)


def _length(name: str, about: str, low: Fraction = Fraction(0)) -> Input:
    return optional_length(name, about, low, Fraction(192))


OPENING_INPUTS = (
    _choice("mount", "how the closer is mounted", MOUNTS),
    _choice("knuckles", "the side the knuckles are on, from the pull side", SIDES),
    _choice("hand", "the hand; it must agree with the knuckles", HANDS),
    _choice("hinge", "what the leaf hangs on", HINGES),
    Input(
        "opening",
        "angle",
        False,
        RANGE_INPUT.about,
        low=RANGE_INPUT.low,
        high=RANGE_INPUT.high,
        tidy=RANGE_INPUT.tidy,
    ),
    _length("width", "width of the leaf"),
    _length("height", "height of the leaf"),
    optional_length("thickness", "thickness of the leaf", Fraction(1), Fraction(3)),
    optional_length(
        "overlap", "top of the leaf above the underside of the stop", Fraction(0), Fraction(2)
    ),
    _length("stop_depth", "frame's push face beyond the leaf's"),
    _length("frame_proud", "frame's pull face proud of the leaf's"),
    _length("top_rail", "height of the leaf's top rail"),
    _length("glass", "from the top of the leaf down to the glass"),
    _length("frame_face", "height of the face of the frame's head"),
    _choice("soffit", "the soffit where the shoe goes", SOFFITS),
    _length("soffit_width", "width of the soffit, out from the leaf"),
    _choice("room", "whether body, arm and shoe have room", ROOMS),
    _choice("head_item", "what else is on the head", HEAD_ITEMS),
    Input("coordinator", "yesno", False, "whether a coordinator bar is among several items"),
    _choice("leaf", "what the leaf is made of", LEAVES),
    _choice("behind", "what is behind a wood face", CORES["wood"]),
    _choice("steel_core", "what is between steel faces", CORES["steel"]),
    _choice("prep", "how the leaf is prepared", PREPARATIONS),
    _choice("frame", "what the frame is made of", FRAMES),
    Input("frame_plate", "yesno", False, "whether the frame has a plate where its holes fall"),
    Input("special", "yesno", False, "whether the sheet is the maker's special one for this hinge"),
)
"""What is read of an opening; the facts of a run have the same names."""

TYPED_INPUTS = (
    _choice("typed_mount", "the mount that paper or schedule is for", MOUNTS),
    _choice("typed_along_from", "from where the paper measures along", tuple(ALONG_WORDS)),
    _choice("typed_datum", "from where the paper measures up and down", tuple(DATUM_WORDS)),
    *(
        optional_length(f"typed_{name}", f"{name.replace('_', ' ')}, by the paper", *_ANYWHERE)
        for name in NUMBERS
    ),
    _choice("typed_valves_toward", "the end the valves point to, by the paper", SIDES_OF_BODY),
    *PATTERN_INPUTS,
)
"""What is typed where no sheet is loaded; beside a sheet it must agree with it."""


def opening_of(values: Mapping[str, Given]) -> Opening:
    """The opening from values by the names of `OPENING_INPUTS`; `range` serves for `opening`."""

    def word(name: str) -> str | None:
        return given(values, name, str)

    leaf = word("leaf")
    prep = word("prep")
    head = word("head_item")
    head_items = () if head is None else (head,)
    if given(values, "coordinator", bool):
        head_items = (*head_items, "coordinator")
    lengths = {
        name: None if (value := given(values, name, Quantity)) is None else value.base
        for name in (
            *("width", "height", "thickness", "overlap", "stop_depth", "frame_proud"),
            *("top_rail", "glass", "frame_face", "soffit_width"),
        )
    }
    core = {"wood": word("behind"), "steel": word("steel_core"), "aluminium": "tube"}
    angle = given(values, "opening", Quantity) or given(values, "range", Quantity)
    return Opening(
        mount=word("mount"),
        knuckles=word("knuckles"),
        hand=word("hand"),
        hinge=word("hinge"),
        angle=angle,
        soffit=word("soffit"),
        room=word("room"),
        head_items=head_items,
        leaf=Material(
            leaf,
            core.get(leaf or ""),
            # What is behind a wood face is asked where the holes fall, and says more than a preparation.
            None if prep is None or leaf == "wood" else prep == "reinforced",
            prep,
        ),
        frame=Material(
            word("frame"),
            None,
            given(values, "frame_plate", bool),
            prep if prep == "tapped" else None,
        ),
        special=given(values, "special", bool) or False,
        **lengths,
    )


def typed_of(values: Mapping[str, Given]) -> Typed:
    """What was typed, from values by the names of `TYPED_INPUTS`."""
    along, datum = given(values, "typed_along_from", str), given(values, "typed_datum", str)
    return Typed(
        mount=given(values, "typed_mount", str),
        along_from=None if along is None else ALONG_WORDS[along],
        datum=None if datum is None else DATUM_WORDS[datum],
        valves_toward=given(values, "typed_valves_toward", str),
        body_along=given(values, "typed_body_along", Quantity),
        body_across=given(values, "typed_body_across", Quantity),
        shoe_along=given(values, "typed_shoe_along", Quantity),
        shoe_across=given(values, "typed_shoe_across", Quantity),
        pattern=pattern_of(values),
    )
