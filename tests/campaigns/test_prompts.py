"""The count of prompts counts what a person answers, and three jobs stay short."""

from pathlib import Path

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.scenario_file import load_scenario
from tests.campaigns.prompts import Prompts, counted

SHED = """\
procedure: shed-door
title: The shed's door
facts:
  to_mark: {time: {from: 1 s, to: 20 s}, ask: How long to the mark?, say: To the mark?}
  to_shut: {time: {from: 1 s, to: 20 s}, ask: How long from mark to shut?, say: To shut?}
  wind: {yesno: {yes: {label: Windy, say: "yes"}, no: {label: Still, say: "no"}}, ask: Is it windy?, say: Windy?}
steps:
  - ask: {id: wind-now, fact: wind}
  - do: {id: sheet, text: Lay the dust sheet., card: Setting up}
  - do: {id: shut-the-gate, when: {wind: yes}, text: Shut the gate., card: Setting up}
  - do: {id: wedge, text: Wedge the leaf., card: Setting up}
  - do: {id: open, text: Open it wide.}
  - time: {id: first, fact: to_mark, same_swing: second, text: Time it to the mark.}
  - time: {id: second, fact: to_shut, text: Time it to shut.}
  - end: {id: done, outcome: finished}
"""
WALK = """\
scenario: shed
procedure: shed-door
units: inch
sheet: none
answers:
  - {at: wind-now, value: WIND}
  - {at: first, value: 5 s}
  - {at: second, value: 2 s}
  - {at: second, note: It latched softly.}
"""


def shed(tmp_path: Path, wind: str) -> Prompts:
    (tmp_path / "shed-door.yaml").write_text(SHED)
    (tmp_path / "shed.yaml").write_text(WALK.replace("WIND", wind))
    return counted(load_scenario(tmp_path / "shed.yaml"), graph_of(tmp_path / "shed-door.yaml"))


def test_a_card_and_a_swing_of_two_times_are_one_prompt_each_and_a_note_is_none(
    tmp_path: Path,
) -> None:
    # the question, sheet and wedge, open, the swing, the end
    assert shed(tmp_path, "no") == Prompts(full=6, cards=5)
    # and the gate between, on the same card
    assert shed(tmp_path, "yes") == Prompts(full=7, cards=5)


@pytest.mark.parametrize(
    ("name", "full", "cards"),
    [("adjust-one-valve", 26, 17), ("cloakroom-by-schedule", 39, 23), ("demo", 73, 52)],
)
def test_these_jobs_stay_as_short_as_they_are(name: str, full: int, cards: int) -> None:
    scenario = load_scenario(find("scenario", name))
    found = counted(scenario, graph_of(find("procedure", scenario.procedure)))
    assert found.full <= full
    assert found.cards <= cards
