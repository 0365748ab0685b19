"""Seven fitting jobs as they are told: no card leaves anything out, and the paper has every hole told."""

import re
from functools import cache

import pytest

from guide.measures import parse
from guide.papers.template.template import template_pdf
from guide.papers.template.template_inputs import inputs_of_run, read_template
from guide.plain.render import rendered
from guide.run.prompt import prompt
from guide.run.rehearse import Player, rehearse
from guide.run.state import State
from tests.papers.template.read_template import joined, read
from tests.run.shipped_runs import shipped, shipped_graph, shipped_sheet

HINGES = {
    "boatyard-workshop-door": "right",
    "archive-fire-pair": "left",
    "seminar-room-continuous": "left",
    "tea-room-glazed-door": "left",
    "swimming-hall-pair": "left",
    "library-stacks": "right",
    "market-hall-low-head": "right",
}
"""Where the hinges are for a fitter who faces the body: the side of the knuckles, or the other from the push side."""
JOBS = pytest.mark.parametrize("name", HINGES)
HOLE = re.compile(r"(?P<name>[^:]+): (?P<along>.+) along, (?P<across>.+?) (?P<way>up|down|out)\b")
TENTH = 0.1
"""How far a hole of the paper may be from the place that is told [mm]."""


@cache
def stood(name: str) -> tuple[State, ...]:
    """Every state of the job that a person answered."""
    states: list[State] = []

    def note(before: State, after: State) -> None:
        states.append(before)

    scenario = shipped(name)
    graph, sheet = shipped_graph(scenario.procedure), shipped_sheet(scenario.sheet)
    found = rehearse(
        scenario, graph, sheet, lambda session, of, found: Player(session, of, found, tell=note)
    )
    assert found.met, found.differences
    return tuple(states)


def listing(name: str) -> State:
    """Where the holes of the frame are told, the last before the hold."""
    return [state for state in stood(name) if state.node.id == "holes/holes-in-the-head"][-1]


@JOBS
@pytest.mark.parametrize("detail", ["full", "cards"])
def test_no_prompt_leaves_a_value_open(name: str, detail: str) -> None:
    for state in stood(name):
        made = prompt(state)
        assert not any("…" in line for line in rendered(made, made.accepts, detail)), made.at


@JOBS
def test_a_card_of_marks_says_both_places_before_it_is_done(name: str) -> None:
    (first, *_) = [made for made in map(prompt, stood(name)) if made.card == "Marking by numbers"]
    words = " ".join(line.text for line in first.card_lines)
    assert len(re.findall(r"along from the hinge (?:edge|pin centre)", words)) == 2, words


@JOBS
def test_leaf_and_frame_list_their_holes_each_beneath_its_own_step(name: str) -> None:
    blocks = ("holes/holes-in-the-leaf", "holes/holes-in-the-head")
    leaf, head = (next(prompt(s) for s in stood(name) if s.node.id == one) for one in blocks)
    for step, card_line in zip((leaf, head), leaf.card_lines, strict=True):
        _, *beneath = card_line.text.split("\n")
        assert [row.strip() for row in beneath] == [hole.text for hole in step.holes]
        assert step.holes


@JOBS
def test_the_paper_has_every_hole_where_it_is_told(name: str) -> None:
    pages = read(template_pdf(read_template(inputs_of_run(listing(name)))[0]))
    drawn, (zero_x, zero_y) = joined(pages)
    places = [(x - zero_x, y - zero_y) for x, y in drawn]
    told = 0
    for state in stood(name):
        if state.node.id not in ("holes/holes-in-the-leaf", "holes/holes-in-the-head"):
            continue
        for line in prompt(state).holes:
            hole = HOLE.match(line.text)
            if hole is None:
                continue
            told += 1
            along, across = (
                float(parse(hole[one]).to("mm").magnitude) for one in ("along", "across")
            )
            right = along if HINGES[name] == "left" else -along
            up = -across if hole["way"] == "down" else across
            near = [p for p in places if max(abs(p[0] - right), abs(p[1] - up)) < TENTH]
            assert len(near) == 1, (line.text, places)
    assert told == len(places)
