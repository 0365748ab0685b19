"""A card: steps shown together with every caution of theirs once, and the schedule's values accepted together."""

from pathlib import Path

import pytest

from guide.checker.graph_cache import graph_of
from guide.plain.render import rendered
from guide.procedure.facts import WrongAnswer
from guide.procedure.graph import Graph
from guide.run import replies
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.schedule_values import supplied_values
from guide.run.session import Session
from guide.screens.run_view import READ_ON, RunView
from tests.run.desk_hands import kinds, stands

CHAPEL = """\
procedure: chapel-door
title: The chapel's door
facts:
  fire: {yesno: {yes: Fire door, no: Not a fire door}, schedule: true, ask: Is it a fire door?, say: Fire door?}
  wide: {length: {from: 20 in, to: 60 in}, schedule: true, ask: How wide is the leaf?, say: How wide?}
  wind: {yesno: {yes: Windy, no: Still}, ask: Is it windy?, say: Windy?}
steps:
  - ask: {id: fire-door, fact: fire}
  - end: {id: not-this-one, when: {fire: yes}, outcome: not-started, text: Not a fire door.}
  - ask: {id: how-wide, fact: wide}
  - ask: {id: windy, fact: wind}
  - do: {id: climb, text: Set up the ladder., hazards: [ladder], card: Up there}
  - do: {id: shelter, when: {wind: yes}, text: Hang the sheet., hazards: [ladder], card: Up there}
  - do: {id: ease, text: Ease the spring., hazards: [spring, ladder, hold-open-wiring], card: Up there}
  - do: {id: oil-it, text: Oil the joint., hazards: [spring, hold-open-wiring], card: Up there}
  - end: {id: done, outcome: finished}
"""
LADDER = ("warning", "Three points of contact while you climb; keep off the top step.")
SPRING = ("warning", "The spring is strong: keep fingers clear of the arm and its elbow.")
WIRES = ("danger", "A holder's wires may be live: touch none until its supply is switched off.")


@pytest.fixture
def chapel(tmp_path: Path) -> Graph:
    (tmp_path / "chapel-door.yaml").write_text(CHAPEL)
    return graph_of(tmp_path / "chapel-door.yaml")


def began(graph: Graph, **supplied: str) -> Session:
    values = supplied_values(graph, supplied, "inch")
    return Session.begin(MemoryJournal(), graph, device="bench", units="inch", supplied=values)


def up_there(graph: Graph, wind: str) -> Session:
    session = began(graph)
    for answer in ("no", "36 in", wind):
        session.send(replies.answer(session.state, answer))
    return session


@pytest.mark.parametrize(("wind", "steps"), [("yes", 4), ("no", 3)])
def test_a_card_goes_past_what_is_decided_and_shows_each_caution_once(
    chapel: Graph, wind: str, steps: int
) -> None:
    session = up_there(chapel, wind)
    made = prompt(session.state)
    assert len(made.card_lines) == steps
    assert made.card_cautions == [WIRES, LADDER, SPRING]
    lines = " ".join(rendered(made, made.accepts, "cards"))
    assert lines.count("DANGER") == 1
    assert lines.count("Three points") == 1


def test_step_by_step_a_caution_is_not_repeated_on_the_same_card_but_a_danger_is(
    chapel: Graph,
) -> None:
    session = up_there(chapel, "yes")
    shown = []
    for _ in range(4):
        shown.append(prompt(session.state).cautions)
        session.send(replies.done(session.state))
    assert shown == [[LADDER], [], [WIRES, SPRING], [WIRES]]


def test_what_the_schedule_says_is_accepted_together_on_a_card(chapel: Graph) -> None:
    session = began(chapel, fire="no", wide="36 in")
    made = prompt(session.state)
    assert [line.text for line in made.card_lines] == [
        "Fire door? Not a fire door",
        "How wide? 36 in",
    ]
    assert (
        "Enter accepts all of these (the schedule). Another answer changes the first."
        in " ".join(rendered(made, made.accepts, "cards"))
    )
    desk = Desk(session, "cards")
    desk.command("done", "")
    assert stands(session) == "windy"
    assert kinds(session) == ["started", "answered", "answered"]


def test_an_answer_given_on_that_card_is_for_the_first_and_the_rest_is_still_asked(
    chapel: Graph,
) -> None:
    session = began(chapel, fire="no", wide="36 in")
    session.send(replies.answer(session.state, "no"))
    assert stands(session) == "how-wide"
    assert prompt(session.state).card_lines == []


def test_the_card_ends_where_the_schedules_values_lead_to_an_end(chapel: Graph) -> None:
    session = began(chapel, fire="yes", wide="52 in")
    assert [line.at for line in prompt(session.state).card_lines] == []


@pytest.mark.parametrize(
    ("detail", "next_one"), [("cards", "windy"), ("full", "windy"), ("spoken", "how-wide")]
)
def test_only_in_short_words_is_each_of_the_schedules_values_accepted_by_itself(
    chapel: Graph, detail: str, next_one: str
) -> None:
    session = began(chapel, fire="no", wide="36 in")
    Desk(session, detail).command("done", "")
    assert stands(session) == next_one


VESTRY = """\
procedure: vestry-door
title: The vestry's door
facts:
  free: {yesno: {yes: Free, no: Tight}, ask: Does the leaf swing free?, say: Free?}
  drop: {length: {from: 0 in, to: 4 in, usual: 0 in to 1 in}, ask: How far does it drop?, say: How far?}
steps:
  - do: {id: hinges, text: Look at the hinges., card: First look, hazards: [ladder]}
  - do: {id: floor, text: Look at the floor., card: First look}
  - repeat:
      id: eased
      at_most: 2
      until: {free: yes}
      steps:
        - ask: {id: swings, fact: free, card: First look, hazards: [spring]}
      otherwise: {steps: [{end: {id: tight, outcome: not-started, text: It stays tight.}}]}
  - do: {id: mark-it, text: Mark the latch edge., card: The drop}
  - ask: {id: how-far, fact: drop, card: The drop}
  - end: {id: done, outcome: finished}
"""


@pytest.fixture
def vestry(tmp_path: Path) -> Session:
    (tmp_path / "vestry-door.yaml").write_text(VESTRY)
    return began(graph_of(tmp_path / "vestry-door.yaml"))


def test_a_question_closes_its_card_and_its_answer_says_that_the_steps_are_done(
    vestry: Session,
) -> None:
    desk = Desk(vestry, "cards")
    lines = " ".join(rendered(desk.shown, desk.accepts, "cards"))
    assert "- Look at the hinges. - Look at the floor. - Does the leaf swing free?" in " ".join(
        lines.split()
    )
    assert "Three points of contact" in lines
    assert "fingers clear" in lines
    desk.command("done", "")
    with pytest.raises(WrongAnswer):
        desk.answer("perhaps")
    assert kinds(vestry) == ["started"]
    desk.answer("no")
    assert kinds(vestry) == ["started", "done", "done", "answered"]
    assert stands(vestry) == "swings#2"
    desk.answer("yes")
    desk.answer("2 in")
    assert kinds(vestry)[-3:] == ["answered", "done", "heard"]
    assert desk.accepts.kind == "read-back"


@pytest.mark.parametrize("aloud", [False, True])
def test_step_by_step_and_by_voice_the_question_waits_for_its_steps(
    vestry: Session, aloud: bool
) -> None:
    desk = Desk(vestry, "cards" if aloud else "full")
    desk.aloud = aloud
    assert desk.shown.text == "Look at the hinges."
    assert desk.accepts.kind == "done"


POTTERY = """\
procedure: pottery-door
title: The pottery's door
facts:
  wide: {length: {from: 20 in, to: 60 in}, schedule: true, ask: How wide is the leaf?, say: How wide?}
  high: {length: {from: 60 in, to: 99 in}, schedule: true, ask: How high is the leaf?, say: How high?}
  far: {worked: chord, using: {width: wide, angle: "= 12 deg"}}
  both: {times: [wide, 2]}
steps:
  - ask: {id: how-wide, fact: wide}
  - end: {id: too-wide, when: {both: "> 100 in"}, outcome: not-started, text: Too wide for one person.}
  - ask: {id: how-high, fact: high}
  - do: {id: kneel, text: Kneel down., card: The floor}
  - do: {id: chalk, text: "Chalk the floor {far} from the jamb.", card: The floor}
  - do: {id: sweep, when: {both: "> 60 in"}, text: Sweep it., card: The floor}
  - do: {id: up, text: Get up.}
  - work: {id: shown, fact: both, text: "Both leaves: {both}."}
  - check:
      id: narrow-enough
      fact: both
      limit: "<= 90 in"
      otherwise: {steps: [{do: {id: rope-off, text: Rope it off.}}]}
  - end: {id: done, outcome: finished}
"""


@pytest.fixture
def pottery(tmp_path: Path) -> Graph:
    (tmp_path / "pottery-door.yaml").write_text(POTTERY)
    return graph_of(tmp_path / "pottery-door.yaml")


def test_a_card_of_the_schedule_goes_past_what_is_computed_from_it(pottery: Graph) -> None:
    session = began(pottery, wide="36 in", high="84 in")
    assert [line.at for line in prompt(session.state).card_lines] == ["how-wide", "how-high"]


def test_a_card_says_what_its_later_steps_compute(pottery: Graph) -> None:
    session = began(pottery, wide="36 in", high="84 in")
    Desk(session, "cards").command("done", "")
    assert [line.text for line in prompt(session.state).card_lines] == [
        "Kneel down.",
        "Chalk the floor 7 1/2 in from the jamb.",
        "Sweep it.",
    ]
    assert "worked" not in kinds(session)[-2:]  # nothing is journalled for the look alone
    Desk(session, "cards").command("done", "")
    assert stands(session) == "up"


@pytest.mark.parametrize(("wide", "then"), [("36 in", "done"), ("48 in", "rope-off")])
def test_a_result_is_shown_though_a_check_of_it_comes_between(
    pottery: Graph, wide: str, then: str
) -> None:
    session = began(pottery)
    for answer in (wide, "84 in"):
        session.send(replies.answer(session.state, answer))
    for _ in range(4):
        session.send(replies.done(session.state))
    assert stands(session) == then
    assert [one.text for one in prompt(session.state).passed] == [
        f"Both leaves: {2 * int(wide[:2])} in."
    ]


def test_what_to_fetch_stands_on_a_card_that_a_question_closes(tmp_path: Path) -> None:
    text = VESTRY.replace(
        "card: First look, hazards: [ladder]}",
        "card: First look, hazards: [ladder], tools: [tape]}",
    )
    (tmp_path / "vestry-door.yaml").write_text(text)
    desk = Desk(began(graph_of(tmp_path / "vestry-door.yaml")), "cards")
    assert desk.closes_card
    assert "Tools: tape." in desk.shown.kit


def test_a_click_on_an_answer_waits_for_the_rest_of_the_card(vestry: Session) -> None:
    view = RunView(vestry, detail="cards")
    view.read_through = False
    view.pick(0)
    assert (view.message, kinds(vestry)) == (READ_ON, ["started"])
    view.read_through = True
    view.pick(0)
    assert kinds(vestry) == ["started", "done", "done", "answered"]
