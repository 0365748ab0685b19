"""`spring-size`: the EN size a leaf needs, by the sheet's own chart if it has one, else by EN 1154 table 1."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from guide.measures import Quantity, write
from guide.trade.answer import Answer, NoAnswer
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet, needed
from guide.trade.en_1154 import EN_1154_TABLE_1, size_by_mass, size_by_width
from guide.trade.inputs import RULES_INPUT, USUAL_CODE, WIDTH_INPUT
from guide.trade.mounts import MOUNT_WORDS, MOUNTS

if TYPE_CHECKING:
    from guide.trade.sheet.sheet import Sheet


UNUSUALLY_TALL = Quantity(Fraction(8), "ft")
"""A leaf taller than this goes up a size. EN 1154 says "unusually high" without a number; the
figure is common practice."""

FIRE_DOOR_FLOOR = 3
"""The weakest EN size on a fire door: European practice; and of the sizes 3 and 4 that NFPA 80, annex A, advises (as
reported in 2022), the weaker."""


_CAUTIONS = (
    "An EN size is not the number cast on a North American body.",
    "The maker's sheet, the door's listing and the local code govern.",
)


@dataclass(frozen=True, slots=True)
class _SizedLeaf:
    """What is known of the leaf and its place; the fields are the computation's inputs."""

    width: Quantity
    mass: Quantity | None
    height: Quantity | None
    mount: str
    exterior: bool
    fire: bool
    draught: bool


def _spring_size(inputs: Mapping[str, Given]) -> Answer:
    leaf = _SizedLeaf(
        width=needed(inputs, "width", Quantity),
        mass=given(inputs, "mass", Quantity),
        height=given(inputs, "height", Quantity),
        mount=given(inputs, "mount", str) or "regular",
        exterior=given(inputs, "exterior", bool) or False,
        fire=given(inputs, "fire", bool) or False,
        draught=given(inputs, "draught", bool) or False,
    )
    sheet = given_sheet(inputs)
    cautions = list(_CAUTIONS)
    if sheet is not None and sheet.chart:
        size, working = _base_by_chart(leaf, sheet, cautions)
        mount_counted = sheet.chart_by_mount
        if mount_counted and "mount" not in inputs:
            cautions.append("No mount was given: the chart was read for a regular arm.")
    else:
        size, working = _base_by_table(leaf)
        mount_counted = False
    reasons = _reasons_to_go_up(leaf, mount_counted)
    if reasons:
        size += 1
        working += _raised(reasons, size)
    if size > EN_1154_TABLE_1[-1][0]:
        raise NoAnswer(
            f"The leaf would need one size above EN size 7, the strongest there is, because of"
            f" {reasons[0]}: stop, and ask the maker or the foreman for another way to close it."
        )
    if leaf.fire:
        working.append(_fire_working(size, given(inputs, "rules", str) or USUAL_CODE))
        size = max(size, FIRE_DOOR_FLOOR)
    if sheet is not None and not sheet.sizes[0] <= size <= sheet.sizes[1]:
        cautions.append(
            f"{sheet.sheet} has EN sizes {sheet.sizes[0]} to {sheet.sizes[1]}: it cannot be set to"
            f" {size}, so ask the foreman before fitting it."
        )
    return Answer(size, tuple(working), tuple(cautions))


def _base_by_table(leaf: _SizedLeaf) -> tuple[int, list[str]]:
    by_width = size_by_width(leaf.width)
    widest_mm = EN_1154_TABLE_1[by_width - 1][1]
    working = [f"Leaf {write(leaf.width)} wide: EN size {by_width} (leaves to {widest_mm} mm)."]
    if leaf.mass is None:
        return by_width, working
    by_mass = size_by_mass(leaf.mass)
    heaviest_kg = EN_1154_TABLE_1[by_mass - 1][2]
    working.append(f"Leaf of {write(leaf.mass)}: EN size {by_mass} (doors to {heaviest_kg} kg).")
    size = max(by_width, by_mass)
    if by_width != by_mass:
        working.append(f"The larger counts: EN size {size}.")
    return size, working


def _base_by_chart(leaf: _SizedLeaf, sheet: "Sheet", cautions: list[str]) -> tuple[int, list[str]]:
    size = sheet.chart_size(leaf.width, leaf.mount)
    how = f" on a {MOUNT_WORDS[leaf.mount]}" if sheet.chart_by_mount else ""
    working = [f"Leaf {write(leaf.width)} wide{how}: EN size {size} by the chart of {sheet.sheet}."]
    if leaf.mass is not None:
        by_mass = size_by_mass(leaf.mass)
        if by_mass > size:
            cautions.append(
                f"EN 1154 puts a leaf of {write(leaf.mass)} at EN size {by_mass}; the maker's"
                " chart governs, so ask the maker about so heavy a leaf."
            )
    return size, working


def _reasons_to_go_up(leaf: _SizedLeaf, mount_counted: bool) -> list[str]:
    """The reasons for one size more, worst first."""
    reasons = []
    if leaf.height is not None and leaf.height > UNUSUALLY_TALL:
        reasons.append(f"an unusually tall leaf (over {write(UNUSUALLY_TALL)})")
    if leaf.draught:
        reasons.append("a draught")
    if leaf.exterior:
        reasons.append("an exterior door")
    if leaf.mount == "parallel" and not mount_counted:
        reasons.append("a parallel arm")
    return reasons


def _raised(reasons: list[str], size: int) -> list[str]:
    worst, *others = reasons
    lines = [f"One size up for {worst}: EN size {size}."]
    if others:
        lines.append(f"Not added again for {' or '.join(others)}: reasons do not add up.")
    return lines


def _fire_working(size: int, code: str) -> str:
    whence = "as NFPA 80, annex A, advises 3 or 4" if code == "us" else "by European practice"
    at_least = f"Fire door: EN size {FIRE_DOOR_FLOOR} at least, {whence}"
    if size >= FIRE_DOOR_FLOOR:
        return f"{at_least}; EN size {size} remains."
    return f"{at_least}: EN size {FIRE_DOOR_FLOOR}."


def _yesno(name: str, about: str) -> Input:
    return Input(name, "yesno", False, about)


COMPUTATION = Computation(
    name="spring-size",
    about="The EN size of closer a leaf needs.",
    inputs=(
        WIDTH_INPUT,
        Input(
            "mass",
            "mass",
            False,
            "mass of the leaf with everything on it",
            low=Quantity(Fraction(1), "kg"),
            high=Quantity(Fraction(1000), "kg"),
        ),
        Input(
            "height",
            "length",
            False,
            "height of the leaf",
            low=Quantity(Fraction(3), "ft"),
            high=Quantity(Fraction(16), "ft"),
        ),
        Input("mount", "choice", False, "how the closer is mounted; regular if left out", MOUNTS),
        _yesno("exterior", "whether the door is in an outside wall"),
        _yesno("fire", "whether the door is a fire door; an unreadable label counts as yes"),
        _yesno("draught", "whether wind or air pressure works against the door"),
        Input("sheet", "sheet", False, "the sheet of the closer, whose chart wins"),
        RULES_INPUT,
    ),
    output=Output("count", low=EN_1154_TABLE_1[0][0], high=EN_1154_TABLE_1[-1][0]),
    compute=_spring_size,
    source="EN 1154, controlled door closing devices, table 1 and its note; NFPA 80, annex A; common practice",
    thresholds=(
        *(("width", Quantity(Fraction(row[1]), "mm")) for row in EN_1154_TABLE_1),
        *(("mass", Quantity(Fraction(row[2]), "kg")) for row in EN_1154_TABLE_1),
        ("height", UNUSUALLY_TALL),
    ),
    example="width='36 in' mount=parallel",
)
