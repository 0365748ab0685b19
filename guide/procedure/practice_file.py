"""The shape of a practice door's file, and its conversion to `guide.practice`'s classes in SI units."""

from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, model_validator

from guide import measures
from guide.files.library import catalogue, find
from guide.files.source import Path_, Source, need_shape, read_source
from guide.measures import MeasureError
from guide.measures.parsing import parse_signed
from guide.practice.door import AIR, HINGE, LEAK, SEAL, SIZE, STRIKE, HiddenCause, PracticeDoor
from guide.practice.practice import TURNS
from guide.procedure import schema
from guide.procedure.facts import bare
from guide.text import short
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SwingingDoor
from guide.trade.swing.valves import Valves

PRACTICE = "practice door"
"""The name of this kind of file in the library."""

_KIND = {AIR: "pressure", SEAL: "moment", HINGE: "moment", STRIKE: "force"}
"""The kind of measure of each cause; a leak is in turns, a wrong size has none."""

_RANGES = {
    "width": ("length", 0.5, 1.6),
    "height": ("length", 1.2, 4.0),
    "mass": ("mass", 5.0, 300.0),
    "opens_to": ("angle", 90.0, 120.0),
}
"""The limits of a leaf [m, kg, degrees]: those for which the model was tested."""


class CloserShape(schema.Shape):
    """The closer as it is found."""

    mount: Literal["regular", "top-jamb", "parallel"]
    sizes: schema.Line
    """Weakest and strongest EN size by its label: `1 to 4`, or one number where the spring is fixed."""
    stands_at: schema.Line
    """EN size the spring is set to, whole or half."""
    sweep: schema.Line
    """Turns open, 0 to 4."""
    latch: schema.Line
    backcheck: schema.Line = "1"
    delay: schema.Line | None = None
    """Turns by which the delayed action is open, 0 to 2; left out if there is none."""


class LeafShape(schema.Shape):
    """The leaf and what acts on it, its faults apart."""

    knuckles: Literal["left", "right"]
    width: schema.Line
    height: schema.Line
    mass: schema.Line
    opens_to: schema.Line = "110 deg"
    bolt: schema.Line = "6 N"
    """The resistance of the latch bolt going over the strike."""
    seal: schema.Line = "0.5 N m"
    air: schema.Line = "0 Pa"
    """Above zero it holds the leaf shut, below zero it pushes the leaf open."""
    hinges: schema.Line = "0.3 N m"


class FaultShape(schema.Shape):
    """A hidden cause."""

    cause: Literal["air", "seal", "hinge", "strike", "leak", "size"]
    amount: schema.Line | None = None
    """What takes the place of the leaf's own value while it lasts; for a leak, turns."""
    put_right: schema.Line | None = None
    """What is left of it once it is put right; left out if that cannot be done today."""
    inside: schema.YesNo = False
    """Of a leak: whether no oil shows."""

    @model_validator(mode="after")
    def fits(self) -> "FaultShape":
        """Every cause but a wrong size has an amount; a leak and a wrong size are never put right."""
        if (self.amount is None) != (self.cause == SIZE):
            raise ValueError("every cause but “size” has an amount, and “size” has none")
        if self.put_right is not None and self.cause in (LEAK, SIZE):
            raise ValueError(
                f"“{self.cause}” cannot be put right at the door; take “put_right” out"
            )
        if self.inside and self.cause != LEAK:
            raise ValueError("only a leak can be “inside”")
        return self


class LimitShape(schema.Shape):
    """The most it may take to open."""

    force: schema.Line
    asked_by: schema.Line
    """Who wants it, and its source."""


class PracticeShape(schema.Shape):
    """A practice door's file."""

    practice: schema.Id
    title: schema.Line
    about: schema.Words
    grade: schema.Whole
    units: Literal["inch", "metric"] = "inch"
    leaf: LeafShape
    closer: CloserShape
    limit: LimitShape | None = None
    faults: Annotated[list[FaultShape], Field(max_length=3)] = []


def load_practice(path: Path) -> PracticeDoor:
    """The door in a file. Raises BadFile with every fault."""
    return read_practice(path)[1]


def find_practice(name: str) -> Path:
    """The file of a practice door by its number, its name with or without it, or a path. Raises NotFound."""
    for entry in catalogue(PRACTICE):
        number, _, plain = entry.name.partition("-")
        if name == plain or (
            name.isascii() and name.isdigit() and name.lstrip("0") == number.lstrip("0")
        ):
            return entry.path
    return find(PRACTICE, name)


def read_practice(path: Path, text: str | None = None) -> tuple[Source, PracticeDoor]:
    """The door in a file, and the places of its parts. Raises BadFile with every fault."""
    source = read_source(path, PracticeShape, "A practice door", text)
    shape: PracticeShape = need_shape(source)
    number = _Numbers(source)
    if not 1 <= shape.grade <= 4:
        source.fault(("grade",), "number-wrong", f"{shape.grade} is not a grade; write 1 to 4.")
    leaf, closer = shape.leaf, shape.closer
    sizes = number.sizes(closer.sizes, ("closer", "sizes"))
    size = number.plain(closer.stands_at, ("closer", "stands_at"), 1, 7)
    turns = {
        screw: number.plain(text, ("closer", screw), 0, TURNS[screw])
        for screw in ("sweep", "latch", "backcheck", "delay")
        if (text := getattr(closer, screw)) is not None
    }
    opens = {
        key: number.within(getattr(leaf, key), kind, ("leaf", key), low, high)
        for key, (kind, low, high) in _RANGES.items()
    }
    limit = None
    if shape.limit is not None:
        limit = number.measure(shape.limit.force, "force", ("limit", "force"))
    if source.findings == [] and (size * 2 % 1 or not sizes[0] <= size <= sizes[1]):
        source.fault(
            ("closer", "stands_at"),
            "number-wrong",
            f"EN size {size:g} is not one that the label has; write a whole or half size within “sizes”.",
        )
    door = SwingingDoor(
        width=opens["width"],
        height=opens["height"],
        mass=opens["mass"],
        geometry=usual_geometry(closer.mount),
        size=size,
        valves=Valves(turns["sweep"], turns["latch"], turns["backcheck"]),
        pressure=number.measure(leaf.air, "pressure", ("leaf", "air")),
        seal=number.measure(leaf.seal, "moment", ("leaf", "seal")),
        latch_force=number.measure(leaf.bolt, "force", ("leaf", "bolt")),
        hinge_drag=number.measure(leaf.hinges, "moment", ("leaf", "hinges")),
    )
    faults = tuple(_fault(number, row, ("faults", place)) for place, row in enumerate(shape.faults))
    need_shape(source)
    return source, PracticeDoor(
        name=shape.practice,
        title=shape.title,
        about=shape.about,
        grade=shape.grade,
        mount=closer.mount,
        knuckles=leaf.knuckles,
        door=door,
        delay=turns.get("delay"),
        opens_to=opens["opens_to"],
        sizes=sizes,
        limit=limit,
        limit_from="" if shape.limit is None else shape.limit.asked_by,
        faults=faults,
        units=shape.units,
    )


def _fault(number: "_Numbers", row: FaultShape, path: Path_) -> HiddenCause:
    def read(key: str) -> float:
        text = getattr(row, key)
        if row.cause == LEAK:
            return number.plain(text, (*path, key), 0, 20)
        return number.measure(text, _KIND[row.cause], (*path, key))

    amount = 0.0 if row.amount is None else read("amount")
    put_right = None if row.put_right is None else read("put_right")
    return HiddenCause(row.cause, amount, put_right, row.inside)


class _Numbers:
    """Texts as numbers in SI units; any other text is noted in the source and counts as 1."""

    def __init__(self, source: Source) -> None:
        self._source = source

    def plain(self, text: str, path: Path_, low: float, high: float) -> float:
        """A number without a unit, within limits that are included."""
        try:
            found = float(text)
        except ValueError:
            found = float("nan")
        if low <= found <= high:
            return found
        said = f"“{short(text)}” is not a number from {low:g} to {high:g}; write one such as 1.25."
        self._source.fault(path, "number-wrong", said)
        return 1.0

    def sizes(self, text: str, path: Path_) -> tuple[float, float]:
        """`1 to 4`, or one size."""
        low, _, high = text.partition(" to ")
        ends = self.plain(low, path, 1, 7), self.plain(high or low, path, 1, 7)
        if ends[0] > ends[1]:
            self._source.fault(path, "number-wrong", "Write the weaker size first, such as 1 to 4.")
        return ends

    def measure(self, text: str, kind: str, path: Path_) -> float:
        """A measure with its unit, in SI; only air pressure may be below zero."""
        unit = measures.home_unit(kind, "metric") if kind != "length" else "m"
        parse: Callable[[str, str], measures.Quantity]
        parse = parse_signed if kind == "pressure" else measures.parse
        try:
            found = parse(text, kind)
        except MeasureError as error:
            self._source.fault(path, "unit-wrong", str(error))
            return 1.0
        if bare(text):
            said = f"“{short(text)}” has no unit; write one, as in “{short(text)} {unit}”."
            self._source.fault(path, "unit-wrong", said)
        return float(found.to(unit).magnitude)

    def within(self, text: str, kind: str, path: Path_, low: float, high: float) -> float:
        """A measure within limits that are included."""
        before = len(self._source.findings)
        found = self.measure(text, kind, path)
        if len(self._source.findings) == before and not low <= found <= high:
            self._source.fault(
                path,
                "number-wrong",
                f"“{short(text)}” is outside what the model was tried with; write another.",
            )
        return found
