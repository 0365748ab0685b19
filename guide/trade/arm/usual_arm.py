"""The arm that is calculated with if there is no sheet: invented, not a real closer's.

It serves openings to 130 deg. Regular arm and top jamb rest with the forearm square to the frame, the
parallel arm with its main arm along the closed door.
"""

from guide.trade.arm.geometry import Geometry
from guide.trade.arm.sheet_geometry import Opening
from guide.trade.door.hinges import pivot_offset

_PLACES = {
    "regular": (7.0, 11.875, 0.75, 8.5),
    "top-jamb": (6.25, 10.625, 0.75, 8.8125),
    "parallel": (8.0, 8.0, 3.25, 9.75),
}
"""Pinion along, shoe along, shoe out, forearm with frame and leaf in line [in], by mount."""


def usual_geometry(mount: str, opening: Opening | None = None) -> Geometry:
    """The invented arm on that mount; KeyError unless it is one of `MOUNTS`."""
    opening = opening or Opening()
    offset = pivot_offset(opening.hinge, opening.thickness)
    pinion, shoe, shoe_out, forearm = _PLACES[mount]
    stop = float(opening.stop_depth) if mount == "top-jamb" else 0.0
    return Geometry(
        mount=mount,
        pinion_along=pinion,
        pinion_out=1.125,
        shoe_along=shoe,
        shoe_out=shoe_out,
        main_arm=9.5,
        forearm=forearm + stop,
        thickness=float(opening.thickness),
        edge_offset=float(offset.edge),
        face_offset=float(offset.face),
        stop_depth=stop,
    )
