"""Drawings in characters: they fit, every character is one column wide, and words stay legible."""

import re
import unicodedata
from dataclasses import replace
from itertools import product

import pytest

from guide.drawing.for_step import DoorFacts, drawing_for, scene_for
from guide.drawing.scene import Area, Label, Scene
from guide.drawing.text import render_text
from guide.measures import parse
from guide.trade.holes.opening import Opening, Typed
from guide.trade.holes.set_out import set_out
from tests.drawing.doors import BOTH, MOUNTS, school_door

SIZES = [(40, 10), (40, 18), (60, 14), (80, 18), (120, 30), (160, 40)]
VIEWS = [("plan", 0.0), ("plan", 45.0), ("plan", 100.0), ("elevation", 0.0)]


@pytest.mark.parametrize(
    ("columns", "rows", "view", "angle", "ascii_only"),
    [
        (*size, *view, (SIZES.index(size) + VIEWS.index(view)) % 2 == 1)
        for size, view in product(SIZES, VIEWS)
    ],
)
def test_every_drawing_fits_and_says_where_to_stand(
    columns: int, rows: int, view: str, angle: float, ascii_only: bool
) -> None:
    for mount, knuckles in product(MOUNTS, BOTH):
        drawing = drawing_for(
            school_door(mount, knuckles),
            columns,
            rows,
            angle=angle,
            view=view,
            ascii_only=ascii_only,
        )
        text = "\n".join(drawing.lines)
        assert 0 < len(drawing.lines) <= rows
        assert max(map(len, drawing.lines)) <= columns
        assert all(line == line.rstrip() for line in drawing.lines)
        assert {unicodedata.east_asian_width(char) for char in text} <= {"N", "Na", "A"}
        assert not any(unicodedata.combining(char) for char in text)
        assert not ascii_only or text.isascii()
        side = "pull" if mount == "regular" else "push"
        assert f"{side} side" in text.casefold()


@pytest.mark.parametrize(("columns", "rows"), [size for size in SIZES if size[0] >= 60])
@pytest.mark.parametrize(("mount", "knuckles"), [*product(MOUNTS, BOTH)])
def test_each_part_is_named_once_whole_or_by_a_letter_that_is_explained(
    columns: int, rows: int, mount: str, knuckles: str
) -> None:
    facts = school_door(mount, knuckles)
    text = "\n".join(drawing_for(facts, columns, rows, angle=40.0).lines)
    for part in ("body", "shoe", "valves", "butt hinges"):
        assert len(re.findall(rf"\b{part}\b", text)) == 1, (part, text)


def label(x: float, text: str) -> Label:
    return Label(((x, 1.0),), (text,), "frame", text[0].upper())


def test_words_never_touch_each_other_or_a_line() -> None:
    posts = (
        Area("frame", ((0, 0), (1, 0), (1, 3), (0, 3))),
        Area("frame", ((20, 0), (21, 0), (21, 3), (20, 3))),
    )
    named = Scene("Two posts.", (*posts, label(1.0, "hinge post"), label(20.0, "latch post")))
    for columns in range(20, 81):
        text = "\n".join(render_text(named, columns, 10))
        for word, letter in (("hinge post", "H"), ("latch post", "L")):
            placed = re.search(rf"(?<![a-z]){word}(?![a-z])", text)
            assert placed, (columns, letter, text)


def test_a_word_that_finds_no_room_becomes_a_letter() -> None:
    wall = Area("frame", ((0, 0), (40, 0), (40, 5), (0, 5)))
    scene = Scene("A wall.", (wall, Label(((20.0, 2.5),), ("brick wall",), "frame", "W")))
    lines = render_text(scene, 30, 8)
    assert lines[-1] == "W brick wall"
    assert any("W" in line for line in lines[:-1])


@pytest.mark.parametrize("knuckles", BOTH)
def test_the_person_sees_the_hinges_on_the_side_they_are(knuckles: str) -> None:
    """In ASCII the hinge is an O and the frame is #: the O stands at the frame of the hinge side."""
    lines = drawing_for(school_door("regular", knuckles), 80, 18, ascii_only=True).lines
    row = next(line for line in lines if "O" in line.replace("SIDE", ""))
    inside = lines[1].index("#") + (lines[1].rindex("#") - lines[1].index("#")) / 2
    assert (row.index("O") < inside) == (knuckles == "left")
    assert lines[-2 if "#" in lines[-1] else -1].strip().startswith("PULL SIDE")


def test_numbers_of_the_elevation_are_those_of_the_sheet() -> None:
    """generic-a, regular arm to 100 deg: body 7 1/2 in along and 1 1/2 in down, shoe 13 in and 3/4 in."""
    drawing = drawing_for(school_door("regular", "left"), 100, 30, view="elevation")
    text = "\n".join(drawing.lines)
    for words in ("body 7 1/2 in", "body 1 1/2 in", "shoe 13 in", "shoe 3/4 in"):
        assert words in text
    assert "A body valve end upper: 4 3/4 in along, 3/4 in down; No. 7 to tap 1/4-20" in text
    assert "I shoe tail: 13 in along, 1 3/8 in up; No. 7 to tap 1/4-20" in text
    assert "hinge pin centre" in text
    assert "top of the leaf" in text
    assert "7 1/2 in along from the hinge pin centre" in drawing.says


def test_without_room_the_sentence_stands_alone() -> None:
    drawing = drawing_for(school_door("regular", "left"), 18, 5)
    assert drawing.lines == ()
    assert drawing.says.startswith("Regular arm from above")


def test_an_opening_the_sheet_does_not_reach_is_said_and_not_drawn() -> None:
    facts = school_door("regular", "left")
    too_far = DoorFacts("regular", "left", opening=parse("170 deg"), sheet=facts.sheet)
    drawing = drawing_for(too_far, 80, 18)
    assert drawing.lines == ()
    assert "140 deg" in drawing.says


def test_without_a_sheet_a_plan_is_drawn_and_an_elevation_is_not() -> None:
    facts = DoorFacts("parallel", "left")
    assert drawing_for(facts, 80, 18).lines
    elevation = drawing_for(facts, 80, 18, view="elevation")
    assert elevation == drawing_for(facts, 60, 14, view="elevation")
    assert "go by the paper from the box" in elevation.says


def test_a_leaf_is_shortened_only_where_the_whole_would_be_too_small() -> None:
    facts = school_door("parallel", "right")
    wide = scene_for(facts, 160, 40)
    narrow = scene_for(facts, 60, 14)
    leaf_parts = [
        sum(
            getattr(shape, "role", "") == "leaf"
            for shape in scene.shapes
            if not isinstance(shape, Label)
        )
        for scene in (wide, narrow)
    ]
    assert leaf_parts == [1, 2]


def test_holes_are_not_drawn_where_the_typed_numbers_contradict_the_sheet() -> None:
    door = school_door("regular", "left")
    opening = Opening("regular", "left", hinge="butt", angle=door.opening, room="fits")
    same = Typed(body_across=parse("1 1/2 in"), shoe_along=parse("13 in"))
    as_the_sheet = replace(door, setting_out=set_out(opening, door.sheet, same))
    assert drawing_for(as_the_sheet, 70, 20, view="elevation").lines
    other = set_out(opening, door.sheet, Typed(body_along=parse("8 in")))
    another = drawing_for(replace(door, setting_out=other), 70, 20, view="elevation")
    assert another.lines == ()
    assert "8 in was typed for the body along the door" in another.says
