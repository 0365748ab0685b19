"""The parts of a closer's sheet: mounts with arm and opening ranges, body, shoe, holes, screws, chart lines.

A field's annotation says all that reading, checking and writing it need (`kinds`, `codec`); what several fields say
together is checked below them. An impossible part raises ValueError with a sentence.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Annotated

from guide.measures import Quantity
from guide.text import either
from guide.trade.mounts import BODY_INTO, MOUNT_WORDS, SHOE_INTO, SIZES
from guide.trade.sheet.codec import FieldError, check_fields
from guide.trade.sheet.kinds import (
    Angle,
    AtLeast,
    Length,
    Line,
    Mount,
    Offset,
    OneOf,
    RodLength,
    SignedTurns,
    SomeLength,
    Turns,
    Whole,
    Words,
    YesNo,
    written_turns,
)

UNITS_OF = {"inch": ("in", "ft"), "metric": ("mm", "cm", "m")}
"""The units of length in each system a sheet may be written in."""

DATUMS = ("underside of the stop", "top of the leaf")
ALONG_FROM = ("hinge edge", "hinge pin centre")
SIDES_OF_BODY = ("hinge", "latch")
SCREWS = ("sweep", "latch", "backcheck", "delayed-action", "spring")
TURNS_SLOWER = ("clockwise", "anticlockwise", "read the label")

RESTS = ("forearm square to the frame", "main arm along the door")
"""How an arm lies with the door closed. Regular arms and top jambs usually rest the first way,
parallel arms the second."""

HOLE_KINDS = ("screw", "through-bolt", "extra")
"""What goes into a hole: the screw or bolt that door and frame call for, always a through-bolt, or an
extra screw where the shoe bears on something that steps."""

PACKED_KINDS = ("machine", "wood", "self-drilling", "through-bolt", "rivet-nut")
"""What holds a part: a machine screw in a tapped hole, a wood screw, a screw that drills its own hole, a bolt
through leaf or frame with its sleeve nut, or a machine screw in a rivet nut."""

ACCESSORY_KINDS = ("drop-plate", "soffit-plate", "bracket", "packer", "extra-screws")
"""A plate that brings the body up or down, a plate under a narrow or stepped soffit, a bracket that carries the
shoe past what is on the head, a packer that brings the shoe level beside a blade stop, more screws for the shoe."""

THREADED = ("machine", "through-bolt", "rivet-nut")
"""The kinds of screw whose size is a thread."""

HELD_IN_A_HOLE = ("through-bolt", "rivet-nut")
"""The kinds of screw that need a hole of a size of their own."""

CARRIED = ("body", "shoe")
"""What an accessory carries."""

CARRIES = {
    "drop-plate": "body",
    "soffit-plate": "shoe",
    "bracket": "shoe",
    "packer": "shoe",
    "extra-screws": "shoe",
}
"""What each kind of accessory carries."""

HOLED = ("leaf", "frame face", "soffit")
"""What a hole goes into; the frame's face is that of its head."""

QUARTERS = 4
"""Turns of the spring screw are counted in quarters."""

NO_TURN = Quantity(Fraction(0), "deg")
"""The preset of an arm that has none."""

NO_PRESET = "none"
"""What a mount's sheet says if nothing is preset."""

NO_SHIFT = Quantity(Fraction(0), "in")
"""An accessory that leaves its part where the range has it."""


@dataclass(frozen=True, slots=True)
class Hole:
    """One hole, from the reference point of its part: the pinion, or the shoe's pivot."""

    name: Line
    """What the drawing calls it, a phrase."""
    along: Offset
    """Along the door [length]; of a body, above zero toward the valve end; of a shoe, above zero
    toward the latch edge."""
    down: Offset
    """From the part's screw line, above zero downward with the pinion's arm end up; under a
    soffit, above zero away from the leaf [length]."""
    kind: Annotated[str, OneOf(HOLE_KINDS)] = "screw"

    def __post_init__(self) -> None:
        check_fields(self)


@dataclass(frozen=True, slots=True)
class PackedScrew:
    """One kind of screw that the maker packs for a part, or names for it."""

    kind: Annotated[str, OneOf(PACKED_KINDS)]
    size: Line
    """Its thread or number, as M6x1 or No. 14."""
    length: SomeLength | None = None
    """Under its head [length]; None if the sheet is silent."""
    hole: SomeLength | None = None
    """The hole of a rivet nut, or of a bolt's sleeve [length]; None if the sheet is silent."""
    count: Whole | None = None
    """How many of them are in the box for the part; None if the sheet is silent."""
    into: Annotated[str, OneOf(HOLED)] | None = None
    """What they go into, if the box has the kind in two lengths; None if for whatever the part is fixed to."""

    def __post_init__(self) -> None:
        check_fields(self)
        if self.count == 0:
            raise FieldError("count", f"No {self.kind} screws are in the box; leave them away.")
        if self.hole is not None and self.kind not in HELD_IN_A_HOLE:
            raise FieldError(
                "hole",
                f"A {self.kind} screw has no hole of its own size; leave hole away, or write the kind"
                f" as {either(HELD_IN_A_HOLE)}.",
            )


@dataclass(frozen=True, slots=True)
class SheetBody:
    """The body: how far it reaches from the pinion, and its screw holes."""

    pinion_out: SomeLength
    """The pinion's axis from the face the body is screwed to [length]."""
    valve_end: SomeLength
    """How far it reaches from the pinion to the end with the valves [length]."""
    other_end: SomeLength
    """How far it reaches from the pinion to the other end [length]."""
    projects: SomeLength
    """How far it stands out from the face it is screwed to [length]."""
    height: SomeLength
    """From its top to its underside, the screw line at the middle [length]."""
    thread: Line
    """Of its machine screws, as 1/4-20."""
    holes: Annotated[tuple[Hole, ...], AtLeast(1, "hole")]
    packed: tuple[PackedScrew, ...] = ()
    """The screws that come with it, or that the sheet names; empty if the sheet is silent."""
    ends: Line | None = None
    """What the sheet calls its two ends, that with the valves first, as “A and B”; None if it has no names for them."""

    def __post_init__(self) -> None:
        check_fields(self)
        _named_once("body", self.holes)
        _packed_once("body", self.packed)
        if self.ends is not None and len(end_names(self.ends)) != 2:
            raise FieldError(
                "ends",
                f"The ends of the body are “{self.ends}”; write two names, the valves' end first, as"
                " “A and B”.",
            )


@dataclass(frozen=True, slots=True)
class SheetShoe:
    """The shoe's screw holes."""

    thread: Line
    """Of its machine screws, as 1/4-20."""
    holes: Annotated[tuple[Hole, ...], AtLeast(1, "hole")]
    packed: tuple[PackedScrew, ...] = ()
    """The screws that come with it, or that the sheet names; empty if the sheet is silent."""

    def __post_init__(self) -> None:
        check_fields(self)
        _named_once("shoe", self.holes)
        _packed_once("shoe", self.packed)


def end_names(ends: str) -> tuple[str, ...]:
    """The names of a body's ends, that with the valves first; other than two if they cannot be told."""
    found = tuple(one for one in re.split(r"\s*(?:,|/|\band\b|\s)\s*", ends.strip()) if one)
    return found if len({one.casefold() for one in found}) == len(found) else ()


def _named_once(part: str, holes: tuple[Hole, ...]) -> None:
    names = [hole.name for hole in holes]
    for name in names:
        if names.count(name) > 1:
            raise ValueError(f"The {part} has two holes named {name}; name each once.")


def _packed_once(part: str, packed: tuple[PackedScrew, ...]) -> None:
    kinds = [(one.kind, one.into) for one in packed]
    for kind, into in kinds:
        if kinds.count((kind, into)) > 1:
            raise FieldError(
                "packed",
                f"The {part} has {kind} screws twice; write each kind of screw once, or with “into” what"
                " each of the two lengths goes into.",
            )


@dataclass(frozen=True, slots=True)
class SheetArm:
    """The arm of one mount, between centres."""

    main: SomeLength
    """The main arm, pinion to elbow [length]."""
    forearm: RodLength
    """Elbow to shoe, shortest and longest; equal where it does not adjust [length]."""
    rests: Annotated[str, OneOf(RESTS)]
    """How it lies with the door closed."""
    shoe_out: SomeLength | None = None
    """The shoe's pivot from the face the shoe is screwed to [length]; None if the sheet is silent: it is then worked
    out from the ranges (`arm.sheet_geometry`). Always None on a parallel arm, where a range's `shoe_datum` is its
    distance from the leaf's push face."""
    preset_turn: Angle = NO_TURN
    """How far the pinion is turned, the way opening turns it, before the arm goes on [angle]."""

    def __post_init__(self) -> None:
        check_fields(self)
        if not 0 <= self.preset_turn.base <= 180:
            raise FieldError(
                "preset_turn", f"The preset is a turn of 0 to 180 deg, not {self.preset_turn}."
            )


@dataclass(frozen=True, slots=True)
class OpeningRange:
    """Where body and shoe go for openings up to one angle, on one mount."""

    up_to: Angle
    """The greatest opening this range serves, inclusive [angle]."""
    body_along: Length
    """Along the door, from the mount's `along_from` to the body's reference line [length]."""
    body_datum: Length
    """Up or down, from the mount's `datum` to the body's reference line [length]."""
    shoe_along: Length
    """Along the door, from the mount's `along_from` to the shoe's reference line [length]."""
    shoe_datum: Length
    """Up or down, from the mount's `datum` to the shoe's reference line [length]; on a parallel arm
    out from the leaf's push face to the shoe's pivot."""
    forearm: Length | None = None
    """Elbow to shoe as set on a frame in line with the leaf [length]; None if the sheet is silent."""

    def __post_init__(self) -> None:
        check_fields(self)
        if not 0 < self.up_to.base <= 180:
            raise FieldError("up_to", f"A range goes up to 180 deg at most, not {self.up_to}.")


@dataclass(frozen=True, slots=True)
class SheetMount:
    """One way of mounting this closer, with the datums its numbers are measured from."""

    mount: Mount
    ranges: Annotated[tuple[OpeningRange, ...], AtLeast(1, "opening range")]
    """By opening, smallest first."""
    datum: Annotated[str, OneOf(DATUMS)]
    """From where up and down is measured."""
    along_from: Annotated[str, OneOf(ALONG_FROM)]
    """From where along the door is measured."""
    valves_toward: Annotated[str, OneOf(SIDES_OF_BODY)]
    """The end of the body with the valves points there."""
    arm_rests: Line
    """How the arm lies when the door is closed, a sentence."""
    preset: Line = NO_PRESET
    """How the arm is preloaded when it is connected, a sentence."""
    arm: SheetArm | None = None
    """The arm's own dimensions; None if the owner has not copied them."""

    def __post_init__(self) -> None:
        check_fields(self)
        for smaller, larger in pairwise(self.ranges):
            if smaller.up_to >= larger.up_to:
                raise ValueError(
                    f"The opening ranges of {self.mount} must rise:"
                    f" {larger.up_to} comes after {smaller.up_to}."
                )
        if self.mount == "parallel" and self.arm is not None and self.arm.shoe_out is not None:
            raise ValueError(
                "On a parallel arm the shoe's second number is its distance out, so leave shoe_out"
                " away."
            )


@dataclass(frozen=True, slots=True)
class Screw:
    """One adjusting screw: a valve, or the spring's."""

    name: Annotated[str, OneOf(SCREWS)]
    where: Line
    """Where to find it on the body, a phrase."""
    slower: Annotated[str, OneOf(TURNS_SLOWER)] = "read the label"
    """The turn that makes a valve slower or firmer, or the spring weaker."""
    turns: Turns | None = None
    """Turns from one end of its travel to the other; None if the maker's sheet is silent."""
    has_stop: YesNo | None = None
    """Whether it stops before it comes out; None if the maker's sheet is silent."""

    def __post_init__(self) -> None:
        check_fields(self)
        if self.turns is not None and self.turns <= 0:
            raise FieldError("turns", f"The {self.name} screw needs more than no turns at all.")


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One line of the sheet's own size chart."""

    max_width: Length
    """The widest leaf for this size, inclusive [length]."""
    size: Whole
    """EN size."""
    mount: Mount | None = None
    """The mount the line is for; None if the chart does not tell mounts apart."""

    def __post_init__(self) -> None:
        check_fields(self)
        if not SIZES[0] <= self.size <= SIZES[1]:
            raise FieldError(
                "size", f"A chart line has EN size {self.size}; EN sizes run from 1 to 7."
            )


@dataclass(frozen=True, slots=True)
class SpringSetting:
    """One line of the sheet's table of spring turns: for an EN size, a width of leaf, or an accessible door."""

    turns: SignedTurns
    """From the factory's setting, above zero stronger, in quarters."""
    size: Whole | None = None
    """The EN size that these turns give."""
    max_width: Length | None = None
    """The widest leaf they are for, inclusive [length]."""
    accessible: YesNo = False
    """Whether they are for a door that must open with little force."""
    mount: Mount | None = None
    """None if the line is for every mount."""

    def __post_init__(self) -> None:
        check_fields(self)
        if (self.turns * QUARTERS).denominator != 1:
            raise FieldError(
                "turns",
                f"The table has {written_turns(self.turns)} turns; write quarter turns, such as 2 1/2.",
            )
        told = (self.size is not None, self.max_width is not None, self.accessible)
        if sum(told) != 1:
            raise FieldError(
                "turns",
                "A line of spring turns is for one of three: an EN size, a widest leaf, or an accessible door."
                " Write one of them and no more.",
            )


@dataclass(frozen=True, slots=True)
class Accessory:
    """A part the maker has beside the closer, such as a drop plate or a packer for a blade stop."""

    name: Line
    when: Words
    """Where it is wanted, a sentence."""
    kind: Annotated[str, OneOf(ACCESSORY_KINDS)]
    carries: Annotated[str, OneOf(CARRIED)]
    """The part that goes on it."""
    into: Annotated[str, OneOf(HOLED)]
    """What its own holes go into."""
    mount: Mount | None = None
    """None if it goes with every mount."""
    shift_along: Offset = NO_SHIFT
    """Where it puts the part's reference point along the door, from where the range has it, above zero
    toward the latch edge [length]."""
    shift_down: Offset = NO_SHIFT
    """The same down, above zero downward as the part hangs; under a soffit away from the leaf [length]."""
    thickness: SomeLength | None = None
    """How far it brings the part off the face [length]; None if the sheet is silent."""
    needed_below: SomeLength | None = None
    """Of a drop plate: it is needed where the leaf's top rail, or on a top jamb the face of the frame's head, is lower
    than this [length]; None if the sheet gives no such number."""
    needed_with_glass: YesNo | None = None
    """Of a drop plate: whether it is needed where glass would be behind the body; None if the sheet is silent."""
    thread: Line | None = None
    """Of the screws that hold it; the part's own if left out."""
    holes: tuple[Hole, ...] = ()
    """Its own holes, from the part's reference point as it puts it. A plate or bracket that has none is
    not copied yet; a packer has none, because the part's screws go through it."""

    def __post_init__(self) -> None:
        check_fields(self)
        _named_once(self.name, self.holes)
        if self.carries != CARRIES[self.kind]:
            raise FieldError(
                "carries",
                f"A {self.kind} carries the {CARRIES[self.kind]}, not the {self.carries}: see the"
                f" {self.name}.",
            )
        if self.mount is not None and self.into not in self.goes_into(self.mount):
            raise FieldError("into", self._not_into(self.mount))
        self._check_dimensions()

    def _check_dimensions(self) -> None:
        for key in ("needed_below", "needed_with_glass"):
            if self.kind != "drop-plate" and getattr(self, key) is not None:
                raise FieldError(
                    key,
                    f"Rail and glass decide on a drop plate alone, and the {self.name} is a"
                    f" {self.kind}; leave {key} away.",
                )
        if self.kind == "packer" and self.holes:
            raise FieldError(
                "holes", f"The shoe's screws go through the {self.name}; leave its holes away."
            )
        moves = self.shift_along.base or self.shift_down.base or self.thickness is not None
        if self.kind == "extra-screws" and moves:
            raise FieldError(
                "kind",
                f"Extra screws leave the shoe where it is, and the {self.name} moves it; write the"
                " kind of part that it is.",
            )

    def goes_into(self, mount: str) -> tuple[str, ...]:
        """What its holes can go into on that mount: what its part is fixed to. A bracket can also bring the shoe of
        a parallel arm from the soffit to the frame's face."""
        usual = (BODY_INTO if self.carries == "body" else SHOE_INTO)[mount]
        if self.kind == "bracket" and usual == "soffit":
            return (usual, "frame face")
        return (usual,)

    def check_beside(self, mount: str) -> None:
        """Raise FieldError if it cannot go with that mount of the sheet."""
        if self.into not in self.goes_into(mount):
            raise FieldError(
                "accessories",
                f"{self._not_into(mount)[:-1]}, and it is said to go with every mount; name the mount.",
            )

    def _not_into(self, mount: str) -> str:
        return (
            f"On a {MOUNT_WORDS[mount]} the {self.carries} goes to the"
            f" {either(self.goes_into(mount))}, and the {self.name} into the {self.into}."
        )

    @property
    def copied(self) -> bool:
        """Whether its dimensions are on the sheet, so that holes can be set out with it."""
        return bool(self.holes) or (self.kind == "packer" and self.thickness is not None)

    @property
    def limited(self) -> bool:
        """Whether the sheet says with a number, or by glass, where it is needed."""
        return self.needed_below is not None or bool(self.needed_with_glass)

    @property
    def told(self) -> str:
        """What it is and where it is wanted, for the fitter."""
        name = f"{self.name[:1].upper()}{self.name[1:]}"
        return f"{name}, by the sheet: {self.when[:1].lower()}{self.when[1:]}"
