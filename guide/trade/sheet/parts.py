"""The parts of a closer's sheet: mounts with their opening ranges, screws, chart lines.

Each checks itself (ValueError with a sentence) and is written to plain data and read back exactly.
"""

from fractions import Fraction
from itertools import pairwise

from guide.dataclass import dataclass
from guide.measures import Quantity, write
from guide.trade.mounts import MOUNTS, SIZES
from guide.trade.sheet.body import SheetArm
from guide.trade.sheet.kinds import (
    each,
    field_or_none,
    member,
    quantity,
    quantity_or_none,
    text,
    turns,
    turns_out,
    whole,
)
from guide.trade.spelling import either

DATUMS = ("underside of the stop", "top of the leaf")
ALONG_FROM = ("hinge edge", "hinge pin centre")
SIDES_OF_BODY = ("hinge", "latch")
SCREWS = ("sweep", "latch", "backcheck", "delayed-action", "spring")
TURNS_SLOWER = ("clockwise", "anticlockwise", "read the label")


def one_of(what: str, value: str, allowed: tuple[str, ...]) -> None:
    """Raise ValueError unless `value` is one of the allowed words."""
    if value not in allowed:
        raise ValueError(f"{what} must be {either(allowed)}, not “{value}”.")


def _measure(what: str, value: Quantity, kind: str) -> None:
    if value.kind != kind:
        raise ValueError(f"{what} needs a unit of {kind}, which {value} does not have.")


@dataclass(frozen=True, slots=True)
class OpeningRange:
    """Where body and shoe go for openings up to one angle, on one mount."""

    up_to: Quantity
    """The greatest opening this range serves, inclusive [angle]."""
    body_from_hinge: Quantity
    """Along the door, from the mount's `along_from` to the body's reference line [length]."""
    body_from_datum: Quantity
    """Up or down, from the mount's `datum` to the body's reference line [length]."""
    shoe_from_hinge: Quantity
    """Along the door, from the mount's `along_from` to the shoe's reference line [length]."""
    shoe_from_datum: Quantity
    """Up or down, from the mount's `datum` to the shoe's reference line [length]; on a parallel arm
    out from the leaf's push face to the shoe's pivot."""
    forearm: Quantity | None = None
    """Elbow to shoe as set on a frame in line with the leaf [length]; None where the sheet is silent."""

    def __post_init__(self) -> None:
        _measure("The opening a range goes up to", self.up_to, "angle")
        if not 0 < self.up_to.base <= 180:
            raise ValueError(f"A range goes up to 180 deg at most, not {self.up_to}.")
        _measure("The body's distance along the door", self.body_from_hinge, "length")
        _measure("The body's distance from the datum", self.body_from_datum, "length")
        _measure("The shoe's distance along the door", self.shoe_from_hinge, "length")
        _measure("The shoe's distance from the datum", self.shoe_from_datum, "length")
        if self.forearm is not None:
            _measure("The forearm of a range", self.forearm, "length")

    def to_json(self) -> dict[str, object]:
        """This range as data that JSON can hold."""
        return {
            "up_to": write(self.up_to),
            "body_from_hinge": write(self.body_from_hinge),
            "body_from_datum": write(self.body_from_datum),
            "shoe_from_hinge": write(self.shoe_from_hinge),
            "shoe_from_datum": write(self.shoe_from_datum),
            "forearm": None if self.forearm is None else write(self.forearm),
        }

    @staticmethod
    def from_json(data: object) -> "OpeningRange":
        """The range `to_json` wrote; ValueError where it is damaged."""
        return OpeningRange(
            up_to=quantity(data, "up_to", "angle"),
            body_from_hinge=quantity(data, "body_from_hinge", "length"),
            body_from_datum=quantity(data, "body_from_datum", "length"),
            shoe_from_hinge=quantity(data, "shoe_from_hinge", "length"),
            shoe_from_datum=quantity(data, "shoe_from_datum", "length"),
            forearm=quantity_or_none(data, "forearm", "length"),
        )


@dataclass(frozen=True, slots=True)
class SheetMount:
    """One way of mounting this closer, with the datums its numbers are measured from."""

    mount: str
    """One of `MOUNTS`."""
    ranges: tuple[OpeningRange, ...]
    """By opening, smallest first; at least one."""
    datum: str
    """One of `DATUMS`: from where up and down is measured."""
    along_from: str
    """One of `ALONG_FROM`: from where along the door is measured."""
    valves_toward: str
    """"hinge" or "latch": the end of the body with the valves points there."""
    arm_rests: str
    """How the arm lies when the door is closed, a sentence."""
    preset: str
    """How the arm is preloaded when it is connected, a sentence."""
    arm: SheetArm | None = None
    """The arm's own dimensions; None where the owner has not copied them."""

    def __post_init__(self) -> None:
        one_of("A mount", self.mount, MOUNTS)
        one_of(f"The datum of {self.mount}", self.datum, DATUMS)
        one_of(f"Along the door on {self.mount}, the start", self.along_from, ALONG_FROM)
        one_of(f"The end the valves of {self.mount} point to", self.valves_toward, SIDES_OF_BODY)
        if not self.ranges:
            raise ValueError(f"The mount {self.mount} needs at least one opening range.")
        for smaller, larger in pairwise(self.ranges):
            if smaller.up_to >= larger.up_to:
                raise ValueError(
                    f"The opening ranges of {self.mount} must rise:"
                    f" {larger.up_to} stands after {smaller.up_to}."
                )
        if self.arm is not None and (self.arm.shoe_out is None) != (self.mount == "parallel"):
            raise ValueError(
                "On a parallel arm the shoe's second number is its distance out, so leave shoe_out"
                " away."
                if self.mount == "parallel"
                else f"The arm of {self.mount} needs shoe_out, from the face under the shoe."
            )

    def to_json(self) -> dict[str, object]:
        """This mount as data that JSON can hold."""
        return {
            "mount": self.mount,
            "ranges": [one.to_json() for one in self.ranges],
            "datum": self.datum,
            "along_from": self.along_from,
            "valves_toward": self.valves_toward,
            "arm_rests": self.arm_rests,
            "preset": self.preset,
            "arm": None if self.arm is None else self.arm.to_json(),
        }

    @staticmethod
    def from_json(data: object) -> "SheetMount":
        """The mount `to_json` wrote; ValueError where it is damaged."""
        return SheetMount(
            mount=text(data, "mount"),
            ranges=each(data, "ranges", OpeningRange.from_json),
            datum=text(data, "datum"),
            along_from=text(data, "along_from"),
            valves_toward=text(data, "valves_toward"),
            arm_rests=text(data, "arm_rests"),
            preset=text(data, "preset"),
            arm=None if member(data, "arm") is None else SheetArm.from_json(member(data, "arm")),
        )


@dataclass(frozen=True, slots=True)
class Screw:
    """One adjusting screw: a valve, or the spring's."""

    name: str
    """One of `SCREWS`."""
    where: str
    """Where to find it on the body, a phrase."""
    slower: str = "read the label"
    """One of `TURNS_SLOWER`: the turn that makes a valve slower or firmer, or the spring weaker."""
    turns: Fraction | None = None
    """Turns from one end of its travel to the other; None where the maker's sheet is silent."""
    has_stop: bool | None = None
    """Whether it stops before it comes out; None where the maker's sheet is silent."""

    def __post_init__(self) -> None:
        one_of("An adjusting screw", self.name, SCREWS)
        one_of(f"The slower turn of the {self.name} screw", self.slower, TURNS_SLOWER)
        if self.turns is not None and self.turns <= 0:
            raise ValueError(f"The {self.name} screw needs more than no turns at all.")

    def to_json(self) -> dict[str, object]:
        """This screw as data that JSON can hold."""
        return {
            "name": self.name,
            "where": self.where,
            "slower": self.slower,
            "turns": turns_out(self.turns),
            "has_stop": self.has_stop,
        }

    @staticmethod
    def from_json(data: object) -> "Screw":
        """The screw `to_json` wrote; ValueError where it is damaged."""
        return Screw(
            name=text(data, "name"),
            where=text(data, "where"),
            slower=text(data, "slower"),
            turns=turns(data, "turns"),
            has_stop=field_or_none(data, "has_stop", bool),
        )


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One line of the sheet's own size chart."""

    mount: str | None
    """The mount the line is for; None where the chart does not tell mounts apart."""
    max_width: Quantity
    """The widest leaf for this size, inclusive [length]."""
    size: int
    """EN size."""

    def __post_init__(self) -> None:
        if self.mount is not None:
            one_of("The mount of a chart line", self.mount, MOUNTS)
        _measure("The widest leaf of a chart line", self.max_width, "length")
        if not SIZES[0] <= self.size <= SIZES[1]:
            raise ValueError(f"A chart line has EN size {self.size}; EN sizes run from 1 to 7.")

    def to_json(self) -> dict[str, object]:
        """This line as data that JSON can hold."""
        return {"mount": self.mount, "max_width": write(self.max_width), "size": self.size}

    @staticmethod
    def from_json(data: object) -> "ChartRow":
        """The line `to_json` wrote; ValueError where it is damaged."""
        return ChartRow(
            mount=field_or_none(data, "mount", str),
            max_width=quantity(data, "max_width", "length"),
            size=whole(member(data, "size"), "size"),
        )


@dataclass(frozen=True, slots=True)
class Accessory:
    """A part the maker has beside the closer, such as a drop plate or a packer for a blade stop."""

    name: str
    when: str
    """Where it is wanted, a sentence."""
    mount: str | None = None
    """One of `MOUNTS`; None where it goes with every mount."""

    def __post_init__(self) -> None:
        if self.mount is not None:
            one_of(f"The mount of the {self.name}", self.mount, MOUNTS)

    @property
    def told(self) -> str:
        """What it is and where it is wanted, for the fitter."""
        name = f"{self.name[:1].upper()}{self.name[1:]}"
        return f"{name}, by the sheet: {self.when[:1].lower()}{self.when[1:]}"

    def to_json(self) -> dict[str, object]:
        """This part as data that JSON can hold."""
        return {"name": self.name, "when": self.when, "mount": self.mount}

    @staticmethod
    def from_json(data: object) -> "Accessory":
        """The part `to_json` wrote; ValueError where it is damaged."""
        return Accessory(text(data, "name"), text(data, "when"), field_or_none(data, "mount", str))
