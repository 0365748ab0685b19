"""What the campaigns of changed answers and of round trips found when they were last run whole."""

from pathlib import Path

HERE = Path(__file__).parent


def figures(name: str) -> dict[str, int]:
    """The lines of a result that end in a number."""
    lines = (HERE / name).read_text("utf-8").splitlines()
    pairs = [line.rpartition(" ") for line in lines]
    return {what: int(number) for what, _, number in pairs if number.isdecimal()}


def test_every_answer_of_a_hundred_scenarios_was_changed_and_every_change_noticed() -> None:
    found = figures("changed_answers.txt")
    assert found["scenarios"] > 100
    assert found["answers changed"] > 1000
    assert (found["not noticed"], found["gone on with otherwise"]) == (0, 0)


def test_sixty_thousand_measures_came_back_as_they_were() -> None:
    found = figures("round_trips.txt")
    assert found["tried"] > 60_000
    assert found["came back otherwise"] == 0


def test_what_is_done_in_turn_was_proved_as_it_runs() -> None:
    lines = (HERE / "soundness_turns.txt").read_text("utf-8").splitlines()
    compared = next(line for line in lines if line.endswith(" compared"))
    assert int(compared.split()[0]) > 400
    assert "disagreements: 0" in lines
