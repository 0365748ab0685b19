"""What template, drawing, prompts, record and `work holes` say of twelve openings worked out by hand."""

from typing import Any

import pytest

from guide.drawing.for_step import drawing_for, sentence_for
from guide.measures import parse
from guide.papers.record.holes import holes_lines
from guide.papers.template.template import template_pdf
from guide.papers.template.template_inputs import TEMPLATE, inputs_of_run, read_template
from guide.run.prompt import prompt
from guide.run.step_drawing import door_of
from guide.trade.reading import read_inputs
from tests.papers.template.read_template import joined, read
from tests.setting_out.procedures import marked
from tests.setting_out.twelve_openings import PIN, TWELVE, Worked, mm
from tests.trade.shipped_sheets import answer, shipped

DOORS = pytest.mark.parametrize("door", TWELVE, ids=lambda door: door.name)
ON = {
    "regular": ("down", "up"),
    "top-jamb": ("up", "down"),
    "parallel": ("down", "out"),
}
"""Which way the second number of body and shoe runs, by mount."""


def said(door: Worked, number: str) -> str:
    return f"{number} {door.unit}"


def direction(door: Worked, hole: str) -> str:
    body = hole.startswith(("body", "drop plate"))
    return ON[door.mount][0 if body else 1]


@DOORS
def test_work_holes_says_them(door: Worked) -> None:
    value: Any = answer("holes", **door.texts, range=door.opening).value
    sure = {one["name"]: one for one in value["holes"] if one["only_if"] is None}
    assert sure.keys() == door.holes.keys()
    for name, (along, across) in door.holes.items():
        one = sure[name]
        assert one["along"] == parse(said(door, along)), name
        assert one["across"] == parse(said(door, across)), name
        assert one["along_from"] == door.lines[0]
        assert one["direction"] == direction(door, name)
        out = one["direction"] == "out"
        assert one["across_from"] == ("push face of the leaf" if out else door.lines[1])
    facing = value["notes"][0]
    assert f"row to {door.row}" in facing
    assert f"hinges on your {door.hinges}" in facing
    assert f"the valves point to the {door.valves} edge" in facing


@DOORS
def test_the_setting_out_says_them(door: Worked) -> None:
    value: Any = answer("setting-out", **door.texts, opening=door.opening).value
    numbers = (*door.body, *door.shoe)
    names = ("body_along", "body_across", "shoe_along", "shoe_across")
    for name, number in zip(names, numbers, strict=True):
        assert value[name] == parse(said(door, number)), name
    assert (value["body_along_from"], value["body_across_from"]) == door.lines
    assert value["hinges_on_your"] == door.hinges
    assert value["valves_toward"] == door.valves
    parts = [value[f"holes_{part}"] for part in ("leaf", "frame", "soffit")]
    assert sum(parts) == len(door.holes)


@DOORS
def test_the_template_has_them_to_a_tenth_of_a_millimetre(door: Worked) -> None:
    inputs = read_inputs(TEMPLATE, {**door.texts, "range": door.opening}, open_sheet=shipped)
    pages = read(template_pdf(read_template(inputs)[0]))
    drawn, (zero_x, zero_y) = joined(pages)
    places = [(x - zero_x, y - zero_y) for x, y in drawn]
    words = {word for page in pages for word in page.words}
    for name, (along, across) in door.holes.items():
        right, up = mm(along, door.unit), mm(across, door.unit)
        right = right if door.hinges == "left" else -right
        up = -up if direction(door, name) == "down" else up
        near = [one for one in places if max(abs(one[0] - right), abs(one[1] - up)) < 0.1]
        assert len(near) == 1, name
        numbers = f"{said(door, along)} along, {said(door, across)} {direction(door, name)}"
        assert {name, numbers} <= words
    assert f"HINGE LINE: {door.lines[0]}" in words
    assert any(f"row to {door.row}" in word for word in words)


@DOORS
def test_prompt_drawing_and_record_of_a_run_say_them(door: Worked) -> None:
    state = marked(door)
    shown = prompt(state)
    body, shoe = (
        f"{said(door, along)} along from the {door.lines[0]}, {said(door, across)} {way} from the {start}"
        for (along, across), way, start in (
            (door.body, ON[door.mount][0], door.lines[1]),
            (
                door.shoe,
                ON[door.mount][1],
                "push face of the leaf" if door.mount == "parallel" else door.lines[1],
            ),
        )
    )
    on = {of: f", on the {door.on[of]}" if of in door.on else "" for of in ("body", "shoe")}
    assert shown.text == (
        f"Body {body}{on['body']}. Shoe {shoe}{on['shoe']}. Valves to the {door.valves}."
    )
    facts = door_of(state)
    assert facts is not None
    sentence = sentence_for(facts, "elevation")
    assert body in sentence
    assert shoe in sentence
    side = (
        door.hinges if door.valves == "hinge" else {"left": "right", "right": "left"}[door.hinges]
    )
    assert f"valves toward the {door.valves} on your {side}" in sentence
    picture = "\n".join(drawing_for(facts, 110, 40, view="elevation").lines)
    record = "\n".join(holes_lines(state))
    for name, (along, across) in door.holes.items():
        numbers = f"{said(door, along)} along, {said(door, across)} {direction(door, name)}"
        assert f"{name}: {numbers}" in picture
        assert f"{name[0].upper()}{name[1:]}, " in record
        assert f"{said(door, along)} along from the {door.lines[0]}, {said(door, across)}" in record
    assert f"Body: {body}{on['body']}." in record
    assert f"Shoe: {shoe}{on['shoe']}." in record


@DOORS
def test_the_template_of_a_run_is_that_of_its_opening(door: Worked) -> None:
    state = marked(door)
    by_run = read_template(inputs_of_run(state))[0].setting_out
    by_hand = read_template(
        read_inputs(TEMPLATE, {**door.texts, "range": door.opening}, open_sheet=shipped)
    )[0].setting_out
    assert by_run.layout == by_hand.layout
    assert {one.name for one in by_run.holes} >= door.holes.keys()


def test_the_twelve_cover_mounts_hands_sheets_and_lines() -> None:
    assert {door.mount for door in TWELVE} == {"regular", "top-jamb", "parallel"}
    assert {(door.sheet, door.hinges) for door in TWELVE} == {
        *(
            ("generic-a", "left"),
            ("generic-a", "right"),
            ("generic-b", "left"),
            ("generic-b", "right"),
        )
    }
    assert {door.hinge for door in TWELVE} == {"butt", "continuous"}
    assert any(door.lines[0] == PIN for door in TWELVE)
    assert {door.seen.get("soffit") for door in TWELVE} >= {"flat", "narrow", "blade"}
