"""One job in inches and the same job in metric: what is shown, spoken and accepted."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.procedure.graph import Graph
from guide.run import replies
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.spoken_prompt import step_aloud, why_aloud
from guide.run.texts import block_words
from guide.words.spoken import language
from tests.run.small_procedures import NOON

CLINIC = """\
procedure: clinic-door
title: The clinic's door
facts:
  width: {length: {from: 20 in, to: 60 in}, ask: How wide is the leaf?, say: How wide?}
  head_room: {length: {from: 60 in, to: 144 in}, ask: How high is the way through?, say: How high?}
  force:
    force: {from: 0 lbf, to: 60 lbf}
    ask: What force opens it?
    say: SAY
    find_out: "The gauge reads {at most 15 lbf} on most doors."
  clear: {worked: clear-width, using: {width: width, hinge: "= butt", opening: "= 90 deg"}}
steps:
  - ask: {id: width, fact: width}
  - work: {id: clear, fact: clear, why: A chair needs it.}
  - check:
      id: head-room
      fact: head_room
      limit: ">= 78 in"
      why: "At least {limit} from the floor."
      otherwise: {steps: [{end: {id: low, outcome: not-started, text: Fetch the foreman.}}]}
  - check:
      id: light
      fact: force
      limit: "<= 5 lbf"
      why: "Indoors at most {limit}."
      otherwise: {steps: [{end: {id: heavy, outcome: not-started, text: Fetch the foreman.}}]}
  - do:
      id: mark
      text: "Mark {1/16 in} off the edge of the {width} leaf."
      say: "Mark {1/16 in} off."
      why: "A fire door swings open with {at most 15 lbf}."
      caution: {notice: "Keep {3/4 in} from the edge."}
  - end: {id: done, outcome: finished, text: Done.}
"""


def clinic(folder: Path, say: str = "Force to open?") -> Graph:
    path = folder / "clinic-door.yaml"
    path.write_text(CLINIC.replace("SAY", say))
    report = check(path)
    assert report.graph is not None, report.findings
    return report.graph


def begin(graph: Graph, units: str) -> Session:
    return Session.begin(MemoryJournal(), graph, device="bench", units=units, clock=lambda: NOON)


def answer(session: Session, *typed: str) -> None:
    for text in typed:
        session.send(replies.answer(session.state, text))


def at_light(graph: Graph, units: str) -> Session:
    session = begin(graph, units)
    answer(session, "36 in")
    session.send(replies.done(session.state))
    answer(session, "80 in")
    return session


def test_a_step_is_shown_in_the_units_of_the_job(tmp_path: Path) -> None:
    shown = {}
    for units in ("inch", "metric"):
        session = at_light(clinic(tmp_path), units)
        answer(session, "4 lbf")
        made = prompt(session.state)
        shown[units] = (made.text, made.say, made.why, made.cautions)
    assert shown["inch"] == (
        "Mark 1/16 in off the edge of the 36 in leaf.",
        "Mark 1/16 in off.",
        "A fire door swings open with at most 15 lbf.",
        [("notice", "Keep 3/4 in from the edge.")],
    )
    assert shown["metric"] == (
        "Mark 1.5 mm off the edge of the about 914 mm (36 in) leaf.",
        "Mark 1.5 mm off.",
        "A fire door swings open with at most 15 lbf (66 N).",
        [("notice", "Keep 19 mm from the edge.")],
    )


def test_the_limit_of_a_check_is_its_own_and_never_rounded_past(tmp_path: Path) -> None:
    session = begin(clinic(tmp_path), "metric")
    answer(session, "915 mm")
    session.send(replies.done(session.state))
    made = prompt(session.state)
    assert made.limit == "at least 78 in (1982 mm)"
    assert made.why == "At least 78 in (1982 mm) from the floor."
    answer(session, "1982 mm")
    made = prompt(session.state)
    assert (made.limit, made.why) == ("at most 5 lbf (22 N)", "Indoors at most 5 lbf (22 N).")
    assert made.find_out == "The gauge reads at most 15 lbf (66 N) on most doors."
    answer(session, "22 N")
    assert prompt(session.state).at == "mark"


def test_what_is_spoken_speaks_the_units_of_the_job(tmp_path: Path) -> None:
    for units, mark, limit in (
        ("inch", "Mark one sixteenth inch off.", "Indoors at most five pounds."),
        (
            "metric",
            "Mark one point five millimeters off.",
            "Indoors at most five pounds, twenty two newtons.",
        ),
    ):
        session = at_light(clinic(tmp_path), units)
        assert limit in why_aloud(session.state, prompt(session.state), language("english"))
        answer(session, "4 lbf")
        assert step_aloud(session.state, prompt(session.state), language("english")).startswith(
            mark
        )


def test_a_number_without_a_unit_is_of_the_unit_of_the_job(tmp_path: Path) -> None:
    session = at_light(clinic(tmp_path), "metric")
    kind, body = replies.answer(session.state, "6")
    assert (kind, body["value"]) == ("answered", "6 N")


def test_a_number_without_a_unit_is_asked_about_where_the_question_names_another_unit(
    tmp_path: Path,
) -> None:
    """“Pounds to open?” and a bare 6 in a metric job: 6 N would pass any limit."""
    session = at_light(clinic(tmp_path, "Pounds to open?"), "metric")
    kind, body = replies.answer(session.state, "6")
    assert kind == "heard"
    assert body["doubt"] == (
        "The question names pounds, and “6” without a unit is 6 N here; is it 6 N?"
    )
    session.send((kind, body))
    session.send(replies.confirm(session.state, yes=False))
    assert prompt(session.state).at == "light"
    kind, body = replies.answer(session.state, "6 lbf")
    assert (kind, body["value"]) == ("answered", "6 lbf")


def test_a_number_without_a_unit_is_echoed_with_the_one_it_was_given(tmp_path: Path) -> None:
    desk = Desk(begin(clinic(tmp_path), "metric"))
    assert desk.answer("915").told == "Accepted as 915 mm."
    desk = Desk(begin(clinic(tmp_path), "inch"))
    assert desk.answer("36 in").told == ""


@pytest.mark.parametrize("typed", ["4", "4 lbf", "18 N"])
def test_it_is_not_asked_where_unit_and_question_agree(tmp_path: Path, typed: str) -> None:
    session = at_light(clinic(tmp_path, "Pounds to open?"), "inch")
    assert replies.answer(session.state, typed)[0] == "answered"


def test_what_is_typed_in_the_other_system_is_shown_in_both_and_kept_exactly(
    tmp_path: Path,
) -> None:
    session = begin(clinic(tmp_path), "inch")
    answer(session, "915 mm")
    width = session.state.graph.facts["width"]
    assert str(session.state.env["width"]) == "915 mm"
    assert width.show(session.state.env["width"], "inch") == "about 36 in (915 mm)"
    assert width.show(session.state.env["width"], "metric") == "915 mm"


def test_the_working_of_a_computation_is_in_the_units_of_the_job_too(tmp_path: Path) -> None:
    session = begin(clinic(tmp_path), "inch")
    answer(session, "915 mm")
    working = prompt(session.state).working
    assert working[0].startswith("Leaf 915 mm (36 in) wide")
    session = begin(clinic(tmp_path), "metric")
    answer(session, "915 mm")
    assert "32 in (813 mm) is required" in prompt(session.state).working[1]


def test_a_list_of_steps_shows_the_units_of_the_job_too(tmp_path: Path) -> None:
    session = at_light(clinic(tmp_path), "metric")
    answer(session, "20 N")
    assert block_words(session.state, session.state.at) == "Mark 1.5 mm off"
