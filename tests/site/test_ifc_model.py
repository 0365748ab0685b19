"""Doors of a building model (ISO 16739), made here with the library that reads it."""

from pathlib import Path
from typing import Any

import pytest

from guide.site.schedule.cells import BadSchedule
from guide.site.schedule.schedule import Schedule, read_schedule
from tests.site.schedules import facts

pytestmark = pytest.mark.needs("python:ifcopenshell")

GYM = {
    "FireRating": "EI30",
    "IsExternal": False,
    "HandicapAccessible": True,
    "FireExit": True,
    "SelfClosing": True,
}


def _model(path: Path, operation: str, common: dict[str, Any], width: float = 1010.0) -> None:
    """A model in millimetres with one door in one storey."""
    import ifcopenshell
    import ifcopenshell.api

    def call(step: str, /, *arguments: Any, **named: Any) -> Any:
        return ifcopenshell.api.run(step, *arguments, **named)

    model = call("project.create_file", version="IFC4")
    project = call("root.create_entity", model, ifc_class="IfcProject", name="Rope Works")
    call("unit.assign_unit", model, length={"is_metric": True, "raw": "MILLIMETERS"})
    storey = call("root.create_entity", model, ifc_class="IfcBuildingStorey", name="Level 1")
    call("aggregate.assign_object", model, products=[storey], relating_object=project)
    door = call("root.create_entity", model, ifc_class="IfcDoor", name="D101")
    door.OverallWidth, door.OverallHeight, door.OperationType = width, 2135.0, operation
    call("spatial.assign_container", model, products=[door], relating_structure=storey)
    pset = call("pset.add_pset", model, product=door, name="Pset_DoorCommon")
    call("pset.edit_pset", model, pset=pset, properties=common)
    model.write(str(path))


def _read(tmp_path: Path, operation: str, common: dict[str, Any]) -> Schedule:
    path = tmp_path / "model.ifc"
    _model(path, operation, common)
    return read_schedule(path, facts())


def test_a_door_of_a_model(tmp_path: Path) -> None:
    (door,) = _read(tmp_path, "SINGLE_SWING_LEFT", GYM).doors
    assert (door.number, door.place, door.closer_wanted) == ("D101", "Level 1", True)
    assert door.door_file() == {
        "knuckles": "right",
        "leaves": "single",
        "rated": "yes",
        "rating": "longer",
        "exterior": "no",
        "accessible": "yes",
    }


def test_its_overall_size_is_the_opening_s_and_only_planned_with(tmp_path: Path) -> None:
    (door,) = _read(tmp_path, "SINGLE_SWING_RIGHT", GYM).doors
    assert {"width", "height"}.isdisjoint(door.facts)
    assert door.supposed == {"width": "1010 mm", "height": "2135 mm", "way_out": "yes"}
    assert [one.where.split()[1:] for one in door.questions[:2]] == [
        ["Opening", "width", "[mm]"],
        ["Opening", "height", "[mm]"],
    ]


@pytest.mark.parametrize(
    ("operation", "meant"),
    [
        ("SINGLE_SWING_RIGHT", {"knuckles": "left", "leaves": "single"}),
        ("DOUBLE_SWING_LEFT", {"special": "both-ways"}),
        ("SLIDING_TO_LEFT", {}),
    ],
)
def test_how_it_swings(operation: str, meant: dict[str, str], tmp_path: Path) -> None:
    (door,) = _read(tmp_path, operation, {}).doors
    assert door.door_file() == meant


def test_two_leaves_ask_which_one(tmp_path: Path) -> None:
    (door,) = _read(tmp_path, "DOUBLE_DOOR_SINGLE_SWING", {}).doors
    assert any(one.fact == "leaves" for one in door.questions)


def test_a_model_that_is_cut_off(tmp_path: Path) -> None:
    path = tmp_path / "cut.ifc"
    _model(path, "SINGLE_SWING_LEFT", GYM)
    path.write_bytes(path.read_bytes()[:300])
    with pytest.raises(BadSchedule, match="export it again"):
        read_schedule(path, facts())
