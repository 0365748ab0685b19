"""Whether a closer leaves 78 in under it, before anything is drilled: 2010 ADA Standards, 307.4, exception."""

from collections.abc import Mapping

import pytest

from guide.measures import parse
from guide.trade.answer import Result
from guide.trade.computation import Given
from guide.trade.registry import find, read_inputs, run
from tests.trade.shipped_sheets import shipped


def found(sheet: str = "", **texts: str) -> Mapping[str, Result]:
    inputs: dict[str, Given] = dict(read_inputs(find("head-room"), texts))
    if sheet:
        inputs["sheet"] = shipped(sheet)
    value = run("head-room", inputs).value
    assert isinstance(value, Mapping)
    return value


@pytest.mark.parametrize(
    ("height", "verdict"),
    # A usual closer hangs at most 5 in under the top of the leaf.
    [("84 in", "enough"), ("83 in", "enough"), ("82 15/16 in", "measure"), ("80 in", "measure")],
)
def test_without_a_sheet_a_low_leaf_is_measured(height: str, verdict: str) -> None:
    assert found(height=height, mount="regular")["verdict"] == verdict


@pytest.mark.parametrize(
    ("height", "mount", "hangs_at", "verdict"),
    # generic-a: a body 2 1/2 in high, its screw line 1 1/2 in under the top of the leaf on a regular arm, 2 in under
    # the stop on a parallel arm, which is at most 3/4 in lower; at most 3/4 in are under the leaf.
    [
        ("79 in", "regular", "76 1/4 in", "low"),
        ("80 in", "regular", "77 1/4 in", "measure"),
        ("80 in", "parallel", "76 in", "low"),
        ("82 in", "parallel", "78 in", "enough"),
        # the shoe's screw line 1 in under the stop, and half a shoe
        ("80 in", "top-jamb", "77 1/4 in", "measure"),
    ],
)
def test_the_sheet_says_how_low_it_hangs(
    height: str, mount: str, hangs_at: str, verdict: str
) -> None:
    value = found("generic-a", height=height, mount=mount)
    assert value == {"verdict": verdict, "hangs_at": parse(hangs_at)}


@pytest.mark.parametrize(
    ("height", "mount", "seen", "hangs_at", "verdict"),
    [
        # The drop plate lowers the body by 3/4 in on a regular arm and by 1/2 in on a parallel arm.
        ("80 in", "regular", {"top_rail": "2 1/2 in"}, "76 1/2 in", "low"),
        ("80 in", "regular", {"top_rail": "6 in"}, "77 1/4 in", "measure"),
        ("80 in", "regular", {"room": "plate"}, "76 1/2 in", "low"),
        ("82 in", "parallel", {"top_rail": "3 1/2 in"}, "77 1/2 in", "measure"),
        # The bracket of 3/4 in leaves the shoe above the body: the lowest part stays the body.
        ("82 in", "parallel", {"head_item": "coordinator"}, "78 in", "enough"),
    ],
)
def test_what_goes_on_a_plate_hangs_lower(
    height: str, mount: str, seen: dict[str, str], hangs_at: str, verdict: str
) -> None:
    value = found("generic-a", height=height, mount=mount, **seen)
    assert value == {"verdict": verdict, "hangs_at": parse(hangs_at)}
