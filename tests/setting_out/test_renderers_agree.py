"""Template, drawing, `work holes` and setting-out of every mount, hand, hinge and accessory agree, or refuse alike."""

from itertools import product
from typing import Any

import pytest

from guide.drawing.elevation import ElevationOf, elevation
from guide.drawing.scene import Circle
from guide.papers.template.template import template_pdf
from guide.papers.template.template_inputs import TEMPLATE, read_template
from guide.trade.answer import NoAnswer
from guide.trade.door.hinges import HINGES, pivot_offset
from guide.trade.reading import read_inputs
from tests.papers.template.read_template import joined, read
from tests.trade.shipped_sheets import SHEETS, answer, shipped

MOUNTS = ("regular", "top-jamb", "parallel")
SIDES = ("left", "right")
SEEN: tuple[dict[str, str], ...] = (
    {},
    {"head_item": "coordinator"},
    {"soffit": "narrow"},
    {"soffit": "blade"},
    {"soffit": "stepped"},
    {"room": "plate"},
    {"top_rail": "2 1/2 in"},
    {"frame_face": "1 3/4 in"},
    {"head_item": "coordinator", "soffit": "blade"},
)
"""What calls for an accessory under body or shoe, and what does not."""


def texts(
    sheet: str, mount: str, knuckles: str, hinge: str, seen: dict[str, str]
) -> dict[str, str]:
    return {"sheet": sheet, "mount": mount, "knuckles": knuckles, "hinge": hinge, **seen}


@pytest.mark.parametrize("first", [0, pytest.param(1, marks=pytest.mark.whole)])
@pytest.mark.parametrize("hinge", HINGES)
@pytest.mark.parametrize(("sheet", "mount"), [*product(SHEETS, MOUNTS)])
def test_all_give_the_same_places_or_refuse_alike(
    sheet: str, mount: str, hinge: str, first: int
) -> None:
    """Each accessory at one hand a hinge: at the other hand with the next hinge, or, `whole`, with the same."""
    refused = 0
    for turn, seen in enumerate(SEEN, first + [*HINGES].index(hinge)):
        knuckles = SIDES[turn % len(SIDES)]
        door = texts(sheet, mount, knuckles, hinge, seen)
        out: Any = answer("setting-out", **door, opening="100 deg").value
        made = read_inputs(TEMPLATE, {**door, "range": "100 deg"}, open_sheet=shipped)
        of = read_template(made)[0]
        if out["refusal"] != "go-on":
            refused += 1
            with pytest.raises(NoAnswer) as by_template:
                template_pdf(of)
            with pytest.raises(NoAnswer) as by_work:
                answer("holes", **door, range="100 deg")
            with pytest.raises(NoAnswer) as by_drawing:
                elevation(ElevationOf(of.setting_out, of.units))
            assert str(by_template.value) == str(by_drawing.value) == out["why"]
            assert str(by_work.value).startswith(out["why"])
            assert not any(out[name] for name in ("body_along", "shoe_across", "holes_leaf"))
            continue
        rows: Any = answer("holes", **door, range="100 deg").value
        same_places(of, rows["holes"], hinge)
        counted = sum(one["only_if"] is None for one in rows["holes"])
        assert counted == sum(out[f"holes_{part}"] for part in ("leaf", "frame", "soffit"))
    assert (refused == len(SEEN)) == (hinge not in ("butt", "continuous"))


def same_places(of: Any, rows: list[dict[str, Any]], hinge: str) -> None:
    """Template to 0.1 mm, drawing to the same, rows to what a mark is rounded to."""
    so = of.setting_out
    drawn, (zero_x, zero_y) = joined(read(template_pdf(of)))
    printed = [(x - zero_x, y - zero_y) for x, y in drawn]
    scene = elevation(ElevationOf(so, of.units))
    circles = [one.centre for one in scene.shapes if isinstance(one, Circle) and one.role == "hole"]
    sign = 1 if so.hinges == "left" else -1
    edge = float(pivot_offset(hinge).edge) if so.check().along_from == "hinge edge" else 0.0
    top = 0.5 if so.check().datum == "top of the leaf" else 0.0
    assert len(printed) == len(circles) == len(rows) == len(so.holes)
    for hole, row, (x, y) in zip(so.holes, rows, circles, strict=True):
        right = (x - sign * edge) * 25.4
        up = (y - (0.0 if hole.part == "soffit" else top)) * 25.4
        assert sum(max(abs(a - right), abs(b - up)) < 0.1 for a, b in printed) == 1, hole.name
        rounding = 0.4 if of.units == "inch" else 0.25  # half of 1/32 in, half of 0.5 mm
        assert abs(float(row["along"].base) * 25.4 - abs(right)) <= rounding + 0.01
        assert abs(float(row["across"].base) * 25.4 - abs(up)) <= rounding + 0.01
        assert row["name"] == hole.name
