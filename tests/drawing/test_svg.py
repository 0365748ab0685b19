"""The same scene as SVG: well formed, without scripts, with its sentence, never by colour alone."""

import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations, product

import pytest

from guide.drawing.for_step import scene_for
from guide.drawing.looks import LOOKS
from guide.drawing.scene import ROLES
from guide.drawing.svg import render_svg
from tests.drawing.doors import BOTH, MOUNTS, school_door

SVG = "{http://www.w3.org/2000/svg}"
ALLOWED = {"svg", "title", "desc", "defs", "pattern", "marker", "path", "circle", "text"}
SIXTEEN = {"black", "silver", "gray", "white", "maroon", "red", "purple", "fuchsia"}
SIXTEEN |= {"green", "lime", "olive", "yellow", "navy", "blue", "teal", "aqua"}
"""HTML 4.01, section 6.5."""


@pytest.mark.parametrize(("mount", "knuckles"), [*product(MOUNTS, BOTH)])
@pytest.mark.parametrize("view", ["plan", "elevation"])
def test_it_is_one_plain_picture_with_its_sentence(mount: str, knuckles: str, view: str) -> None:
    scene = scene_for(school_door(mount, knuckles), 160, 40, view=view, angle=30.0)
    root = ET.fromstring(render_svg(scene))
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= ALLOWED
    assert root.findtext(f"{SVG}desc") == scene.says
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    assert (left, top) == (0, 0)
    for text in root.iter(f"{SVG}text"):
        assert 0 <= float(text.attrib["x"]) <= wide
        assert 0 <= float(text.attrib["y"]) <= high
    for circle in root.iter(f"{SVG}circle"):
        assert 0 <= float(circle.attrib["cx"]) <= wide
        assert 0 <= float(circle.attrib["cy"]) <= high


def test_words_are_escaped() -> None:
    scene = scene_for(school_door("regular", "left"), 80, 20)
    odd = replace(scene, above="<script>alert(1)</script> & Söhne", says="A < B & C")
    root = ET.fromstring(render_svg(odd))
    assert root.findtext(f"{SVG}desc") == "A < B & C"
    assert root.findtext(f"{SVG}title") == "<script>alert(1)</script> & Söhne"


def test_roles_differ_by_more_than_colour() -> None:
    assert set(LOOKS) == set(ROLES)
    assert {look.colour for look in LOOKS.values()} <= SIXTEEN
    ways = {role: (look.weight, look.dash, bool(look.fill)) for role, look in LOOKS.items()}
    told_by_shape = {"hinge", "hole", "dimension", "datum"}
    alike = [
        pair
        for pair in combinations(ways, 2)
        if ways[pair[0]] == ways[pair[1]] and not told_by_shape & {*pair}
    ]
    assert alike == [("body", "valves"), ("body", "shoe"), ("valves", "shoe")]
    assert len({LOOKS[role].fill for role in ("body", "valves", "shoe")}) == 3
