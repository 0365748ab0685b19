"""`linkage`: where the arm of a closer is at one opening, and what would stop it before (`geometry`, `clearance`)."""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import Answer, NoAnswer
from guide.trade.arm.clearance import ARM_CLEAR, arm_meets, body_meets_wall, over_centre, rack_ends
from guide.trade.arm.geometry import RESERVE_DEG, Arm, Position
from guide.trade.arm.inputs import GEOMETRY_INPUTS, ArmDescription, read_geometry
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.shown import length, system_of

AT_INPUT = Input(
    "at",
    "angle",
    True,
    "how far the leaf is open",
    low=Quantity(Fraction(0), "deg"),
    high=Quantity(Fraction(180), "deg"),
)

_PARTS = ("assembles", "elbow_in", "arm_deg", "turn_deg", "ratio", "reach_deg")


def stops(described: ArmDescription, deg: float, system: str) -> tuple[str, ...]:
    """A sentence for everything that stops or spoils the arm on the way to `deg`, or near it."""
    arm = Arm(described.geometry)
    found = []
    lock = arm.lock()
    if not arm.assembles_closed:
        return ("The arm cannot be put together with the door closed: check every length.",)
    if lock is not None and deg > lock.deg - RESERVE_DEG:
        found.append(
            f"The arm is {lock.how} to a line at {lock.deg:.1f} deg: never let the leaf open past"
            f" {lock.deg - RESERVE_DEG:.0f} deg."
        )
    centre = over_centre(arm)
    if centre is not None and deg >= centre:
        found.append(f"Past {centre:.1f} deg the spring would open the door: refuse this place.")
    rack = rack_ends(arm, described.preset_deg)
    if rack is not None and deg >= rack:
        found.append(f"The pinion may run out of travel at {rack:.1f} deg: ask the maker.")
    meets = arm_meets(arm)
    if meets is not None and deg >= meets:
        found.append(
            f"The arm comes within {length(ARM_CLEAR, system)} of frame or leaf at {meets:.1f} deg."
        )
    wall = body_meets_wall(described.geometry, described.outline)
    if wall is not None and deg >= wall:
        found.append(f"The body meets a wall flush with the frame at {wall:.1f} deg.")
    return tuple(found)


def _linkage(inputs: Mapping[str, Given]) -> Answer:
    described = read_geometry(inputs)
    opening = needed(inputs, "at", Quantity)
    system = system_of(inputs)
    deg = float(opening.to("deg").magnitude)
    arm = Arm(described.geometry)
    at = arm.at(deg)
    if at is None:
        raise NoAnswer(_apart(described, opening, system), {"assembles": False})
    lock = arm.lock()
    return Answer(
        {
            "assembles": True,
            "elbow_in": at.elbow,
            "arm_deg": at.arm_deg,
            "turn_deg": at.turn_deg,
            "ratio": at.ratio,
            "reach_deg": None if lock is None else lock.deg,
        },
        (*described.working, *_working(at, opening, system)),
        (*described.cautions, *stops(described, deg, system)),
    )


def _apart(described: ArmDescription, opening: Quantity, system: str) -> str:
    geometry = described.geometry
    return (
        f"With the leaf open {write(opening)} a main arm of {length(geometry.main_arm, system)} and a forearm of"
        f" {length(geometry.forearm, system)} cannot join pinion and shoe: check these lengths and the two places along"
        " the door."
    )


def _working(at: Position, opening: Quantity, system: str) -> tuple[str, ...]:
    x, y = at.elbow
    side = "pull side" if y >= 0 else "push side"
    along, out = length(x, system), length(abs(y), system)
    place = f"elbow {along} along the frame and {out} toward the {side}"
    lines = [f"Open {write(opening)}: {place}, from the hinge axis."]
    if at.turn_deg is not None:
        lines.append(f"Opening has turned the pinion {at.turn_deg:.1f} deg.")
    if at.ratio is None:
        lines.append("The arm lies in a line: the ratio has no end.")
    else:
        lines.append(f"The pinion turns {at.ratio:.2f} deg for each degree of the leaf.")
    return tuple(lines)


COMPUTATION = Computation(
    name="linkage",
    about="Elbow, arm angle, turn of the pinion, ratio and reach of a closer's arm in plan.",
    inputs=(*GEOMETRY_INPUTS, AT_INPUT),
    output=Output("mapping", _PARTS),
    compute=_linkage,
    source="plane geometry of two links; our assumptions on pivots, clearance and travel",
    example="sheet=generic-a mount=regular range='100 deg' hinge=butt at='45 deg'",
)
