"""Everything that is shipped can be used: procedures, sheets and scenarios, each by its name."""

import json
from pathlib import Path

import pytest

from guide.checker.check import check
from guide.files.library import catalogue, find
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import load_scenario
from guide.trade.sheet.sheet import Sheet
from tests.trade.shipped_sheets import load_sheet


def shipped(kind: str) -> list[str]:
    return [entry.name for entry in catalogue(kind) if not entry.own]


def test_something_of_every_kind_is_shipped() -> None:
    assert "fit-surface-closer" in shipped("procedure")
    assert "generic-a" in shipped("sheet")
    assert "demo" in shipped("scenario")


@pytest.mark.parametrize("name", shipped("procedure"))
def test_a_shipped_procedure_has_no_error(name: str) -> None:
    report = check(find("procedure", name))
    assert [finding for finding in report.findings if finding.level == "error"] == []
    if report.graph is None:
        assert report.loaded.facts_only
        return
    assert report.graph.name == name
    again = Graph.from_json(json.loads(json.dumps(report.graph.to_json())))
    assert again.to_json() == report.graph.to_json()


@pytest.mark.parametrize("name", shipped("sheet"))
def test_a_shipped_sheet_can_be_read(name: str) -> None:
    sheet = load_sheet(find("sheet", name))
    assert sheet.sheet == name
    assert "Never drill from this sheet" in sheet.about
    assert Sheet.from_json(json.loads(json.dumps(sheet.to_json()))) == sheet


@pytest.mark.parametrize("name", shipped("scenario"))
def test_a_shipped_scenario_can_be_read_and_names_what_there_is(name: str) -> None:
    scenario = load_scenario(find("scenario", name))
    assert scenario.scenario == name
    assert find("procedure", scenario.procedure).is_file()
    if scenario.sheet != "none":
        assert load_sheet(find("sheet", scenario.sheet)).sheet == Path(scenario.sheet).stem
