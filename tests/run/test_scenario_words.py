"""A scenario may expect words at a step, and try a cut that the run has not come to."""

from typing import Any

import pytest

from guide.procedure.scenario_file import ScenarioShape
from guide.run.rehearse import Rehearsal, rehearse
from tests.run.small_procedures import small


def rehearsed(answers: list[dict[str, str]], **must_show: Any) -> Rehearsal:
    scenario = ScenarioShape.model_validate(
        {
            "scenario": "one-leaf",
            "procedure": "one-leaf",
            "answers": answers,
            "must_show": {"end": "open", **must_show},
        }
    )
    return rehearse(scenario, small("one-leaf"))


WIDTH = {"at": "width-here", "value": "36 in"}
SQUARE = {"at": "square-yet", "value": "yes"}
HOLD = {"at": "before-drill", "hold": "yes"}
EARLY = {"at": "drill", "early": "cut"}


@pytest.mark.parametrize(
    ("at", "has", "met"),
    [
        ("mark", "Mark 12 degrees at 7 1/2 in", True),
        ("mark", "Mark 21 degrees", False),
        ("drill", ["Drill this", "36 in leaf."], True),
        ("drill", ["Drill this", "34 in leaf."], False),
        ("before-drill", "36 in", True),
        ("new-pencil", "Take a new pencil", False),
    ],
)
def test_words_at_a_step(at: str, has: str | list[str], met: bool) -> None:
    found = rehearsed([WIDTH, SQUARE, HOLD], words=[{"at": at, "has": has}])
    assert found.met is met, found.differences
    if not met:
        wanted = has[-1] if isinstance(has, list) else has
        assert f"At “{at}” it shows" in found.differences[0]
        assert f"“{wanted}” was expected" in found.differences[0]


def test_a_cut_before_its_hold_is_refused() -> None:
    found = rehearsed([WIDTH, EARLY, SQUARE, EARLY, HOLD])
    assert found.differences == []
    assert found.session is not None
    assert found.session.state.open_cut() is None


def test_a_cut_that_the_run_stands_at_is_not_early() -> None:
    found = rehearsed([WIDTH, SQUARE, HOLD, EARLY])
    assert found.differences == ["The run stands at “drill” already; that is not early."]


def test_what_does_not_cut_cannot_be_cut_early() -> None:
    for at in ("mark", "drillhole"):
        found = rehearsed([WIDTH, {"at": at, "early": "cut"}])
        assert found.differences[0] == f"“{at}” does not cut, so it cannot be cut early."


def test_a_run_that_lets_a_cut_begin_early_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("guide.run.rehearse.Player.send", lambda self, draft: None)
    found = rehearsed([EARLY])
    assert "“drill” was begun early, and the run did not refuse it." in found.differences
