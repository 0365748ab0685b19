"""The rules that a run began with: in its journal, in its verdict, and in its record."""

import json

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.papers.record import record_data, record_text
from guide.procedure.scenario_file import load_scenario
from guide.run.rehearse import Rehearsal, rehearse
from guide.run.step import fold


def carried_through(name: str) -> Rehearsal:
    scenario = load_scenario(find("scenario", name))
    return rehearse(scenario, graph_of(find("procedure", scenario.procedure)))


@pytest.mark.parametrize(
    ("scenario", "rules", "end", "first"),
    [
        (
            "adjust-sea-front",
            "us",
            "finished",
            "No rule fails. The authority decides: opening force.",
        ),
        (
            "adjust-sea-front-uk",
            "uk",
            "made-safe",
            "Fails: opening force to 60 deg.",
        ),
    ],
)
def test_one_door_by_the_rules_of_two_countries(
    scenario: str, rules: str, end: str, first: str
) -> None:
    """52 N opens the sea-front door: no limit in the ADA Standards outdoors, over the 30 N of BS 8300.

    There the spring is softened first; 26 N past 30 degrees is still over the 22.5 N.
    """
    found = carried_through(scenario)
    assert found.session is not None
    events = found.session.journal.events()
    assert events[0].body["about"]["rules"] == rules
    assert found.session.state.ended == end
    assert record_data(found.session.state, events)["rules"][0].startswith(first)
    text = record_text(found.session.state, events)
    assert "Rules on the final readings" in text
    assert "2010 ADA Standards 404.2.9" in text or "BS 8300 and Approved Document M" in text


def test_the_verdict_is_read_from_the_journal_and_never_worked_again() -> None:
    """What was worked stands in the journal: rules that change later do not move it."""
    found = carried_through("adjust-sea-front-uk")
    assert found.session is not None
    events = found.session.journal.events()
    again = fold(events)
    assert str(again.known("verdict")) == "fail"
    held = [event for event in events if event.body.get("fact") == "verdict"]
    assert "30 N" in json.dumps(held[-1].body["working"])


@pytest.mark.parametrize(
    ("scenario", "end", "verdict", "first"),
    [
        ("adjust-garden-door-uk", "finished", "pass", "No rule fails."),
        (
            "adjust-records-room-eu",
            "made-safe",
            "fail",
            "Fails: size for the width, size on a fire",
        ),
        ("inspect-hold-open-uk", "finished", "fail", "Fails: size for the width, size on a fire"),
        ("inspect-stair-door", "finished", "decide", "No rule fails. The authority decides"),
        ("inspect-pair-fails", "found", "fail", "Fails: closes and latches."),
    ],
)
def test_what_european_rules_ask_beside_is_asked_and_settles_it(
    scenario: str, end: str, verdict: str, first: str
) -> None:
    """A second force and the size of the spring close what would else stay open; a yearly check is held too."""
    found = carried_through(scenario)
    assert found.session is not None
    state = found.session.state
    assert state.ended == end
    assert str(state.known("verdict")) == verdict
    assert record_data(state, found.session.journal.events())["rules"][0].startswith(first)
