"""`work tune --stream`: readings in, advice out, until the door is right or cannot be made so."""

import json

import pytest

from tests.cli.program import hingeside, started

DOOR = ("work", "tune", "width=36 in", "mount=regular", "size=3")


def told(first: float | None, last: float | None, **more: object) -> str:
    return json.dumps(
        {
            "s_90_12": first,
            "s_12_0": last,
            "latched": last is not None,
            "slammed": False,
            "from_near": True,
            **more,
        }
    )


def test_one_answer_a_line_until_it_is_done() -> None:
    lines = (told(3.0, 1.5, open_force="8 lbf"), "", told(6.0, 1.5), told(6.0, 1.5))
    outcome = started(*DOOR, "limit=15 lbf", "--stream", lines=lines)
    answers = [json.loads(line) for line in outcome.out.splitlines()]
    assert outcome.status == 0
    assert [answer["done"] for answer in answers] == [False, True]
    assert answers[0]["moves"] == [{"part": "sweep", "direction": "slower", "quarter_turns": 2}]
    assert answers[0]["text"] == "Sweep valve: half a turn by the label (slower)."
    assert answers[0]["reason"] == "90 to 12 degrees took 3.0 s, and 5 s is the least we aim at."
    assert answers[1]["outcome"] == "finished"


def test_a_leaf_let_go_from_90_degrees_alone_is_asked_for_from_near_before_it_is_done() -> None:
    """The worst of 90, 45 and 10 degrees counts: `from_near`."""
    wide = told(6.0, 1.5, from_near=False)
    outcome = hingeside(*DOOR, "--stream", lines=(wide, told(6.0, 1.5)))
    first, last = (json.loads(line) for line in outcome.out.splitlines())
    assert (first["done"], first["moves"]) == (False, [])
    assert first["text"] == "Turn nothing, and let it go from 45 and from 10 degrees too."
    assert last["done"]


def test_a_force_a_little_over_the_limit_at_the_weakest_spring_is_left_to_do() -> None:
    """`impossible`, since no turn of a screw cures it, and yet the job is finished."""
    outcome = hingeside(
        *DOOR[:-1],
        "size=1",
        "limit=5 lbf",
        "--stream",
        lines=[told(6.0, 1.5, open_force="5.4 lbf")],
    )
    (answer,) = (json.loads(line) for line in outcome.out.splitlines())
    assert (answer["outcome"], answer["done"], answer["impossible"]) == ("left-to-do", False, True)


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
        (told(6.0, 1.5, from_near="yes"), "from_near must be true or false"),
    ],
)
def test_a_reading_that_cannot_be_read_ends_it_with_a_sentence(line: str, says: str) -> None:
    outcome = hingeside(*DOOR, "--stream", lines=[line])
    assert (outcome.status, outcome.out) == (2, "")
    assert says in outcome.err


def test_readings_may_be_given_several_times_but_nothing_else() -> None:
    outcome = hingeside(*DOOR, "reading=3,1.5,yes,no", "reading=6,1.5,yes,no,-,yes", "--json")
    assert json.loads(outcome.out)["value"]["done"] is True
    twice = hingeside(*DOOR, "width=40 in", "reading=6,1.5,yes,no")
    assert twice.status == 2
    assert "“width” is given twice" in twice.err
    elsewhere = hingeside("work", "chord", "width=36 in", "angle=12 deg", "--stream")
    assert elsewhere.status == 2
