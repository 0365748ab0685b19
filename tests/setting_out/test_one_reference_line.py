"""Marks, lists of holes, read-back, drawing, paper and check of marks measure from the same lines, on every mount."""

from typing import Any

import pytest

from guide.drawing.elevation import ElevationOf, elevation
from guide.papers.template.template import template_pdf
from guide.papers.template.template_inputs import TEMPLATE, read_template
from guide.trade.holes.rows import lines
from guide.trade.reading import read_inputs
from tests.papers.template.read_template import read
from tests.trade.shipped_sheets import SHEETS, answer, shipped

SEEN = {
    "regular": ("pull side", "top of the leaf"),
    "top-jamb": ("push side", "underside of the stop"),
}
SEEN["parallel"] = SEEN["top-jamb"]
"""Where the fitter stands, and the line that heights are measured from there."""
ASKED = {"hinge edge": "edge", "hinge pin centre": "pin"}


@pytest.mark.parametrize("hinge", ["butt", "continuous"])
@pytest.mark.parametrize("mount", SEEN)
@pytest.mark.parametrize("sheet", SHEETS)
def test_all_measure_from_the_lines_that_are_seen(sheet: str, mount: str, hinge: str) -> None:
    door = {"sheet": sheet, "mount": mount, "knuckles": "left", "hinge": hinge}
    extra = {"room": "fits", "soffit": "flat"}
    out: Any = answer("setting-out", **door, **extra, opening="100 deg").value
    own = next(one for one in shipped(sheet).mounts if one.mount == mount).along_from
    side, height = SEEN[mount]
    along = own if mount == "regular" else "hinge edge"
    assert out["along_line"] == ASKED[along]
    for part in ("body", "shoe"):
        assert f"along from the {along}" in out[f"{part}_place"]
        assert out[f"{part}_along_from"] == along
    assert f"from the {height}" in out["body_place"]

    made, _ = read_template(
        read_inputs(TEMPLATE, {**door, **extra, "range": "100 deg"}, open_sheet=shipped)
    )
    so = made.setting_out
    for group in ("leaf", "head"):
        assert lines(so, group, made.units)[0].text.startswith(f"Along from the {along}, ")
    drawn = elevation(ElevationOf(so, made.units)).says
    assert drawn.startswith(f"Head of the door from the {side}")
    assert drawn.count(f"along from the {along}") == 2
    words = " ".join(text for page in read(template_pdf(made)) for text in page.words)
    assert along in words

    # The tape hooked on that line is right; on the other line every mark is off by what lies between them.
    numbers = {f"{part}_{end}": str(out[f"{part}_{name}"]) for part, end, name in _NUMBERS}
    read_back = {f"{key}_read": value for key, value in numbers.items()}
    common = {
        "mount": mount,
        "hinge": hinge,
        "datum": out["datum_line"],
        "along_from": ASKED[along],
    }
    checked = answer("marks", **common, **numbers, **read_back)
    assert checked.value == "right"
    assert checked.working[0].startswith(f"Along from the {along}")
    assert bool(out["carried"]) == (mount != "regular")


_NUMBERS = [
    (part, end, name)
    for part in ("body", "shoe")
    for end, name in (("along", "along"), ("datum", "across"))
]
