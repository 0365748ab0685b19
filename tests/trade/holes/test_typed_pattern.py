"""Numbers typed from the maker's paper give every hole where the sheet copied from the same paper gives it."""

from typing import Any

import pytest

from guide.drawing.elevation import ElevationOf, elevation
from guide.drawing.scene import Circle
from guide.papers.template.template import template_pdf
from guide.papers.template.template_inputs import TEMPLATE, read_template
from guide.trade.answer import BadInput, NoAnswer
from guide.trade.reading import read_inputs
from tests.papers.template.read_template import joined, read
from tests.trade.shipped_sheets import answer, shipped

DOOR = {"knuckles": "left", "hinge": "butt"}
LINES = {
    "regular": ("pin", "top", "7 1/2 in", "1 1/2 in", "13 in", "3/4 in"),
    "top-jamb": ("pin", "stop", "7 in", "1 1/4 in", "12 in", "1 in"),
    "parallel": ("pin", "stop", "9 1/2 in", "2 in", "9 1/2 in", "3 1/4 in"),
}
"""What the shipped inch sheet says for an opening of 100 degrees."""
SPREAD = {"regular": ("2 3/4 in", "4 3/4 in"), "top-jamb": ("2 3/4 in", "4 3/4 in")}
"""From the body's pinion to its holes toward hinge and latch: its valve end is toward the hinge."""
OTHER_WAY = ("4 3/4 in", "2 3/4 in")
"""On a parallel arm its valve end is toward the latch."""


def typed(mount: str, **more: str) -> dict[str, str]:
    names = ("along_from", "datum", "body_along", "body_across", "shoe_along", "shoe_across")
    return {
        "mount": mount,
        **DOOR,
        **{f"typed_{name}": value for name, value in zip(names, LINES[mount], strict=True)},
        **{f"typed_{name}": value for name, value in more.items()},
    }


def four_and_two(mount: str) -> dict[str, str]:
    to_hinge, to_latch = SPREAD.get(mount, OTHER_WAY)
    return typed(
        mount,
        body_pattern="four",
        body_to_hinge=to_hinge,
        body_to_latch=to_latch,
        body_rows="1 1/2 in",
        shoe_pattern="two",
        shoe_between="2 1/2 in",
        thread="quarter-20",
    )


def places(found: Any) -> list[tuple[str, str, str]]:
    rows = [one for one in found["holes"] if one["only_if"] is None and one["kind"] != "extra"]
    return sorted((one["part"], str(one["along"]), str(one["across"])) for one in rows)


@pytest.mark.parametrize("mount", LINES)
def test_typed_holes_are_those_of_the_sheet(mount: str) -> None:
    by_numbers = answer("holes", **four_and_two(mount), range="100 deg")
    by_sheet = answer(
        "holes", sheet="generic-a", mount=mount, **DOOR, range="100 deg", room="fits", soffit="flat"
    )
    assert places(by_numbers.value) == places(by_sheet.value)


def test_the_thread_names_the_drill() -> None:
    metal = {"leaf": "steel", "prep": "reinforced", "frame": "steel", "frame_plate": "yes"}
    out: Any = answer("setting-out", **four_and_two("regular"), **metal).value
    assert out["drill_leaf"] == "4 holes, No. 7 drill, 1/2 in deep, tap 1/4-20, pull face first"
    assert (out["holes_leaf"], out["holes_frame"]) == (4, 2)


def test_six_in_the_body_and_four_in_the_shoe() -> None:
    more = {
        **four_and_two("parallel"),
        "typed_body_pattern": "six",
        "typed_shoe_pattern": "four",
        "typed_shoe_rows": "1 in",
    }
    rows: Any = answer("holes", **more, range="100 deg").value
    shoe = {one["name"]: str(one["across"]) for one in rows["holes"] if one["of"] == "shoe"}
    assert shoe == {
        "shoe hinge side nearer the leaf": "2 3/4 in",
        "shoe hinge side further out": "3 3/4 in",
        "shoe latch side nearer the leaf": "2 3/4 in",
        "shoe latch side further out": "3 3/4 in",
    }
    assert sum(one["of"] == "body" for one in rows["holes"]) == 6


def test_without_a_pattern_only_the_two_crosses_are_known() -> None:
    for more in ({}, {"body_pattern": "through"}, {"body_pattern": "four"}):
        out: Any = answer("setting-out", **typed("regular", **more)).value
        assert (out["refusal"], out["marked_leaf"]) == ("go-on", "through-part")
        with pytest.raises(NoAnswer, match="mark through body and shoe"):
            answer("holes", **typed("regular", **more), range="100 deg")


def test_a_hole_past_the_hinge_is_a_slip_of_typing() -> None:
    far = {**four_and_two("regular"), "typed_body_to_hinge": "7 3/4 in"}
    out: Any = answer("setting-out", **far).value
    assert out["refusal"] == "not-on-sheet"
    assert "body hinge end upper would be past the hinge pin centre" in str(out["why"])


def test_holes_too_low_for_the_rail_want_a_plate_as_with_a_sheet() -> None:
    out: Any = answer("setting-out", **four_and_two("regular"), top_rail="2 1/2 in").value
    assert out["refusal"] == "needs-template"


@pytest.mark.parametrize("mount", LINES)
def test_paper_and_drawing_show_typed_holes(mount: str) -> None:
    texts = {**four_and_two(mount), "range": "100 deg"}
    made, _ = read_template(read_inputs(TEMPLATE, texts, open_sheet=shipped))
    drawn, _ = joined(read(template_pdf(made)))
    scene = elevation(ElevationOf(made.setting_out, made.units))
    circles = [one for one in scene.shapes if isinstance(one, Circle) and one.role == "hole"]
    assert len(drawn) == len(circles) == 6


def test_numbers_without_a_pattern_draw_the_two_crosses() -> None:
    made, _ = read_template(
        read_inputs(TEMPLATE, {**typed("regular"), "range": "100 deg"}, open_sheet=shipped)
    )
    says = elevation(ElevationOf(made.setting_out, made.units)).says
    assert "the body on the leaf, 7 1/2 in along from the hinge pin centre" in says
    with pytest.raises(NoAnswer, match="mark through body and shoe"):
        template_pdf(made)


def test_neither_sheet_nor_numbers_is_said() -> None:
    with pytest.raises(BadInput, match="Give sheet=, or what the maker's paper says"):
        read_template(read_inputs(TEMPLATE, {"mount": "regular", **DOOR, "range": "100 deg"}))
