"""`work tune --stream`: readings in, advice out, until the door is right or cannot be made so."""

import json

import pytest

from tests.cli.program import hingeside

DOOR = ("work", "tune", "width=36 in", "mount=regular", "size=3")


def told(first: float | None, last: float | None, **more: object) -> str:
    return json.dumps(
        {"s_90_12": first, "s_12_0": last, "latched": last is not None, "slammed": False, **more}
    )


def test_one_answer_a_line_until_it_is_done() -> None:
    lines = (told(3.0, 1.5, open_force="8 lbf"), "", told(6.0, 1.5), told(6.0, 1.5))
    outcome = hingeside(*DOOR, "limit=15 lbf", "--stream", lines=lines)
    answers = [json.loads(line) for line in outcome.out.splitlines()]
    assert outcome.status == 0
    assert [answer["done"] for answer in answers] == [False, True]
    assert answers[0]["moves"] == [{"part": "sweep", "direction": "slower", "quarter_turns": 2}]
    assert set(answers[0]) == {"moves", "done", "impossible", "reason"}


def test_a_spring_is_told_in_half_sizes_and_an_end_ends_the_stream() -> None:
    lines = [told(6.0, 1.5, open_force="8 lbf")] * 3
    outcome = hingeside(*DOOR[:-1], "size=1.5", "limit=5 lbf", "--stream", lines=lines)
    first, last = (json.loads(line) for line in outcome.out.splitlines())
    assert first["moves"] == [{"part": "spring", "direction": "weaker", "half_sizes": 1}]
    assert last["impossible"]
    assert not last["moves"]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("{", "is not JSON; write one object a line"),
        ('{"s_90_12": 6}', "The reading lacks s_12_0, latched, slammed"),
        (told(6.0, 1.5, open_force=22), "open_force must be text with its unit"),
        (told(6.0, 1.5, slammed="no"), "slammed must be true or false"),
    ],
)
def test_a_reading_that_cannot_be_read_ends_it_with_a_sentence(line: str, says: str) -> None:
    outcome = hingeside(*DOOR, "--stream", lines=[line])
    assert (outcome.status, outcome.out) == (2, "")
    assert says in outcome.err


def test_readings_may_be_given_several_times_but_nothing_else() -> None:
    outcome = hingeside(*DOOR, "reading=3,1.5,yes,no", "reading=6,1.5,yes,no", "--json")
    assert json.loads(outcome.out)["value"]["done"] is True
    twice = hingeside(*DOOR, "width=40 in", "reading=6,1.5,yes,no")
    assert twice.status == 2
    assert "“width” is given twice" in twice.err
    elsewhere = hingeside("work", "chord", "width=36 in", "angle=12 deg", "--stream")
    assert elsewhere.status == 2
