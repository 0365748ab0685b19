"""The count of prompts counts what a person answers, and four jobs stay short."""

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
  locked: {yesno: {yes: {label: It is, say: "yes"}, no: {label: Open, say: "no"}}, ask: Is it locked?, say: Locked?}
steps:
  - ask: {id: gate, fact: locked, expects: no, card: Round the shed}
  - ask: {id: wind-now, fact: wind, expects: no, card: Round the shed}
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
  - {at: gate, value: no}
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
    # both questions, sheet and wedge, open, the swing, the end
    assert shed(tmp_path, "no") == Prompts(full=6, cards=5)
    # “not all of it” and each question, and the gate on the same card as sheet and wedge
    assert shed(tmp_path, "yes") == Prompts(full=9, cards=7)


@pytest.mark.parametrize(
    ("name", "full", "cards"),
    [
        ("adjust-one-valve", 20, 12),
        ("cloakroom-by-schedule", 33, 16),
        ("cloakroom-prepared", 41, 19),
        ("demo", 64, 32),
    ],
)
def test_these_jobs_stay_as_short_as_they_are(name: str, full: int, cards: int) -> None:
    scenario = load_scenario(find("scenario", name))
    found = counted(scenario, graph_of(find("procedure", scenario.procedure)))
    assert found.full <= full
    assert found.cards <= cards
