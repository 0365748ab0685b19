"""Earlier blocks looked at again: each shows what was said there then, not what is known by now."""

import pytest

from guide.run.prompt import Prompt, prompt
from guide.run.state import State, occurrence_of
from tests.run.shipped_runs import carried_shipped


def carried_through(name: str) -> State:
    found, _ = carried_shipped(name)
    assert found.session is not None
    return found.session.state


def seen_again(state: State, block: str) -> Prompt:
    at = occurrence_of(state.graph, block)
    assert at is not None
    return prompt(state, at)


@pytest.mark.parametrize(
    "name",
    [
        "adjust-office-door",  # three tests, a backcheck too soft and then right
        "adjust-more-spring",
        "refuse-marks-never-right",  # marks read back round after round
        "museum-slow-valve",
        "music-room-wrong-hand",  # answers changed on the way
        "inspect-hold-open-uk",
        "replace-stripped-leaf",
    ],
)
def test_every_block_of_a_job_can_be_looked_at_again(name: str) -> None:
    state = carried_through(name)
    for at in state.path:
        if state.graph.nodes[at[0]].seen:
            assert prompt(state, at).text


def test_a_turn_told_after_one_test_is_shown_as_it_was_told_then() -> None:
    state = carried_through("adjust-office-door")
    after_first = seen_again(state, "tune/turn-now#2")
    after_second = seen_again(state, "tune/turn-now#3")
    at_last = seen_again(state, "tune/tuned")
    assert after_first.text.startswith("Sweep valve: half a turn by the label (slower).")
    assert after_first.working[0].startswith("It slams: less speed at the latch.")
    assert any("took 4.7 s" in line for line in after_second.working)
    assert at_last.text == "Turn nothing more: all is within limits."


def test_a_computed_value_whose_inputs_have_changed_since_is_the_one_of_then() -> None:
    """The backcheck was too soft and is right by now, for which nothing was ever computed."""
    state = carried_through("adjust-office-door")
    assert state.known("cushion_turn") is None
    again = seen_again(state, "tune/turn-backcheck")
    assert again.text == "Backcheck valve: a quarter turn by the label (firmer)."
    assert "…" not in again.say


def test_a_check_of_a_computed_value_says_what_it_found() -> None:
    """Nobody is asked for it, so it has no question of its own to show."""
    again = seen_again(carried_through("adjust-office-door"), "hand-over/no-rule-broken")
    assert again.text == "May leave: yes."
