"""The inputs of `linkage`, `moments` and `size-and-force`: every length, or a sheet and the opening.

A length given beside a sheet wins over the sheet's own, so that one dimension can be tried out.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from guide.measures import Quantity
from guide.trade.answer import BadInput
from guide.trade.arm.clearance import BodyOutline
from guide.trade.arm.geometry import Geometry
from guide.trade.arm.sheet_geometry import Opening, arm_of, sheet_geometry
from guide.trade.computation import Given, Input, given, given_sheet
from guide.trade.door.hinges import HINGE_WORDS, HINGES, STANDARD_TEMPLATE
from guide.trade.mounts import MOUNT_WORDS, MOUNTS
from guide.trade.shown import length, system_of

if TYPE_CHECKING:
    from guide.trade.sheet.parts import SheetMount
    from guide.trade.sheet.sheet import Sheet

_FROM_TO = re.compile(r"[0-9]{1,3}(?: *[-–] *| +to +)([0-9]{1,3})((?: *deg.*)?)")


def widest(text: str) -> str:
    """The end of a range that is copied whole from a sheet: “101-130” is 130 deg."""
    found = _FROM_TO.fullmatch(text.strip())
    return f"{found[1]}{found[2]}" if found else text


RIGHT_ANGLE = Quantity(Fraction(90), "deg")


def _inches(whole: int) -> Quantity:
    return Quantity(Fraction(whole), "in")


def _length(name: str, about: str, low: int, high: int) -> Input:
    return Input(name, "length", False, about, low=_inches(low), high=_inches(high))


def _offset(name: str, about: str, most: int) -> Input:
    low, high = _inches(-most), _inches(most)
    return Input(name, "length", False, about, low=low, high=high, signed=True)


PLACES = (
    _length("pinion_along", "pinion, along the leaf from the hinge axis", 0, 60),
    _length("pinion_out", "pinion's axis from the face the body is on", 0, 12),
    _length("shoe_along", "shoe's pivot, along the leaf from the hinge axis", 0, 60),
    _length("shoe_out", "shoe's pivot from the frame's pull face or the leaf's push face", 0, 12),
    _length("main_arm", "pinion to elbow", 1, 60),
    _length("forearm", "elbow to shoe", 1, 60),
    _length("thickness", "thickness of the leaf", 0, 6),
    _offset("edge_offset", "hinge edge from the hinge axis, along; may be -2 3/4 in", 12),
    _offset(
        "face_offset", "pull face from the hinge axis, toward the pull side; may be -5/16 in", 12
    ),
)
"""The lengths that make a linkage without a sheet."""

_DEPTHS = (
    _length("stop_depth", "frame's push face beyond the leaf's; counts for a top jamb", 0, 12),
    _offset("frame_proud", "frame's pull face proud of the leaf's, or below zero; regular arm", 6),
)

GEOMETRY_INPUTS = (
    Input("mount", "choice", False, "how the closer is mounted; needed without a sheet", MOUNTS),
    *PLACES,
    *_DEPTHS,
    Input("sheet", "sheet", False, "the sheet of the closer, in place of the lengths"),
    Input(
        "range",
        "angle",
        False,
        "with a sheet, the opening its range must reach; 90 deg if left out",
        low=Quantity(Fraction(1), "deg"),
        high=Quantity(Fraction(180), "deg"),
        tidy=widest,
    ),
    Input("hinge", "choice", False, "with a sheet, what the leaf hangs on", HINGES),
)
"""The inputs that make a linkage, either way."""


@dataclass(frozen=True, slots=True)
class ArmDescription:
    """A linkage read from inputs, and how."""

    geometry: Geometry
    preset_deg: float
    outline: BodyOutline
    working: tuple[str, ...]
    cautions: tuple[str, ...]


def read_geometry(inputs: Mapping[str, Given]) -> ArmDescription:
    """The linkage the inputs describe.

    BadInput names every length that is missing. NoAnswer if the sheet has no such mount or
    range, or gives no arm.
    """
    sheet = given_sheet(inputs)
    lengths = _lengths(inputs)
    if sheet is not None:
        return _from_sheet(inputs, sheet, lengths)
    for name in ("range", "hinge"):
        if name in inputs:
            raise BadInput(f"{name} goes with a sheet; give sheet=..., or leave {name} out.")
    mount = given(inputs, "mount", str)
    missing = [one.name for one in PLACES if one.name not in lengths]
    if mount is None:
        missing.insert(0, "mount")
    if mount is None or missing:
        raise BadInput(
            f"Still missing: {', '.join(f'{name}=' for name in missing)}. Give every length, or a"
            " sheet."
        )
    return ArmDescription(Geometry(mount=mount, **lengths), 0.0, BodyOutline(), (), ())


def outline_of(sheet: "Sheet", mount: "SheetMount") -> BodyOutline:
    """How far the sheet's body reaches on that mount; a usual outline where the sheet is silent."""
    body = sheet.body
    if body is None:
        return BodyOutline()
    ends = float(body.valve_end.base), float(body.other_end.base)
    hinge, latch = ends if mount.valves_toward == "hinge" else ends[::-1]
    return BodyOutline(hinge, latch, float(body.projects.base))


def _lengths(inputs: Mapping[str, Given]) -> dict[str, float]:
    found = {}
    for one in (*PLACES, *_DEPTHS):
        value = given(inputs, one.name, Quantity)
        if value is not None:
            found[one.name] = float(value.base)
    return found


def _from_sheet(
    inputs: Mapping[str, Given], sheet: "Sheet", lengths: Mapping[str, float]
) -> ArmDescription:
    name = given(inputs, "mount", str)
    cautions = []
    if name is None:
        name = sheet.mounts[0].mount
        cautions.append(f"No mount was given: the sheet was read for a {MOUNT_WORDS[name]}.")
    found = sheet.range_for(name, given(inputs, "range", Quantity) or RIGHT_ANGLE)
    opening = _opening(inputs)
    geometry = sheet_geometry(sheet, name, found, opening)
    changed = {key: value for key, value in lengths.items() if key in _OVER}
    if changed:
        geometry = replace(geometry, **changed)  # type: ignore[arg-type]
    mount = sheet.mount(name)
    _, arm = arm_of(sheet, name)
    read_for = f"{sheet.sheet}, {MOUNT_WORDS[name]}, opening to {found.up_to}"
    system = system_of(inputs)
    along = [length(one, system) for one in (geometry.pinion_along, geometry.shoe_along)]
    places = f"pinion {along[0]} and shoe {along[1]}"
    main, fore = length(float(arm.main.base), system), length(geometry.forearm, system)
    arms = f"main arm {main}, forearm {fore}"
    hung = HINGE_WORDS[opening.hinge]
    working = [f"{read_for}, on {hung}: {places} from the hinge axis, {arms}."]
    if changed:
        working.append(f"In place of the sheet's own: {', '.join(changed)}.")
    if opening.hinge not in STANDARD_TEMPLATE:
        cautions.append(
            f"A standard template does not suit {HINGE_WORDS[opening.hinge]}: get the special one."
        )
    preset = float(arm.preset_turn.base)
    return ArmDescription(
        geometry, preset, outline_of(sheet, mount), tuple(working), tuple(cautions)
    )


_OVER = set(Geometry.__match_args__) - {"mount", "thickness", "stop_depth", "frame_proud"}
"""The lengths that are set on the finished geometry; the others make it."""


def _opening(inputs: Mapping[str, Given]) -> Opening:
    usual = Opening()

    def exact(name: str, otherwise: Fraction) -> Fraction:
        value = given(inputs, name, Quantity)
        return otherwise if value is None else value.base

    return Opening(
        hinge=given(inputs, "hinge", str) or usual.hinge,
        thickness=exact("thickness", usual.thickness),
        stop_depth=exact("stop_depth", usual.stop_depth),
        frame_proud=exact("frame_proud", usual.frame_proud),
    )
