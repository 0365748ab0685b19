"""Worked facts that are parts of one answer: the setting-out of an opening is computed once for all of them."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from guide.procedure.facts import Fact
from guide.procedure.worked_facts import work_out
from guide.trade import registry
from guide.trade.answer import Answer
from guide.trade.computation import Given
from guide.trade.sheet.sheet import Sheet
from tests.trade.shipped_sheets import shipped

SCHOOL_DOOR = {
    "mount": "regular",
    "knuckles": "left",
    "hinge": "butt",
    "opening": "100 deg",
    "room": "fits",
}
PARTS = ("body_along", "body_across", "shoe_along", "shoe_across", "holes_leaf")


def foyer(name: str) -> Sheet:
    """A shipped sheet that calls itself `foyer`."""
    return replace(shipped(name), sheet="foyer")


def told(sheet: Sheet) -> list[str]:
    """The parts of the school door's setting-out by this sheet."""
    facts = [Fact(part, "text", computation="setting-out", part=part) for part in PARTS]
    return [str(work_out(fact, SCHOOL_DOOR, sheet, units="inch")["value"]) for fact in facts]


@pytest.fixture
def computed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The computations that were carried out."""
    names: list[str] = []
    run = registry.run

    def noted(name: str, inputs: Mapping[str, Given]) -> Answer:
        names.append(name)
        return run(name, inputs)

    monkeypatch.setattr(registry, "run", noted)
    return names


def test_the_parts_of_one_setting_out_are_computed_together(computed: list[str]) -> None:
    assert "none" not in told(foyer("generic-a"))
    assert computed == ["setting-out"]


def test_another_sheet_of_the_same_name_is_another_setting_out() -> None:
    sheets = [foyer(name) for name in ("generic-a", "generic-b", "generic-a")]
    by_a, by_b, by_a_again = map(told, sheets)
    assert by_a == by_a_again != by_b
