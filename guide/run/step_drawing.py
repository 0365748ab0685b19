"""The opening that a step draws, from the facts known in the run.

Drawings are imported once a step draws: opening a run does without them.
"""

import math
from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from guide.measures import Quantity
from guide.procedure.facts import Value
from guide.run.state import State

if TYPE_CHECKING:
    from guide.drawing.for_step import DoorFacts, Drawing

DRAWN_FROM = ("mount", "knuckles", "hinge", "opening", "width", "thickness")
"""The facts a drawing looks at; the first two must be known."""
PLAN, ELEVATION = "plan", "elevation"
STEP = 15
"""Degrees by which the leaf is swung at one go."""
SWINGS = {"swing open": 1, "swing shut": -1}
"""Which way a command swings the leaf."""
NOT_WHILE_BLIND = "The drawing comes back once you have measured."
_NEEDED = {"knuckles": "the side the hinges are on", "mount": "the mount"}


class Drawn(NamedTuple):
    """The drawing of a step."""

    view: str
    """PLAN or ELEVATION."""
    door: "DoorFacts | None"
    """None while too little is known: the mount, and the side the hinge knuckles are on."""


class DrawnOpening(NamedTuple):
    """One opening as it is looked at, its leaf as far open as it was swung."""

    door: "DoorFacts"
    view: str
    angle: float = 0.0
    """How far the leaf stands open in a plan [deg]."""
    swinging: bool = False
    """Whether a plan keeps its scale and place while the leaf is swung."""

    def drawing_in(self, columns: int, rows: int, *, ascii_only: bool) -> "Drawing":
        """The opening drawn in at most that many cells."""
        from guide.drawing.for_step import drawing_for

        return drawing_for(
            self.door,
            columns,
            rows,
            angle=self.angle,
            view=self.view,
            swinging=self.swinging,
            ascii_only=ascii_only,
        )

    def other_view(self) -> "DrawnOpening":
        """The same opening from above, or the head of its door."""
        view = ELEVATION if self.view == PLAN else PLAN
        return DrawnOpening(self.door, view, self.angle, self.swinging)

    def swung(self, way: int) -> "DrawnOpening":
        """The plan with the leaf one step further open (`way` 1) or shut (-1)."""
        return DrawnOpening(self.door, PLAN, swung(self.door, self.angle, way), swinging=True)


def drawn(state: State, view: str) -> Drawn:
    """This opening as it is known where the run is."""
    return Drawn(view, door_of(state))


def says(of: Drawn) -> str:
    """The drawing in one sentence, the leaf closed; empty while too little is known."""
    if of.door is None:
        return ""
    from guide.drawing.for_step import sentence_for

    return sentence_for(of.door, of.view)


def too_little(state: State) -> str:
    """Why there is no drawing where the run is: what it needs and is not known yet."""
    if state.hidden:
        return NOT_WHILE_BLIND
    missing = [words for name, words in _NEEDED.items() if state.known(name) is None]
    if not missing:
        return "This kind of opening has no drawing."
    return f"This opening cannot be drawn yet: {' and '.join(missing)} must be known first."


def swung(door: "DoorFacts", angle: float, way: int) -> float:
    """The leaf's angle [deg] one step further open (`way` 1) or shut (-1), between closed and the opening."""
    steps = math.floor(angle / STEP) + 1 if way > 0 else math.ceil(angle / STEP) - 1
    return min(max(0.0, steps * STEP), float(door.opening.base))


def door_of(state: State, supposed: Mapping[str, Value] | None = None) -> "DoorFacts | None":
    """The opening from the facts of `DRAWN_FROM`, as far as they are known, and the run's sheet.

    None if the mount or the knuckles are not known, if a hinge is known that has no drawing, and while a
    question is answered blind: where the holes are is what the person is to find with a tape.
    What is `supposed` goes before what is known, as an answer does that is only marked.
    """
    if state.hidden:
        return None
    known = {name: state.known(name) for name in DRAWN_FROM} | dict(supposed or {})
    mount, knuckles, hinge, opening = (known[name] for name in DRAWN_FROM[:4])
    if mount is None or knuckles is None:
        return None
    from guide.drawing.for_step import SQUARE, USUAL_STOP_DEPTH, USUAL_WIDTH, DoorFacts
    from guide.run.run_opening import setting_out_of_run
    from guide.trade.door.hinges import HINGES, USUAL_THICKNESS
    from guide.trade.mounts import MOUNTS

    hinge = hinge or "butt"
    if mount not in MOUNTS or knuckles not in ("left", "right") or hinge not in HINGES:
        return None
    width, thickness = _inches(known["width"]), _inches(known["thickness"])
    known_opening = isinstance(opening, Quantity) and opening.kind == "angle"
    if not isinstance(opening, Quantity) or not known_opening:
        opening = SQUARE
    so = setting_out_of_run(state, supposed)
    depth, proud = so.opening.stop_depth, so.opening.frame_proud
    return DoorFacts(
        str(mount),
        str(knuckles),
        str(hinge),
        opening=opening,
        sheet=so.sheet,
        width=USUAL_WIDTH if width is None else float(width),
        thickness=USUAL_THICKNESS if thickness is None else thickness,
        stop_depth=USUAL_STOP_DEPTH if depth is None else depth,
        frame_proud=Fraction(0) if proud is None else proud,
        units=state.units,
        placed=so.sheet is not None and known_opening,
        setting_out=so,
    )


def _inches(value: Value | None) -> Fraction | None:
    if isinstance(value, Quantity) and value.kind == "length" and value.base > 0:
        return value.base
    return None
