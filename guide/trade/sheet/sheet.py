"""The sheet of one closer model: the dimensions its owner copied from the maker's own sheet.

Plain frozen classes that check themselves; files are read elsewhere. An impossible sheet raises
ValueError with a sentence. Lookups raise NoAnswer where the sheet does not go that far.
"""

from fractions import Fraction
from itertools import pairwise

from guide.dataclass import dataclass
from guide.measures import Quantity
from guide.trade.answer import NoAnswer
from guide.trade.mounts import MOUNT_WORDS, MOUNTS, SIZES
from guide.trade.sheet.body import SheetBody, SheetShoe
from guide.trade.sheet.kinds import each, field, member, text, turns, turns_out, whole
from guide.trade.sheet.parts import (
    Accessory,
    ChartRow,
    OpeningRange,
    Screw,
    SheetMount,
    one_of,
)
from guide.trade.spelling import either

__all__ = [
    "MOUNTS",
    "MOUNT_WORDS",
    "SIZES",
    "Accessory",
    "ChartRow",
    "OpeningRange",
    "Screw",
    "Sheet",
    "SheetMount",
]

UNIT_SYSTEMS = ("inch", "metric")


@dataclass(frozen=True, slots=True)
class Sheet:
    """One closer model, as its owner copied it from the maker's sheet."""

    name: str
    about: str
    unit_system: str
    """The system the maker's sheet is written in, "inch" or "metric"."""
    sizes: tuple[int, int]
    """Weakest and strongest EN size; equal where the spring is fixed."""
    adjustable: bool
    """Whether the spring is set with a screw."""
    mounts: tuple[SheetMount, ...]
    screws: tuple[Screw, ...] = ()
    chart: tuple[ChartRow, ...] = ()
    """The sheet's own size chart; empty where it has none. All lines name a mount, or none."""
    turns_per_size: Fraction | None = None
    """Full turns of the spring screw for one EN size, in quarters; None where not stated."""
    through_bolts: str = ""
    """Where the maker asks for through-bolts, a sentence; empty where the sheet is silent."""
    body: SheetBody | None = None
    """The body's own dimensions; None where the owner has not copied them."""
    shoe: SheetShoe | None = None
    """The shoe's holes; None where the owner has not copied them."""
    accessories: tuple[Accessory, ...] = ()
    """What the maker has beside the closer."""

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise ValueError("A sheet needs a name.")
        one_of("The unit system of a sheet", self.unit_system, UNIT_SYSTEMS)
        self._check_sizes()
        _once("mount", [one.mount for one in self.mounts])
        _once("screw", [one.name for one in self.screws])
        if not self.mounts:
            raise ValueError(f"The sheet {self.name} needs at least one mount.")
        self._check_chart()
        has = [one.mount for one in self.mounts]
        for part in self.accessories:
            if part.mount is not None and part.mount not in has:
                raise ValueError(
                    f"The {part.name} goes with a {MOUNT_WORDS[part.mount]}, which the sheet"
                    f" {self.name} does not have."
                )

    def _check_sizes(self) -> None:
        low, high = self.sizes
        if not SIZES[0] <= low <= high <= SIZES[1]:
            raise ValueError(
                f"The sheet {self.name} runs from EN size {low} to {high};"
                " write the weaker first, within 1 to 7."
            )
        if self.adjustable != (low < high):
            rule = (
                "an adjustable spring has two sizes" if self.adjustable else "a fixed one has one"
            )
            raise ValueError(f"The sheet {self.name} runs from EN size {low} to {high}: {rule}.")
        if self.turns_per_size is None:
            return
        if self.turns_per_size <= 0 or (self.turns_per_size * 4).denominator != 1:
            raise ValueError(
                f"The sheet {self.name} gives {self.turns_per_size} turns for a size;"
                " write quarter turns, such as 2 1/2."
            )
        if not self.adjustable:
            raise ValueError(
                f"The sheet {self.name} has a fixed spring, so it has no turns for a size."
            )

    def _check_chart(self) -> None:
        if len({row.mount is None for row in self.chart}) > 1:
            raise ValueError(
                f"The chart of {self.name} names a mount on some lines only;"
                " name it on every line or on none."
            )
        for mount in {row.mount for row in self.chart}:
            rows = [row for row in self.chart if row.mount == mount]
            for narrow, wide in pairwise(rows):
                if narrow.max_width >= wide.max_width or narrow.size >= wide.size:
                    raise ValueError(
                        f"The chart of {self.name} must rise in width and in size: size {wide.size}"
                        f" to {wide.max_width} stands after size {narrow.size}"
                        f" to {narrow.max_width}."
                    )
        for row in self.chart:
            if not self.sizes[0] <= row.size <= self.sizes[1]:
                raise ValueError(
                    f"The chart of {self.name} has EN size {row.size},"
                    f" outside its own {self.sizes[0]} to {self.sizes[1]}."
                )

    @property
    def chart_by_mount(self) -> bool:
        """Whether the chart already allows for the mount."""
        return bool(self.chart) and self.chart[0].mount is not None

    def mount(self, name: str) -> SheetMount:
        """The mount of that name; NoAnswer where the sheet has none."""
        for one in self.mounts:
            if one.mount == name:
                return one
        has = either([MOUNT_WORDS[one.mount] for one in self.mounts])
        raise NoAnswer(
            f"The sheet {self.name} has no {MOUNT_WORDS.get(name, name)} mounting, only {has}:"
            " choose one of its mounts or another closer."
        )

    def accessories_for(self, mount: str) -> tuple[Accessory, ...]:
        """The parts that go with that mount."""
        return tuple(one for one in self.accessories if one.mount in (None, mount))

    def range_for(self, mount: str, opening: Quantity) -> OpeningRange:
        """The smallest range of that mount that reaches `opening` [angle], its end included.

        NoAnswer where the sheet has no such mount or none of its ranges opens so far.
        """
        found = self.mount(mount)
        for one in found.ranges:
            if opening <= one.up_to:
                return one
        raise NoAnswer(
            f"The sheet {self.name} goes up to {found.ranges[-1].up_to} on a"
            f" {MOUNT_WORDS[mount]}, not {opening}: choose a smaller opening, another mount or"
            " another closer."
        )

    def chart_size(self, width: Quantity, mount: str) -> int:
        """The smallest size in the sheet's chart for a leaf `width` [length], ends included.

        NoAnswer where the chart has no line for that mount, or none so wide.
        """
        rows = [row for row in self.chart if row.mount in (None, mount)]
        if not rows:
            raise NoAnswer(
                f"The chart of {self.name} has no line for a {MOUNT_WORDS.get(mount, mount)}:"
                " ask the maker, or choose another mount."
            )
        for row in rows:
            if width <= row.max_width:
                return row.size
        raise NoAnswer(
            f"The chart of {self.name} for a {MOUNT_WORDS.get(mount, mount)} ends at a leaf of"
            f" {rows[-1].max_width}, and this one is {width}: choose another closer with the"
            " foreman."
        )

    def to_json(self) -> dict[str, object]:
        """The sheet as data that JSON can hold, exactly; a run's journal stores it."""
        return {
            "name": self.name,
            "about": self.about,
            "unit_system": self.unit_system,
            "sizes": list(self.sizes),
            "adjustable": self.adjustable,
            "mounts": [one.to_json() for one in self.mounts],
            "screws": [one.to_json() for one in self.screws],
            "chart": [one.to_json() for one in self.chart],
            "turns_per_size": turns_out(self.turns_per_size),
            "through_bolts": self.through_bolts,
            "body": None if self.body is None else self.body.to_json(),
            "shoe": None if self.shoe is None else self.shoe.to_json(),
            "accessories": [one.to_json() for one in self.accessories],
        }

    @staticmethod
    def from_json(data: object) -> "Sheet":
        """The sheet `to_json` wrote.

        ValueError with a sentence where a field is missing or damaged, or the sheet impossible.
        """
        return Sheet(
            name=text(data, "name"),
            about=text(data, "about"),
            unit_system=text(data, "unit_system"),
            sizes=_sizes(data),
            adjustable=field(data, "adjustable", bool),
            mounts=each(data, "mounts", SheetMount.from_json),
            screws=each(data, "screws", Screw.from_json),
            chart=each(data, "chart", ChartRow.from_json),
            turns_per_size=turns(data, "turns_per_size"),
            through_bolts=text(data, "through_bolts"),
            body=None
            if member(data, "body") is None
            else SheetBody.from_json(member(data, "body")),
            shoe=None
            if member(data, "shoe") is None
            else SheetShoe.from_json(member(data, "shoe")),
            # Runs that were begun before there were any have a sheet without them.
            accessories=each(data, "accessories", Accessory.from_json)
            if isinstance(data, dict) and "accessories" in data
            else (),
        )


def _once(what: str, names: list[str]) -> None:
    for name in names:
        if names.count(name) > 1:
            raise ValueError(f"The {what} {name} stands on the sheet more than once.")


def _sizes(data: object) -> tuple[int, int]:
    sizes = field(data, "sizes", list)
    if len(sizes) != 2:
        raise ValueError("This record of a sheet is damaged: sizes must be two numbers.")
    return whole(sizes[0], "sizes"), whole(sizes[1], "sizes")
