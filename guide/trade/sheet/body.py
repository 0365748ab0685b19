"""The dimensions on a closer's sheet that move: body, shoe, their holes, and the arm of each mount.

Each checks itself (ValueError with a sentence) and is written to plain data and read back exactly.
"""

from fractions import Fraction

from guide.dataclass import dataclass
from guide.measures import Quantity, write
from guide.trade.sheet.kinds import each, quantity, quantity_or_none, text
from guide.trade.spelling import either

RESTS = ("forearm square to the frame", "main arm along the door")
"""How an arm lies with the door closed. Regular arms and top jambs usually rest the first way,
parallel arms the second."""

HOLE_KINDS = ("screw", "through-bolt", "extra")
"""What goes into a hole: the screw or bolt that door and frame call for, always a through-bolt, or an
extra screw where the shoe bears on something that steps."""

_NONE = Quantity(Fraction(0), "in")
NO_TURN = Quantity(Fraction(0), "deg")
"""The preset of an arm that has none."""


def _length(what: str, value: Quantity) -> None:
    if value.kind != "length":
        raise ValueError(f"{what} needs a unit of length, which {value} does not have.")


def _some_length(what: str, value: Quantity) -> None:
    _length(what, value)
    if value <= _NONE:
        raise ValueError(f"{what} must be more than nothing, not {value}.")


@dataclass(frozen=True, slots=True)
class Hole:
    """One hole, from the reference point of its part: the pinion, or the shoe's pivot."""

    name: str
    """What the drawing calls it, a phrase."""
    along: Quantity
    """Along the door [length]; of a body, above zero toward the valve end; of a shoe, above zero
    toward the latch edge."""
    down: Quantity
    """From the part's screw line, above zero downward with the pinion's arm end up; under a
    soffit, above zero away from the leaf [length]."""
    kind: str = "screw"
    """One of `HOLE_KINDS`."""

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise ValueError("A hole needs a name.")
        _length(f"The hole {self.name}, along,", self.along)
        _length(f"The hole {self.name}, down,", self.down)
        if self.kind not in HOLE_KINDS:
            raise ValueError(
                f"The hole {self.name} must be {either(HOLE_KINDS)}, not “{self.kind}”."
            )

    def to_json(self) -> dict[str, object]:
        """This hole as data that JSON can hold."""
        return {
            "name": self.name,
            "along": write(self.along),
            "down": write(self.down),
            "kind": self.kind,
        }

    @staticmethod
    def from_json(data: object) -> "Hole":
        """The hole `to_json` wrote; ValueError where it is damaged."""
        return Hole(
            name=text(data, "name"),
            along=quantity(data, "along", "length"),
            down=quantity(data, "down", "length"),
            kind=text(data, "kind"),
        )


def _named_once(part: str, holes: tuple[Hole, ...]) -> None:
    names = [hole.name for hole in holes]
    for name in names:
        if names.count(name) > 1:
            raise ValueError(f"The {part} has two holes named {name}; name each once.")


@dataclass(frozen=True, slots=True)
class SheetBody:
    """The body: how far it reaches from the pinion, and its screw holes."""

    pinion_out: Quantity
    """The pinion's axis from the face the body is screwed to [length]."""
    valve_end: Quantity
    """How far it reaches from the pinion to the end with the valves [length]."""
    other_end: Quantity
    """How far it reaches from the pinion to the other end [length]."""
    projects: Quantity
    """How far it stands out from the face it is screwed to [length]."""
    height: Quantity
    """From its top to its underside, the screw line at the middle [length]."""
    thread: str
    """Of its machine screws, as 1/4-20."""
    holes: tuple[Hole, ...]

    def __post_init__(self) -> None:
        for what, value in (
            ("The pinion's distance out", self.pinion_out),
            ("The body's valve end", self.valve_end),
            ("The body's other end", self.other_end),
            ("The body's depth", self.projects),
            ("The body's height", self.height),
        ):
            _some_length(what, value)
        _named_once("body", self.holes)

    def to_json(self) -> dict[str, object]:
        """This body as data that JSON can hold."""
        return {
            "pinion_out": write(self.pinion_out),
            "valve_end": write(self.valve_end),
            "other_end": write(self.other_end),
            "projects": write(self.projects),
            "height": write(self.height),
            "thread": self.thread,
            "holes": [hole.to_json() for hole in self.holes],
        }

    @staticmethod
    def from_json(data: object) -> "SheetBody":
        """The body `to_json` wrote; ValueError where it is damaged."""
        return SheetBody(
            pinion_out=quantity(data, "pinion_out", "length"),
            valve_end=quantity(data, "valve_end", "length"),
            other_end=quantity(data, "other_end", "length"),
            projects=quantity(data, "projects", "length"),
            height=quantity(data, "height", "length"),
            thread=text(data, "thread"),
            holes=each(data, "holes", Hole.from_json),
        )


@dataclass(frozen=True, slots=True)
class SheetShoe:
    """The shoe's screw holes."""

    thread: str
    """Of its machine screws, as 1/4-20."""
    holes: tuple[Hole, ...]

    def __post_init__(self) -> None:
        _named_once("shoe", self.holes)

    def to_json(self) -> dict[str, object]:
        """This shoe as data that JSON can hold."""
        return {"thread": self.thread, "holes": [hole.to_json() for hole in self.holes]}

    @staticmethod
    def from_json(data: object) -> "SheetShoe":
        """The shoe `to_json` wrote; ValueError where it is damaged."""
        return SheetShoe(text(data, "thread"), each(data, "holes", Hole.from_json))


@dataclass(frozen=True, slots=True)
class SheetArm:
    """The arm of one mount, between centres."""

    main_arm: Quantity
    """Pinion to elbow [length]."""
    forearm: tuple[Quantity, Quantity]
    """Elbow to shoe, shortest and longest; equal where it does not adjust [length]."""
    rests: str
    """One of `RESTS`: how it lies with the door closed."""
    shoe_out: Quantity | None = None
    """The shoe's pivot from the face the shoe is screwed to [length]; None on a parallel arm, where
    a range's `shoe_from_datum` is its distance from the leaf's push face."""
    preset_turn: Quantity = NO_TURN
    """How far the pinion is turned, the way opening turns it, before the arm goes on [angle]."""

    def __post_init__(self) -> None:
        _some_length("The main arm", self.main_arm)
        shortest, longest = self.forearm
        _some_length("The forearm", shortest)
        _length("The forearm", longest)
        if shortest > longest:
            raise ValueError(
                f"The forearm goes from {shortest} to {longest}; the shorter is first."
            )
        if self.rests not in RESTS:
            raise ValueError(f"The arm must rest with the {either(RESTS)}, not “{self.rests}”.")
        if self.shoe_out is not None:
            _some_length("The shoe's pivot", self.shoe_out)
        if self.preset_turn.kind != "angle" or not 0 <= self.preset_turn.base <= 180:
            raise ValueError(f"The preset is a turn of 0 to 180 deg, not {self.preset_turn}.")

    def to_json(self) -> dict[str, object]:
        """This arm as data that JSON can hold."""
        return {
            "main_arm": write(self.main_arm),
            "forearm_shortest": write(self.forearm[0]),
            "forearm_longest": write(self.forearm[1]),
            "rests": self.rests,
            "shoe_out": None if self.shoe_out is None else write(self.shoe_out),
            "preset_turn": write(self.preset_turn),
        }

    @staticmethod
    def from_json(data: object) -> "SheetArm":
        """The arm `to_json` wrote; ValueError where it is damaged."""
        return SheetArm(
            main_arm=quantity(data, "main_arm", "length"),
            forearm=(
                quantity(data, "forearm_shortest", "length"),
                quantity(data, "forearm_longest", "length"),
            ),
            rests=text(data, "rests"),
            shoe_out=quantity_or_none(data, "shoe_out", "length"),
            preset_turn=quantity(data, "preset_turn", "angle"),
        )
