"""`starting-size`: the EN size to set a new closer's spring to on the bench, before the first test.

The size that the leaf needs, unless the limit of the opening force comes first: then what the sheet's line for
accessible doors comes to, or the whole size nearest to what an ordinary door of that leaf and mount opens with. A
spring too strong to begin with costs a test for each size it is let down by; one a little weak mostly latches, and the
latch valve is tried before the spring is raised.
"""

from collections.abc import Mapping
from dataclasses import replace

from guide.measures import write
from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, given_sheet, needed
from guide.trade.inputs import HEIGHT_INPUT, RULES_INPUT, WIDTH_INPUT
from guide.trade.mounts import SIZES
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.sheet import Sheet
from guide.trade.swing.swing import MASS_INPUT, MOUNT_INPUT
from guide.trade.tuning.nominal_door import NominalLeaf, nominal_force
from guide.trade.tuning.tune import leaf_of
from guide.trade.tuning.tune_next import limit_of

WEAKEST_START = 2
"""Most bodies that can be set begin there (common practice), and weaker springs latched no sooner on the doors of
`tests/campaigns/starting.txt`."""


def _starting_size(inputs: Mapping[str, Given]) -> Answer:
    wanted = needed(inputs, "size", int)
    sheet = given_sheet(inputs)
    body = () if sheet else (_WEAKEST,)
    reason = _kept(inputs)
    if reason:
        return Answer(wanted, (f"EN size {wanted}, as the leaf needs: {reason}.",), body)
    cautions = (*body, _NO_GAUGE_YET)
    weakest = WEAKEST_START if sheet is None else max(WEAKEST_START, sheet.sizes[0])
    limit = limit_of(inputs)
    start = _light(leaf_of(inputs), wanted, weakest, float(limit.most.base))
    if start == wanted:
        told = f"EN size {wanted}, as the leaf needs: the opening limit asks for none weaker to begin with."
        return Answer(wanted, (told,), cautions)
    working = f"The leaf needs EN size {wanted}, but may take at most {write(limit.most)} to open{limit.whence}."
    if (by_sheet := _accessible_line(sheet, needed(inputs, "mount", str))) is not None:
        told = (
            f"The line of the sheet for accessible doors comes to EN size {by_sheet}: begin there."
        )
        return Answer(by_sheet, (working, told), body)
    told = f"By calculation EN size {start} is where to begin: the latch and the gauge decide from there."
    return Answer(start, (working, told), cautions)


def _kept(inputs: Mapping[str, Given]) -> str:
    """Why the leaf's own size comes first; empty where the opening limit does."""
    if needed(inputs, "fire", bool):
        return "a fire door has to latch first of all"
    if needed(inputs, "exterior", bool):
        return "the weather works against it"
    if needed(inputs, "harder", bool):
        return "air or weight works against it"
    return ""


def _accessible_line(sheet: Sheet | None, mount: str) -> int | None:
    """The size nearest to the sheet's turns for an accessible door; None where it has no such line, or does not say
    what its turns come to."""
    if sheet is None or sheet.factory_size is None or sheet.turns_per_size is None:
        return None
    for row in sheet.spring_settings:
        if row.accessible and row.mount in (None, mount):
            size = round(sheet.factory_size + row.turns / sheet.turns_per_size)
            return min(max(size, sheet.sizes[0]), sheet.sizes[1])
    return None


def _light(leaf: NominalLeaf, wanted: int, weakest: int, most: float) -> int:
    """The strongest size from `wanted` down to `weakest` that is expected to open with `most` [N], or is no more than
    half a size above one that does; else `weakest`."""
    for size in range(wanted, weakest, -1):
        if nominal_force(leaf, size - 0.5) <= most:
            return size
    return min(wanted, weakest)


_WEAKEST = "A body whose weakest size is above this begins at its weakest."
_NO_GAUGE_YET = (
    "Calculated for an ordinary door, with an invented spring: the gauge on this door decides."
)

COMPUTATION = Computation(
    name="starting-size",
    about="The EN size to set the spring to on the bench, before the first test.",
    inputs=(
        Input("size", "count", True, "EN size the leaf needs", low=SIZES[0], high=SIZES[1]),
        WIDTH_INPUT,
        MOUNT_INPUT,
        replace(HEIGHT_INPUT, required=False),
        replace(MASS_INPUT, required=False),
        RULES_INPUT,
        Input("fire", "yesno", True, "whether it is a fire door"),
        Input("exterior", "yesno", True, "whether it opens to the weather"),
        Input(
            "harder", "yesno", True, "whether air pushes on the leaf, or it is heavy for its width"
        ),
        Input("way_out", "yesno", False, "whether it is a way out"),
        Input("accessible", "yesno", False, "on an accessible route; yes if left out"),
        replace(SHEET_INPUT, required=False),
    ),
    output=Output("count", low=SIZES[0], high=SIZES[1]),
    compute=_starting_size,
    source="the rules' limits of the opening force; where to begin ours",
    example="size=4 width='36 in' mount=regular fire=no exterior=no harder=no",
)
