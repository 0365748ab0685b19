"""The sheet of one closer model: the dimensions its owner copied from the maker's own sheet.

The class checks itself; files are read elsewhere. An impossible sheet raises ValueError with a sentence. Lookups raise
NoAnswer if the sheet does not go that far.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, Any

from guide.measures import Quantity
from guide.text import either
from guide.trade.answer import NoAnswer
from guide.trade.mounts import MOUNT_WORDS, SIZES
from guide.trade.sheet.codec import FieldError, check_fields, from_plain, to_plain
from guide.trade.sheet.kinds import (
    AtLeast,
    EnSizes,
    Name,
    OneOf,
    Turns,
    Whole,
    Words,
    YesNo,
    written_turns,
)
from guide.trade.sheet.parts import (
    QUARTERS,
    UNITS_OF,
    Accessory,
    ChartRow,
    OpeningRange,
    Screw,
    SheetBody,
    SheetMount,
    SheetShoe,
    SpringSetting,
)
from guide.trade.sheet.spring_settings import check_spring_settings

UNIT_SYSTEMS = tuple(UNITS_OF)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One closer model, as its owner copied it from the maker's sheet."""

    sheet: Name
    """Its name. The first line of a file says what it is and what it is called."""
    about: Words
    units: Annotated[str, OneOf(UNIT_SYSTEMS)]
    """The system the maker's sheet is written in."""
    sizes: EnSizes
    """Weakest and strongest EN size; equal where the spring is fixed."""
    adjustable: YesNo
    """Whether the spring is set with a screw."""
    mounts: Annotated[tuple[SheetMount, ...], AtLeast(1, "mount")]
    screws: tuple[Screw, ...] = ()
    chart: tuple[ChartRow, ...] = ()
    """The sheet's own size chart; empty if it has none. All lines name a mount, or none."""
    turns_per_size: Turns | None = None
    """Full turns of the spring screw for one EN size, in quarters; None if not stated."""
    factory_size: Whole | None = None
    """The EN size at which the spring leaves the factory; None if not stated."""
    spring_settings: tuple[SpringSetting, ...] = ()
    """The sheet's table of spring turns; empty if it has none."""
    through_bolts: Words | None = None
    """Where the maker wants through-bolts, a sentence; None if the sheet is silent."""
    body: SheetBody | None = None
    """The body's own dimensions; None if the owner has not copied them."""
    shoe: SheetShoe | None = None
    """The shoe's holes; None if the owner has not copied them."""
    accessories: tuple[Accessory, ...] = ()
    """What the maker has beside the closer."""

    def __post_init__(self) -> None:
        check_fields(self)
        self._check_sizes()
        self._check_spring()
        _once("mounts", "mount", [one.mount for one in self.mounts])
        _once("screws", "screw", [one.name for one in self.screws])
        self._check_chart()
        has = [one.mount for one in self.mounts]
        for part in self.accessories:
            if part.mount is not None and part.mount not in has:
                raise FieldError(
                    "accessories",
                    f"The {part.name} goes with a {MOUNT_WORDS[part.mount]}, which the sheet"
                    f" {self.sheet} does not have.",
                )
            for mount in has if part.mount is None else ():
                part.check_beside(mount)

    def _check_sizes(self) -> None:
        low, high = self.sizes
        if not SIZES[0] <= low <= high <= SIZES[1]:
            raise FieldError(
                "sizes",
                f"The sheet {self.sheet} runs from EN size {low} to {high};"
                " write the weaker first, within 1 to 7.",
            )
        if self.adjustable != (low < high):
            rule = (
                "an adjustable spring has two sizes" if self.adjustable else "a fixed one has one"
            )
            raise FieldError(
                "sizes", f"The sheet {self.sheet} runs from EN size {low} to {high}: {rule}."
            )

    def _check_spring(self) -> None:
        low, high = self.sizes
        if self.factory_size is not None and not low <= self.factory_size <= high:
            raise FieldError(
                "factory_size",
                f"The spring of {self.sheet} leaves the factory at EN size {self.factory_size},"
                f" outside its own {low} to {high}.",
            )
        if self.spring_settings:
            check_spring_settings(self.sheet, self.sizes, self.factory_size, self.spring_settings)
        if self.turns_per_size is None:
            return
        if self.turns_per_size <= 0 or (self.turns_per_size * QUARTERS).denominator != 1:
            raise FieldError(
                "turns_per_size",
                f"The sheet {self.sheet} gives {written_turns(self.turns_per_size)} turns for a size;"
                " write quarter turns, such as 2 1/2.",
            )
        if not self.adjustable:
            raise FieldError(
                "turns_per_size",
                f"The sheet {self.sheet} has a fixed spring, so it has no turns for a size.",
            )

    def _check_chart(self) -> None:
        if len({row.mount is None for row in self.chart}) > 1:
            raise FieldError(
                "chart",
                f"The chart of {self.sheet} names a mount on some lines only;"
                " name it on every line or on none.",
            )
        for mount in {row.mount for row in self.chart}:
            rows = [row for row in self.chart if row.mount == mount]
            for narrow, wide in pairwise(rows):
                if narrow.max_width >= wide.max_width or narrow.size >= wide.size:
                    raise FieldError(
                        "chart",
                        f"The chart of {self.sheet} must rise in width and in size: size {wide.size}"
                        f" to {wide.max_width} comes after size {narrow.size}"
                        f" to {narrow.max_width}.",
                    )
        for row in self.chart:
            if not self.sizes[0] <= row.size <= self.sizes[1]:
                raise FieldError(
                    "chart",
                    f"The chart of {self.sheet} has EN size {row.size},"
                    f" outside its own {self.sizes[0]} to {self.sizes[1]}.",
                )

    @property
    def chart_by_mount(self) -> bool:
        """Whether the chart already allows for the mount."""
        return bool(self.chart) and self.chart[0].mount is not None

    def mount(self, name: str) -> SheetMount:
        """The mount of that name; NoAnswer if the sheet has none."""
        for one in self.mounts:
            if one.mount == name:
                return one
        has = either([MOUNT_WORDS[one.mount] for one in self.mounts])
        raise NoAnswer(
            f"The sheet {self.sheet} has no {MOUNT_WORDS.get(name, name)} mounting, only {has}:"
            " choose one of its mounts or another closer."
        )

    def accessories_for(self, mount: str) -> tuple[Accessory, ...]:
        """The parts that go with that mount."""
        return tuple(one for one in self.accessories if one.mount in (None, mount))

    def range_for(self, mount: str, opening: Quantity) -> OpeningRange:
        """The smallest range of that mount that reaches `opening` [angle], its end included.

        NoAnswer if the sheet has no such mount or none of its ranges opens so far.
        """
        found = self.mount(mount)
        for one in found.ranges:
            if opening <= one.up_to:
                return one
        raise NoAnswer(
            f"The sheet {self.sheet} goes up to {found.ranges[-1].up_to} on a"
            f" {MOUNT_WORDS[mount]}, not {opening}: choose a smaller opening, another mount or"
            " another closer."
        )

    def chart_size(self, width: Quantity, mount: str) -> int:
        """The smallest size in the sheet's chart for a leaf `width` [length], ends included.

        NoAnswer if the chart has no line for that mount, or none so wide.
        """
        rows = [row for row in self.chart if row.mount in (None, mount)]
        if not rows:
            raise NoAnswer(
                f"The chart of {self.sheet} has no line for a {MOUNT_WORDS.get(mount, mount)}:"
                " ask the maker, or choose another mount."
            )
        for row in rows:
            if width <= row.max_width:
                return row.size
        raise NoAnswer(
            f"The chart of {self.sheet} for a {MOUNT_WORDS.get(mount, mount)} ends at a leaf of"
            f" {rows[-1].max_width}, and this one is {width}: choose another closer with the"
            " foreman."
        )

    def to_json(self) -> dict[str, Any]:
        """The sheet as data that JSON can hold, exactly; a run's journal stores it."""
        return to_plain(self)

    @staticmethod
    def from_json(data: object) -> "Sheet":
        """The sheet in the data of a file or of a journal. BadSheetError with every fault."""
        return from_plain(Sheet, data)


def _once(key: str, what: str, names: list[str]) -> None:
    for name in names:
        if names.count(name) > 1:
            raise FieldError(key, f"The {what} {name} is on the sheet more than once.")
