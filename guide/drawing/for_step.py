"""The drawing of a step: this opening, as lines of characters and one sentence with the same content."""

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from guide.drawing.elevation import ElevationOf, elevation
from guide.drawing.plan import PlanOf, least_width, plan
from guide.drawing.scene import Point, Scene, bounds
from guide.drawing.text import render_text, scale_for
from guide.measures import Quantity
from guide.trade.answer import NoAnswer
from guide.trade.arm.inputs import outline_of
from guide.trade.arm.sheet_geometry import Opening, sheet_geometry
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.door.hinges import USUAL_THICKNESS
from guide.trade.holes.opening import Opening as HoleOpening
from guide.trade.holes.set_out import SettingOut, set_out
from guide.trade.sheet.sheet import Sheet

USUAL_STOP_DEPTH = Fraction(3, 2)
"""How far a frame's push face stands beyond the leaf's if it was not measured (our choice)."""
SQUARE = Quantity(Fraction(90), "deg")
"""The opening angle of a leaf if it is not known."""
USUAL_WIDTH = 36.0
"""A usual leaf [in]."""

_CLEAR_SCALE = 5.0
"""Dots for one inch below which a plan shows a shortened leaf."""
_EVERY, _MARGIN = 5.0, 0.25
"""Degrees between two looks at a swinging leaf, and how far it may come past them in between [in]."""
_LIST_ROWS = 24
"""Rows from which an elevation lists every hole beneath."""


@dataclass(frozen=True, slots=True)
class DoorFacts:
    """The facts of one opening that a drawing needs. Lengths in inches."""

    mount: str
    """One of `MOUNTS`."""
    knuckles: str
    """The side the hinge knuckles are on, seen from the pull side: "left" or "right"."""
    hinge: str = "butt"
    """One of `HINGES`."""
    opening: Quantity = SQUARE
    """The opening angle; it selects the range of the sheet."""
    sheet: Sheet | None = None
    """The closer's sheet; without one an invented, usual arm is drawn."""
    width: float = USUAL_WIDTH
    thickness: Fraction = USUAL_THICKNESS
    stop_depth: Fraction = USUAL_STOP_DEPTH
    frame_proud: Fraction = Fraction(0)
    units: str = "inch"
    placed: bool = True
    """Whether a sheet and a known opening say where body and shoe go; otherwise a usual place is drawn."""
    setting_out: SettingOut | None = None
    """Where the holes go; worked out from the other facts if it is left out."""

    @property
    def holes(self) -> SettingOut:
        """Where the holes go."""
        if self.setting_out is not None:
            return self.setting_out
        opening = HoleOpening(
            self.mount,
            self.knuckles,
            hinge=self.hinge,
            angle=self.opening,
            thickness=self.thickness,
        )
        return set_out(opening, self.sheet, units=self.units)


@dataclass(frozen=True, slots=True)
class Drawing:
    """The drawing shown at a step."""

    lines: tuple[str, ...]
    """Characters one column wide; none if nothing can be drawn or there is no room."""
    says: str
    """The same in one sentence, or why nothing is drawn."""


def drawing_for(
    facts: DoorFacts,
    columns: int,
    rows: int,
    *,
    angle: float = 0.0,
    view: str = "plan",
    swinging: bool = False,
    ascii_only: bool = False,
) -> Drawing:
    """The drawing of one opening in at most `columns` by `rows` character cells.

    `view` is "plan" or "elevation". `angle` is how far the leaf is open in a plan [deg, 0 to 180]. With
    `swinging` a plan keeps its scale and its place from closed to the opening, for a leaf that is swung by
    key. If the sheet does not reach the opening, there are no lines and the sentence says why.
    """
    try:
        scene = scene_for(facts, columns, rows, angle=angle, view=view, swinging=swinging)
    except NoAnswer as reason:
        return Drawing((), str(reason))
    lines = render_text(scene, columns, rows, ascii_only=ascii_only, steady=swinging)
    return Drawing(tuple(lines), scene.says)


def sentence_for(facts: DoorFacts, view: str) -> str:
    """The sentence of the drawing of that view with the leaf closed, or why nothing is drawn."""
    try:
        return scene_for(facts, 80, 24, view=view).says
    except NoAnswer as reason:
        return str(reason)


def scene_for(
    facts: DoorFacts,
    columns: int,
    rows: int,
    *,
    angle: float = 0.0,
    view: str = "plan",
    swinging: bool = False,
) -> Scene:
    """The scene that `drawing_for` shows, with as much of the leaf as is clear in that many cells.

    NoAnswer if the sheet has no such mount, range or holes; for an elevation also without sheet and typed numbers,
    and if nothing may be marked.
    """
    if view == "elevation":
        if facts.sheet is None and facts.holes.source != "typed":
            raise NoAnswer(
                "There is no sheet here to draw the holes from: go by the paper from the box or the maker's sheet."
            )
        return elevation(ElevationOf(facts.holes, facts.units, listed=rows >= _LIST_ROWS))
    opening = float(facts.opening.base)
    of = plan_of(facts)
    whole = _plan(of, angle, opening, swinging=swinging)
    if scale_for(whole, columns, rows) >= _CLEAR_SCALE:
        return whole
    degrees = (0.0, opening / 2, opening) if swinging else (angle,)
    shortest = replace(of, drawn_width=least_width(of.geometry, of.outline, degrees))
    return _plan(shortest, angle, opening, swinging=swinging)


def _plan(of: PlanOf, angle: float, opening: float, *, swinging: bool) -> Scene:
    """The plan; of a leaf that swings with room for every angle up to the opening, so that nothing moves but it."""
    scene = plan(of, angle)
    return replace(scene, room=_room_to(of, opening)) if swinging else scene


@lru_cache(maxsize=8)
def _room_to(of: PlanOf, opening: float) -> tuple[Point, Point]:
    """Two corners that every drawing of that leaf on its way keeps within."""
    count = max(1, math.ceil(opening / _EVERY))
    boxes = [bounds(plan(of, opening * number / count)) for number in range(count + 1)]
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    low = min(lefts) - _MARGIN, min(bottoms) - _MARGIN
    return low, (max(rights) + _MARGIN, max(tops) + _MARGIN)


def plan_of(facts: DoorFacts) -> PlanOf:
    """Everything the plan of that opening is drawn from. NoAnswer as in `scene_for`."""
    opening = Opening(facts.hinge, facts.thickness, facts.stop_depth, facts.frame_proud)
    sheet = facts.sheet
    usual = PlanOf(
        usual_geometry(facts.mount, opening),
        facts.knuckles,
        facts.hinge,
        facts.width,
        valves_toward=facts.holes.valves_toward,
        units=facts.units,
        placed=facts.placed,
    )
    if sheet is None:
        return usual
    mount = sheet.mount(facts.mount)
    if mount.arm is None or sheet.body is None:
        return replace(usual, outline=outline_of(sheet, mount))
    found = sheet.range_for(facts.mount, facts.opening)
    return replace(
        usual,
        geometry=sheet_geometry(sheet, facts.mount, found, opening),
        outline=outline_of(sheet, mount),
    )
