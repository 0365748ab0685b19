"""Sheets, scenarios and door files: every fault has its place, and none hides another."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from guide.files.findings import BadFile
from guide.files.library import find, shipped_folder
from guide.procedure.scenario_file import DoorShape, ScenarioShape, load_door, load_scenario
from guide.trade.sheet.codec import fields_of
from guide.trade.sheet.sheet import Sheet
from tests.trade.shipped_sheets import load_sheet

HARBOUR = """\
sheet: harbour
about: An invented closer for these tests.
units: inch
sizes: 1 to 6
adjustable: yes
turns_per_size: 2 1/2
mounts:
  - mount: regular
    along_from: hinge edge
    datum: top of the leaf
    valves_toward: hinge
    arm_rests: The forearm stands square to the frame.
    ranges:
      - {up_to: 100 deg, body_along: 8 in, body_datum: 2 in, shoe_along: 15 in, shoe_datum: 1 in}
      - {up_to: 130 deg, body_along: 6 in, body_datum: 2 in, shoe_along: 12 in, shoe_datum: 1 in}
screws:
  - {name: sweep, where: valve end, slower: clockwise, turns: 4, has_stop: yes}
  - {name: spring, where: other end, turns: 12 1/2}
chart:
  - {mount: regular, max_width: 34 in, size: 2}
  - {mount: regular, max_width: 914.4 mm, size: 3}
"""

CLINIC = """\
scenario: clinic-door
about: A door into a clinic we made up.
procedure: right-size
units: inch
door: {width: 36 in, fire: no}
answers:
  - {at: outdoors, value: no}
  - {at: air, note: Calm today.}
  - {at: drill, resolve: plugged, note: Filled both holes.}
must_show:
  end: open
  route: [outdoors, air]
"""

SPOT = "§"


def faults(path: Path, text: str) -> list[tuple[str, int, int, str]]:
    """Code, line, column and message of each finding of a sheet or scenario that is refused."""
    path.write_text(text)
    load = load_sheet if text.startswith("sheet:") else load_scenario
    with pytest.raises(BadFile) as bad:
        load(path)
    return [(one.code, one.line, one.column, one.message) for one in bad.value.findings]


def test_a_sheet_is_read_with_its_exact_numbers(tmp_path: Path) -> None:
    path = tmp_path / "harbour.yaml"
    path.write_text(HARBOUR)
    sheet = load_sheet(path)
    assert (sheet.sheet, sheet.sizes, sheet.turns_per_size) == ("harbour", (1, 6), Fraction(5, 2))
    assert [(screw.name, screw.turns) for screw in sheet.screws] == [
        ("sweep", 4),
        ("spring", Fraction(25, 2)),
    ]
    assert str(sheet.chart[1].max_width) == "914.4 mm"
    assert sheet.mounts[0].preset == "none"


@pytest.mark.parametrize(
    ("right", "wrong", "code", "says"),
    [
        ("units: inch", "unit: inch", "key-unknown", "did you mean “units”?"),
        ("units: inch", "units: §feet", "shape", "inch or metric"),
        ("sizes: 1 to 6", "sizes: §one to six", "shape", "1 to 6"),
        ("sizes: 1 to 6", "sizes: §²", "shape", "1 to 6"),
        ("sizes: 1 to 6", "sizes: §" + "9" * 5000, "shape", "1 to 6"),
        ("sizes: 1 to 6", "sizes: 6 to 1", "sheet-wrong", "weaker first"),
        ("adjustable: yes", "adjustable: §perhaps", "shape", "yes or no"),
        ("2 1/2\nmounts", "§many\nmounts", "turns-wrong", "2 1/2"),
        ("2 1/2\nmounts", "§1e999999999\nmounts", "turns-wrong", "2 1/2"),
        ("2 1/2\nmounts", "§-2\nmounts", "turns-wrong", "2 1/2"),
        # 21/2 may be 2 1/2 with its space left out, so it is not taken for ten and a half.
        ("2 1/2\nmounts", "§21/2\nmounts", "turns-wrong", "2 1/2"),
        ("turns: 12 1/2", "turns: §1/0", "turns-wrong", "2 1/2"),
        ("turns: 4,", "turns: §four,", "turns-wrong", "2 1/2"),
        ("name: sweep", "name: §swep", "shape", "sweep, latch"),
        ("name: spring", "name: sweep", "sheet-wrong", "sweep"),
        ("turns: 12 1/2", "turns: 0", "sheet-wrong", "no turns at all"),
        ("body_along: 8 in", "body_along: §8", "unit-wrong", "has no unit"),
        ("body_along: 8 in", "body_along: §8 deg", "unit-wrong", "length"),
        ("up_to: 130 deg", "up_to: 90 deg", "sheet-wrong", "must rise"),
        ("up_to: 130 deg", "up_to: 200 deg", "sheet-wrong", "180 deg"),
        ("max_width: 34 in", "max_width: §wide", "unit-wrong", "no number"),
        ("34 in, size: 2", "34 in, size: 9", "sheet-wrong", "1 to 7"),
        ("34 in, size: 2", "37 in, size: 2", "sheet-wrong", "must rise"),
        ("mount: regular\n", "mount: §slide-track\n", "shape", "regular, top-jamb or parallel"),
    ],
)
def test_a_fault_of_a_sheet_has_its_place(
    tmp_path: Path, right: str, wrong: str, code: str, says: str
) -> None:
    assert HARBOUR.count(right) == 1
    text = HARBOUR.replace(right, wrong)
    (found,) = faults(tmp_path / "harbour.yaml", text.replace(SPOT, ""))
    assert found[0] == code, found
    assert says in found[3], found
    if SPOT in text:
        before = text[: text.index(SPOT)]
        assert found[1:3] == (before.count("\n") + 1, len(before) - before.rfind("\n"))


def test_every_fault_of_a_sheet_is_told_at_once(tmp_path: Path) -> None:
    text = (
        HARBOUR.replace("body_along: 8 in", "body_along: 8")
        .replace("up_to: 130 deg", "up_to: 200 deg")
        .replace("turns: 4", "turns: four")
        .replace("max_width: 34 in", "max_width: wide")
        .replace("turns_per_size: 2 1/2", "turns_per_size: some")
    )
    assert sorted(one[0] for one in faults(tmp_path / "harbour.yaml", text)) == [
        "sheet-wrong",
        "turns-wrong",
        "turns-wrong",
        "unit-wrong",
        "unit-wrong",
    ]


def test_a_scenario_is_read(tmp_path: Path) -> None:
    path = tmp_path / "clinic.yaml"
    path.write_text(CLINIC)
    scenario = load_scenario(path)
    assert scenario.door == {"width": "36 in", "fire": "no"}
    assert [answer.at for answer in scenario.answers] == ["outdoors", "air", "drill"]


@pytest.mark.parametrize(
    ("right", "wrong", "code", "says"),
    [
        ("procedure: right-size\n", "", "key-missing", "“procedure” is missing"),
        ("units: inch", "units: §feet", "shape", "inch or metric"),
        ("scenario: clinic-door", "scenario: §Clinic Door", "shape", "joined by hyphens"),
        ("door: {", "door: {§Hand: lh, ", "shape", "“Hand” is not a name"),
        ("{at: outdoors, value: no}", "§{value: no}", "key-missing", "“at”"),
        ("{at: outdoors, value: no}", "{at: outdoors, §valeu: no}", "key-unknown", "“value”"),
        ("{at: outdoors, value: no}", "§{at: outdoors}", "shape", "found none"),
        ("value: no}", "value: no, done: yes}", "shape", "found value and done"),
        (", note: Filled both holes.", "", "shape", "a resolve needs its note"),
        ("resolve: plugged", "resolve: §filled", "shape", "remade, plugged or abandoned"),
        (
            "end: open",
            "end: §stopped",
            "shape",
            "finished, left-to-do, not-started, made-safe, found or open",
        ),
        ("route: [outdoors, air]", "route: §outdoors", "shape", "must be a list"),
    ],
)
def test_a_fault_of_a_scenario_has_its_place(
    tmp_path: Path, right: str, wrong: str, code: str, says: str
) -> None:
    assert CLINIC.count(right) == 1
    text = CLINIC.replace(right, wrong)
    path = tmp_path / "clinic.yaml"
    (found,) = faults(path, text.replace(SPOT, ""))
    assert found[0] == code, found
    assert says in found[3], found
    if SPOT in text:
        before = text[: text.index(SPOT)]
        assert found[1:3] == (before.count("\n") + 1, len(before) - before.rfind("\n"))


def test_a_door_may_come_from_a_scenario_or_a_file_of_its_own(tmp_path: Path) -> None:
    path = tmp_path / "clinic.yaml"
    path.write_text(CLINIC)
    assert isinstance(load_door(path), ScenarioShape)
    path.write_text("door: {width: 36 in}\nunits: metric\n")
    door = load_door(path)
    assert isinstance(door, DoorShape)
    assert (door.door, door.units, door.sheet) == ({"width": "36 in"}, "metric", "none")


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("door: {}\n", "shape"),
        ("- width\n", "shape"),
        ("door: {width: [36]}\n", "shape"),
        ("", "empty"),
    ],
)
def test_a_wrong_door_file_is_refused(tmp_path: Path, text: str, code: str) -> None:
    path = tmp_path / "door.yaml"
    path.write_text(text)
    with pytest.raises(BadFile) as bad:
        load_door(path)
    assert [one.code for one in bad.value.findings] == [code]


@pytest.mark.parametrize("load", [load_sheet, load_scenario, load_door])
def test_a_file_that_is_not_there_is_told(tmp_path: Path, load: object) -> None:
    assert callable(load)
    with pytest.raises(BadFile, match="There is no file"):
        load(tmp_path / "nowhere.yaml")


def keys_of(owner: type[Any]) -> Iterator[str]:
    """The keys of a sheet, or of a part of it, and those of its parts."""
    for field in fields_of(owner):
        yield field.key
        if field.part is not None:
            yield from keys_of(field.part)


def test_every_key_of_a_sheet_is_in_the_page_on_copying_one() -> None:
    page = (shipped_folder() / "procedures" / "sheets" / "COPYING.md").read_text("utf-8")
    keys = set(keys_of(Sheet))
    assert {"accessories", "preset_turn", "down", "has_stop", "max_width"} <= keys
    assert [key for key in sorted(keys) if f"`{key}`" not in page] == []


def test_a_scenarios_sheet_is_looked_for_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)  # nothing of the checkout is here
    scenario = load_scenario(find("scenario", "quarry-weighbridge-office"))
    assert load_sheet(find("sheet", scenario.sheet)).sheet == "metal-doors"
