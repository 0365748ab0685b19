"""One mount on one door, as the trade's computations and the procedure have it: what stops it, its size, its holes."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from guide.measures import Quantity, shown_in
from guide.procedure.facts import NONE, Value, as_input
from guide.procedure.graph import Node
from guide.site.plan.known import Known, Planning
from guide.site.plan.way import Way, way_of
from guide.text import LIMIT, fill, is_quantity
from guide.trade import registry
from guide.trade.answer import Answer, BadInput, NoAnswer, OutOfDomain
from guide.trade.computation import Given, Input
from guide.trade.holes.head_room import DECIDES
from guide.trade.holes.opening import OPENING_INPUTS, Typed, opening_of
from guide.trade.holes.set_out import SettingOut, set_out

STOPPING = ("clash", "not-on-sheet")
"""Refusals of the setting-out that no paper in the box cures."""
NO_WAY = "The procedure has no way on for a door like this one."
_NOT_READ = ("width", "height", "knuckles", "hand")
"""They move no hole to another screw: where each hole goes is worked out in the job itself."""
_READ = tuple(one for one in OPENING_INPUTS if one.name not in _NOT_READ)
FACT_OF = {"mass": "weight"}
"""Inputs of the spring's computations that are facts of another name."""
_DECIDING = tuple(one for one in OPENING_INPUTS if one.name in DECIDES)


@dataclass(frozen=True, slots=True)
class Fitting:
    """One mount on one door."""

    mount: str
    known: Known
    way: Way
    setting_out: SettingOut
    size: Answer | None
    """None while the width is open."""
    stopped: str = ""
    """Why it should not be started, a sentence; empty if nothing known stands in the way."""
    low: str = ""
    """That it would hang too low by the sheet, a sentence; empty if not, or not known."""


def fitting_of(planning: Planning, values: Mapping[str, Value], mount: str) -> Fitting:
    """What is known of one mount. `values` are the door's facts, and what is supposed meanwhile."""
    values = {**values, "mount": mount}
    so = _set_out(planning, values)
    known = Known(planning, values, _settled(so, values))
    way = way_of(planning, known)
    size, no_size = _size(planning, known)
    low = _low(planning, known, mount)
    stopped = ""
    if way.stopped is not None:
        stopped = _filled(planning, known, way.stopped)
    elif no_size:
        stopped = no_size
    elif so.refusal in STOPPING:
        stopped = so.why
    elif size is not None:
        stopped = _past_the_sheet(planning, size)
    return Fitting(mount, known, way, so, size, stopped, low)


def _set_out(planning: Planning, values: Mapping[str, Value]) -> SettingOut:
    """The setting-out, as far as a plan goes: which screws, how many, on which plates. Where a leaf's opening is not
    known, that of the sheet's first row serves, since none of these depends on it."""
    key = tuple(values.get(one.name) for one in _READ)
    if key not in planning.holes:
        inputs: dict[str, Given] = {}
        for wanted in _READ:
            given = as_input(wanted, values.get(wanted.name))
            if given is not None:
                inputs[wanted.name] = given
        opening, sheet = opening_of(inputs), planning.sheet
        rows = (
            ()
            if sheet is None
            else [one.ranges for one in sheet.mounts if one.mount == opening.mount]
        )
        if opening.angle is None and rows:
            opening = replace(opening, angle=rows[0][0].up_to)
        planning.holes[key] = set_out(opening, sheet, Typed(), None, planning.units)
    return planning.holes[key]


def _settled(so: SettingOut, values: Mapping[str, Value]) -> dict[str, Value]:
    """What the setting-out says of screws does not change with what is still to be seen at the door. A sheet tells the
    kind of closer, unless the schedule names it."""
    by_sheet = so.sheet is not None and "closer" not in values
    found: dict[str, Value] = {"sheet_loaded": "yes" if by_sheet else "no"}
    places = dict(so.fixings)
    head = places.get("frame face") or places.get("soffit")
    for name, fixing in (("leaf", places.get("leaf")), ("head", head)):
        if fixing is not None and fixing.kind != "not-known":
            found[f"fixing_{name}"] = fixing.kind
    if "prep" not in values:
        found.pop("fixing_leaf", None)  # holes that are there already need none of it
        found.pop("fixing_head", None)
    return found


def _size(planning: Planning, known: Known) -> tuple[Answer | None, str]:
    """The EN size, or why there is none."""
    wanted = registry.find("spring-size").inputs
    key = tuple(known.value(FACT_OF.get(one.name, one.name)) for one in wanted)
    if key not in planning.sizes:
        planning.sizes[key] = _size_of(planning, wanted, key)
    return planning.sizes[key]


def _size_of(
    planning: Planning, wanted: tuple[Input, ...], values: tuple[Value | None, ...]
) -> tuple[Answer | None, str]:
    inputs: dict[str, Given] = {}
    for one, value in zip(wanted, values, strict=True):
        given = as_input(one, value)
        if given is not None:
            inputs[one.name] = given
    if planning.sheet is not None:
        inputs["sheet"] = planning.sheet
    if "width" not in inputs:
        return None, ""
    try:
        return registry.run("spring-size", inputs), ""
    except (NoAnswer, OutOfDomain, BadInput) as reason:
        return None, str(reason)


def _past_the_sheet(planning: Planning, size: Answer) -> str:
    """What is still open can only ask for a stronger spring, so a size above the sheet's is final."""
    sheet = planning.sheet
    if sheet is None or not isinstance(size.value, int) or size.value <= sheet.sizes[1]:
        return ""
    return size.cautions[-1]


def _low(planning: Planning, known: Known, mount: str) -> str:
    height = known.value("height")
    if height is None or isinstance(height, str | int):
        return ""
    seen = tuple(known.value(one.name) for one in _DECIDING)
    key = (height, mount, *seen)
    if key not in planning.low:
        planning.low[key] = _hangs_low(planning, height, mount, seen)
    return planning.low[key]


def _hangs_low(
    planning: Planning, height: Quantity, mount: str, seen: tuple[Value | None, ...]
) -> str:
    inputs: dict[str, Given] = {"height": height, "mount": mount}
    if planning.sheet is not None:
        inputs["sheet"] = planning.sheet
    for wanted, value in zip(_DECIDING, seen, strict=True):
        given = as_input(wanted, value)
        if given is not None:
            inputs[wanted.name] = given
    answer = registry.run("head-room", inputs)
    verdict = answer.value["verdict"] if isinstance(answer.value, Mapping) else ""
    return " ".join(answer.working) if verdict == "low" else ""


def _filled(planning: Planning, known: Known, node: Node) -> str:
    """The text of an end, with what is known of the door."""

    def piece(inner: str) -> str:
        if is_quantity(inner):
            return shown_in(inner, planning.units)
        value = None if inner == LIMIT else known.value(inner)
        return (
            "…"
            if value in (None, NONE)
            else planning.graph.facts[inner].show(value, planning.units)
        )

    return fill(node.body.get("text", NO_WAY), piece)
