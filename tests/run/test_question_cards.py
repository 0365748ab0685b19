"""A card of questions: what most doors answer and what the schedule says confirmed at once, blanks typed on a line."""

from pathlib import Path

import pytest

from guide.checker.graph_cache import graph_of
from guide.papers.record.answers import answers_data
from guide.plain.line_words import meant
from guide.plain.render import rendered
from guide.procedure.facts import writing
from guide.procedure.graph import Graph
from guide.run import replies
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.outcomes import Refusal
from guide.run.question_card import AS_IT_STANDS, FILL_IN, ONLY_BLANKS
from guide.run.schedule_values import supplied_values
from guide.run.session import Session
from guide.screens.run_view import READ_ON, RunView
from tests.run.desk_hands import kinds, stands

BAKERY = """\
procedure: bakery-door
title: The bakery's door
facts:
  special:
    choice: {ordinary: None of these, lead: Lead-lined, glass: Glass}
    unsure: true
    ask: Is the leaf one of these?
    say: Which leaf?
    find_out: Read the label.
  fire: {yesno: {yes: Fire door, no: Not a fire door}, schedule: true, ask: Is it a fire door?, say: Fire door?}
  arm:
    choice: {plain: Plain arm, hold-open: Hold-open arm}
    ask: Which arm does the closer have?
    say: Which arm?
  wide:
    length: {from: 20 in, to: 60 in, usual: 28 in to 52 in}
    schedule: true
    ask: How wide is the leaf?
    say: How wide?
  high: {length: {from: 60 in, to: 99 in}, ask: How high is the leaf?, say: How high?}
  twice: {times: [wide, 2]}
  along: {length: {from: 0 in, to: 30 in}, ask: "Measured again, how far along?", say: Along?}
  down: {length: {from: 0 in, to: 30 in}, ask: "Measured again, how far down?", say: Down?}
  home: {yesno: {yes: Every time, no: Not every time}, ask: Does it latch every time?, say: Every time?}
  room: {length: {from: 60 in, to: 99 in}, ask: How high above the floor is the closer?, say: Room?}
steps:
  - check:
      id: special-leaf
      fact: special
      limit: ordinary
      expects: ordinary
      card: First
      hazards: [lead-paint]
      otherwise: {steps: [{end: {id: not-this-leaf, outcome: not-started, text: Drill nothing.}}]}
  - ask: {id: fire-door, fact: fire, card: First}
  - ask: {id: which-arm, fact: arm, expects: plain, card: First}
  - end: {id: no-hold-open, when: {fire: yes, arm: hold-open}, outcome: not-started, text: Not on a fire door.}
  - do: {id: barrier, text: Put up a barrier., card: The leaf}
  - do: {id: ladder, text: Look at the ladder., card: The leaf, hazards: [ladder]}
  - ask: {id: how-wide, fact: wide, card: The leaf}
  - work: {id: both-leaves, when: {fire: no}, fact: twice, text: "Both leaves: {twice}."}
  - ask: {id: how-high, fact: high, card: The leaf}
  - do: {id: mark-it, text: Mark the body.}
  - repeat:
      id: measured
      at_most: 3
      until: {along: "= 7 in"}
      steps:
        - ask: {id: how-far-along, fact: along, blind: [wide], card: Again}
        - ask: {id: how-far-down, fact: down, blind: [wide], card: Again}
      otherwise: {steps: [{end: {id: never-right, outcome: made-safe, text: Fetch the foreman.}}]}
  - repeat:
      id: last-swings
      at_most: 3
      until: {home: yes}
      steps:
        - ask: {id: every-time, fact: home, expects: yes, card: Last}
        - do: {id: faster, when: {home: no}, text: Latch valve an eighth faster.}
      otherwise: {steps: [{end: {id: not-fit, outcome: made-safe, text: Fetch the foreman.}}]}
  - check:
      id: head-room
      fact: room
      card: Last
      limit: ">= 78 in"
      why: At least 78 in.
      otherwise: {steps: [{do: {id: report, text: Tell the foreman.}}]}
  - end: {id: done, outcome: finished}
"""


@pytest.fixture
def bakery(tmp_path: Path) -> Graph:
    (tmp_path / "bakery-door.yaml").write_text(BAKERY)
    return graph_of(tmp_path / "bakery-door.yaml")


def began(graph: Graph, **supplied: str) -> Session:
    values = supplied_values(graph, supplied, "inch")
    return Session.begin(MemoryJournal(), graph, device="bench", units="inch", supplied=values)


def gone_to(graph: Graph, place: str, detail: str = "cards", **supplied: str) -> Desk:
    """The desk of a run that has been answered one by one as far as a block."""
    desk = Desk(began(graph, **supplied), detail)
    usual = {"special": "ordinary", "fire": "no", "arm": "plain", "wide": "36 in", "high": "84 in"}
    usual |= {"along": "7 in", "down": "2 in", **supplied}
    while stands(desk.session) != place:
        state = desk.session.state
        asked = state.node.body.get("fact", "")
        draft = replies.answer(state, usual[asked]) if asked in usual else replies.done(state)
        desk.send(draft)
    return desk


def lines(desk: Desk) -> list[str]:
    return [line.text for line in desk.shown.card_lines]


def test_what_is_expected_and_what_the_schedule_says_stand_on_one_card(bakery: Graph) -> None:
    desk = Desk(began(bakery, fire="no"))
    assert (desk.shown.card, desk.shown.text) == ("First", AS_IT_STANDS)
    assert lines(desk) == [
        "Is the leaf one of these? None of these (else: Lead-lined; Glass)",
        "Fire door? Not a fire door (the schedule)",
        "Which arm does the closer have? Plain arm (else: Hold-open arm)",
    ]
    assert "WARNING: " in " ".join(rendered(desk.shown, desk.accepts, "full"))
    assert "Which leaf? Read the label." in " ".join(rendered(desk.shown, desk.accepts, "full"))


def test_what_the_schedule_alone_says_of_the_first_two_stands_there_once(bakery: Graph) -> None:
    desk = gone_to(bakery, "fire-door", fire="no")
    assert lines(desk)[0] == "Fire door? Not a fire door (the schedule)"
    assert len(lines(desk)) == 2


def test_one_answer_says_all_of_it_and_each_question_keeps_its_own(bakery: Graph) -> None:
    desk = Desk(began(bakery, fire="no"))
    assert isinstance(desk.command("done"), Refusal)
    assert isinstance(desk.command("yes"), Refusal)  # to which of the three?
    assert kinds(desk.session) == ["started"]
    desk.pick(0)
    assert stands(desk.session) == "barrier"
    events = desk.session.journal.events()[1:]
    assert [(event.body["at"], event.body["value"]) for event in events] == [
        ("special-leaf", "ordinary"),
        ("fire-door", "no"),
        ("which-arm", "plain"),
    ]
    taken = answers_data(desk.session.state, desk.session.journal.events())
    assert [one["how"] for one in taken] == ["together", "schedule", "together"]


def test_not_all_of_it_asks_one_by_one(bakery: Graph) -> None:
    desk = Desk(began(bakery, fire="no"))
    desk.pick(1)
    assert kinds(desk.session) == ["started"]
    assert desk.shown.text == "Is the leaf one of these?"
    desk.answer("ordinary")
    assert (desk.shown.at, desk.shown.asked) == ("fire-door", ())
    desk.answer("no")
    desk.answer("hold-open")
    assert stands(desk.session) == "barrier"
    taken = answers_data(desk.session.state, desk.session.journal.events())
    assert [one["how"] for one in taken] == ["keyed", "schedule", "keyed"]


def test_a_blank_is_typed_and_says_that_the_rest_is_so(bakery: Graph) -> None:
    desk = Desk(began(bakery), "cards")
    assert desk.shown.text == FILL_IN
    assert lines(desk)[1] == "Is it a fire door? ____\n    1 Fire door\n    2 Not a fire door"
    desk.enter("2")
    known = {at[0]: writing(one.value) for at, one in desk.session.state.answers.items()}
    assert list(known.values()) == ["ordinary", "no", "plain"]


@pytest.mark.parametrize("typed", ["", "3", "oak", "2, 2"])
def test_what_is_no_answer_to_the_blank_answers_nothing(bakery: Graph, typed: str) -> None:
    desk = Desk(began(bakery), "cards")
    assert isinstance(desk.enter(typed), Refusal)
    assert kinds(desk.session) == ["started"]


def test_no_to_a_card_is_never_taken_for_the_answer_to_its_blank(bakery: Graph) -> None:
    desk = Desk(began(bakery), "cards")
    assert meant(desk, "no").command == "no"
    desk.command("no")
    assert kinds(desk.session) == ["started"]
    assert desk.shown.text == "Is the leaf one of these?"


def test_a_card_ends_where_a_blank_decides_how_the_job_goes_on(bakery: Graph) -> None:
    desk = gone_to(bakery, "how-wide")  # the next result is of the width
    assert desk.shown.asked == ()


def test_steps_stand_above_their_questions_and_results_between(bakery: Graph) -> None:
    desk = gone_to(bakery, "barrier", wide="36 in")
    assert lines(desk) == [
        "Put up a barrier.",
        "Look at the ladder.",
        "How wide? 36 in (the schedule)",
        "Both leaves: 72 in.",
        "How high is the leaf? ____",
    ]
    desk.enter("84")
    assert stands(desk.session) == "mark-it"
    passed = ["barrier", "ladder", "how-wide", "both-leaves", "how-high"]
    assert desk.session.state.route()[-5:] == passed


@pytest.mark.parametrize(
    ("detail", "asks"), [("full", "How wide is the leaf?"), ("cards", ONLY_BLANKS)]
)
def test_several_blanks_stand_together_only_for_a_practised_fitter(
    bakery: Graph, detail: str, asks: str
) -> None:
    desk = gone_to(bakery, "how-wide", detail, fire="yes")
    assert desk.shown.text == asks


@pytest.mark.parametrize("typed", ["36, 84", "36,84", "36 in; 84 in", "3 ft, 84 in"])
def test_several_blanks_are_typed_on_one_line(bakery: Graph, typed: str) -> None:
    desk = gone_to(bakery, "how-wide", fire="yes")
    desk.enter(typed)
    assert stands(desk.session) == "mark-it"


def test_an_unusual_value_is_read_back_and_the_rest_is_asked_after_it(bakery: Graph) -> None:
    desk = gone_to(bakery, "how-wide", fire="yes")
    desk.enter("24, 84")
    assert desk.accepts.kind == "read-back"
    desk.command("yes")
    assert stands(desk.session) == "how-high"
    assert desk.shown.asked == ()


def test_blind_questions_hide_what_was_read_before_on_the_whole_card(bakery: Graph) -> None:
    desk = gone_to(bakery, "how-far-along")
    assert lines(desk) == [
        "Measured again, how far along? ____",
        "Measured again, how far down? ____",
    ]
    desk.enter("6 1/2, 2")
    assert stands(desk.session) == "how-far-along#2"
    assert desk.session.state.hidden >= {"along", "down", "wide"}
    desk.command("back")
    desk.command("forward")
    desk.enter("7, 2")
    assert [one.body.get("looked") for one in desk.session.journal.events()[-2:]] == [True, True]


def test_the_last_checks_of_a_loop_stand_with_what_follows_it(bakery: Graph) -> None:
    desk = gone_to(bakery, "every-time")
    assert lines(desk) == [
        "Does it latch every time? Every time (else: Not every time)",
        "How high above the floor is the closer? (at least 78 in) ____",
    ]
    desk.enter("77")
    assert stands(desk.session) == "report"


@pytest.mark.parametrize(("detail", "aloud"), [("spoken", False), ("full", True), ("cards", True)])
def test_by_voice_and_in_short_words_each_is_asked_by_itself(
    bakery: Graph, detail: str, aloud: bool
) -> None:
    desk = Desk(began(bakery, fire="no"), detail)
    desk.aloud = aloud
    assert desk.shown.text == "Is the leaf one of these?"


def test_in_the_app_nothing_is_typed_or_picked_before_the_end_was_seen(bakery: Graph) -> None:
    view = RunView(began(bakery), "cards")
    view.read_through = False
    assert not view.takes("2")
    for key in ("2", "enter", "y"):
        view.press(key, key if len(key) == 1 else None)
        assert (view.message, view.text) == (READ_ON, "")
    view.read_through = True
    view.write("2")
    view.press("enter")
    assert stands(view.session) == "barrier"


def test_in_the_app_n_asks_one_by_one_and_w_tells_the_long_words(bakery: Graph) -> None:
    view = RunView(began(bakery, fire="no"))
    assert not view.tells_long
    view.press("w", "w")
    assert view.tells_long
    view.pick(1)
    assert view.desk.shown.text == "Is the leaf one of these?"
    assert view.tells_long


def test_an_answer_that_is_changed_later_is_changed_alone(bakery: Graph) -> None:
    desk = Desk(began(bakery, fire="no"))
    desk.pick(0)
    desk.command("back")
    desk.command("change")
    desk.answer("hold-open")
    assert stands(desk.session) == "barrier"
    assert desk.session.state.known("arm") == "hold-open"
