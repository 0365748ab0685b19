"""`size-and-force`: whether one size can both close a leaf as EN 1154 asks and open lightly enough.

With the closing moment M of EN 1154 for the width, the efficiency e of the closer and the lever L from hinge axis to
handle, the force to open is about

    F = M / (e L)

which is mostly more than 5 lbf already. Then the kind of opening decides which of the two gives way.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from guide.measures import Quantity, write
from guide.measures.in_text import AT_MOST, bound_in_units
from guide.trade.answer import Answer, NoAnswer
from guide.trade.arm.geometry import Arm
from guide.trade.arm.inputs import GEOMETRY_INPUTS, read_geometry
from guide.trade.arm.moments import handle_force, least_closing, moments
from guide.trade.arm.spring import spring_of
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet, needed
from guide.trade.en_1154 import DEMANDS, size_by_width
from guide.trade.inputs import RULES_INPUT, USUAL_CODE, WIDTH_INPUT
from guide.trade.mounts import MOUNT_WORDS, SIZES
from guide.trade.shown import demanded, force, length, moment, system_of

ACCESS_LIMIT = Quantity(Fraction(5), "lbf")
"""Greatest opening force of an interior door, 2010 ADA Standards 404.2.9."""

BACKSET = Quantity(Fraction(70), "mm")
"""Latch edge to the middle of the handle, 2 3/4 in (common practice)."""

CHOICES = ("both", "one-or-the-other", "force-only", "closing-only", "neither")
"""What the sizes can do: one does both; some do one and some the other; only the force can be met;
only the closing; nothing."""

_COUNT = {1: "counts", 2: "count"}
_SHARED = ("mount", "sheet", "range", "hinge")


@dataclass(frozen=True, slots=True)
class Setting:
    """One size on one arm and leaf."""

    size: float
    """EN size; between two sizes if the spring is set between them."""
    closing: float
    """Least closing moment from 0 to 4 deg [N m]."""
    force: float
    """Push at the handle that opens it [N]."""


def settings(
    arm: Arm, lever: float, sizes: tuple[int, int] = SIZES, preset: float = 0.0
) -> list[Setting]:
    """Every tenth of a size from the weakest to the strongest, on a handle `lever` [m] away.

    `preset` in rad. Empty if the arm cannot be put together with the door closed.
    """
    found = []
    for tenths in range(sizes[0] * 10, sizes[1] * 10 + 1):
        curve = moments(arm, spring_of(tenths / 10), _JUDGED, preset)
        closing, force = least_closing(curve, 0, 4), handle_force(curve, lever)
        if closing is not None and force is not None:
            found.append(Setting(tenths / 10, closing, force))
    return found


_JUDGED = (*range(21), *range(22, 91, 2))
"""The openings that count [deg]: the greatest push comes early."""


def choose(found: list[Setting], closing: float, force: float) -> str:
    """One of `CHOICES`: who of `found` closes with `closing` [N m] at least and opens within
    `force` [N]."""
    light = any(one.force <= force for one in found)
    strong = any(one.closing >= closing for one in found)
    if any(one.force <= force and one.closing >= closing for one in found):
        return "both"
    if light and strong:
        return "one-or-the-other"
    if light:
        return "force-only"
    return "closing-only" if strong else "neither"


def _size_and_force(inputs: Mapping[str, Given]) -> Answer:
    width = needed(inputs, "width", Quantity)
    limit = given(inputs, "limit", Quantity) or ACCESS_LIMIT
    system = system_of({"width": width})
    lever = float((width.base - BACKSET.base) * Fraction("0.0254"))
    sheet, mount = given_sheet(inputs), given(inputs, "mount", str) or "regular"
    if sheet is None:
        arm, preset, sizes = Arm(usual_geometry(mount)), 0.0, SIZES
        first = f"No sheet: a usual {MOUNT_WORDS[mount]}, invented, is used instead."
        unused = [name for name in ("range", "hinge") if name in inputs]
        if unused:
            first += f" {' and '.join(unused).capitalize()} {_COUNT[len(unused)]} only with a sheet: left out here."
    else:
        shared = {name: inputs[name] for name in _SHARED if name in inputs}
        described = read_geometry(shared)
        arm, sizes = Arm(described.geometry), sheet.sizes
        preset = math.radians(described.preset_deg)
        first = described.working[0]
    found = settings(arm, lever, sizes, preset)
    if not found:
        raise NoAnswer("The arm cannot be put together with the door closed: check the sheet.")
    wanted = size_by_width(width)
    least = DEMANDS[wanted].close_0_4_least
    most = float(limit.base)
    answer = choose(found, least, most)
    by_en = (given(inputs, "rules", str) or USUAL_CODE) in ("uk", "eu")
    asks = (
        f"EN size {wanted}, by width alone for a leaf {write(width)} wide, closes with {demanded(least, system)}"
        f" at least from 0 to 4 deg. Its handle is {length(float(width.base - BACKSET.base), system)} from the hinges."
    )
    working = (
        first,
        asks,
        *_weighed(found, least, most, limit, lever, system, by_en=by_en),
        *_why_not_spring_size(mount),
    )
    return Answer(answer, working, _cautions(answer))


def _weighed(
    found: list[Setting],
    least: float,
    most: float,
    limit: Quantity,
    lever: float,
    system: str,
    *,
    by_en: bool,
) -> list[str]:
    """A shortfall from EN 1154 is shown only under rules that ask for it (`by_en`)."""
    lines = []
    within = bound_in_units(limit, AT_MOST, system)
    light = _pick(found, lambda one: one.force <= most, last=True)
    strong = _pick(found, lambda one: one.closing >= least, last=False)
    if light is None:
        weakest = found[0]
        lines.append(
            f"Even EN size {weakest.size:g} takes {force(weakest.force, system)} to open, above {within}."
        )
    else:
        lines.append(
            f"Within {within}: EN size {light.size:g} at most, which closes with"
            f" {moment(light.closing, system)}{_share(light.closing, least) if by_en else ''}."
        )
    if strong is None:
        lines.append(f"No size of this arm closes with {demanded(least, system)}.")
    else:
        lines.append(
            f"To close with {demanded(least, system)}: EN size {strong.size:g} at least, which takes"
            f" {force(strong.force, system)} to open."
        )
    lines.append(
        f"Both at once would need a closer that gives back {least / (most * lever):.0%} of the"
        " opening work near the latch."
    )
    return lines


def _why_not_spring_size(mount: str) -> tuple[str, ...]:
    """On a parallel arm `spring-size` gives another size, and a person who is shown both is owed the reason."""
    if mount != "parallel":
        return ()
    why = (
        "The size to fit may be a size or more above these: for a parallel arm it goes up by practice, and this goes by"
        " the arm's geometry and an invented spring. Choose a closer that reaches it; the gauge decides where its"
        " spring ends."
    )
    return (why,)


def _pick(found: list[Setting], holds: Callable[[Setting], bool], *, last: bool) -> Setting | None:
    fitting = [one for one in found if holds(one)]
    if not fitting:
        return None
    return fitting[-1] if last else fitting[0]


def _share(closing: float, least: float) -> str:
    return ", enough" if closing >= least else f", {closing / least:.0%} of what EN 1154 asks"


def _cautions(answer: str) -> tuple[str, ...]:
    lines = [
        "The spring is an invented one: measure the door with a gauge.",
        "Air, seals and stiff hinges come on top of the opening force.",
    ]
    if answer != "both":
        lines.append(
            "The force limit comes first on an accessible door, closing and latching on a fire door."
        )
    lines.append("The local code and the authority having jurisdiction decide.")
    return tuple(lines)


COMPUTATION = Computation(
    name="size-and-force",
    about="Whether one EN size can both close the leaf and open within the force limit.",
    inputs=(
        WIDTH_INPUT,
        Input(
            "limit",
            "force",
            False,
            "greatest push at the handle; 5 lbf if left out",
            low=Quantity(Fraction(1), "lbf"),
            high=Quantity(Fraction(60), "lbf"),
        ),
        *(one for one in GEOMETRY_INPUTS if one.name in _SHARED),
        RULES_INPUT,
    ),
    output=Output("choice", CHOICES),
    compute=_size_and_force,
    source=("EN 1154 table 1; 2010 ADA Standards 404.2.9; an invented spring"),
    example="width='36 in'",
)
