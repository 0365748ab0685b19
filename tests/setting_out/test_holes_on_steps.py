"""The holes that a step lists: in the app, line by line and spoken; and that a step lapses with them."""

from pathlib import Path

from guide.checker.check import Report, check
from guide.plain.render import rendered
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.spoken_prompt import step_aloud
from guide.run.state import label
from guide.screens.step_words import line_words
from guide.words.spoken import language
from tests.run.small_procedures import NOON, give
from tests.setting_out.procedures import MARKING
from tests.trade.shipped_sheets import shipped

READ = "body_place, shoe_place, body_accessory, shoe_accessory, hinges_on_your, holes_at_leaf, drill_leaf"
DRILL = f"""            - hold: {{id: read, reads_back: [{READ}]}}
            - do: {{id: drill, text: Drill the leaf., holes: leaf, cuts: true, hazards: [drilling]}}
"""
DRILLING = (
    MARKING.replace("body_place, shoe_place, body_along, valves_toward, row]", f"{READ}]")
    .replace("draws: elevation\n", "holes: body\n")
    .replace(" Valves to the {valves_toward}.", "")
    .replace('                why: "{row}, {body_along}"\n', "")
    .replace("        - id: stopped\n", f"{DRILL}        - id: stopped\n")
)
CLASSROOM = ("regular", "left", "butt", "95 deg", "flat", "clear", "6 in")
"""Opened to 95 deg on generic-a: the first of the twelve openings."""


def report(folder: Path, text: str = DRILLING) -> Report:
    path = folder / "marking.yaml"
    path.write_text(text)
    return check(path)


def begun(folder: Path, *answers: str) -> Session:
    found = report(folder)
    assert found.graph is not None, found.findings
    sheet = shipped("generic-a").to_json()
    session = Session.begin(
        MemoryJournal(), found.graph, device="bench", sheet=sheet, clock=lambda: NOON
    )
    give(session, *answers)
    return session


BODY = [
    "Along from the hinge pin centre, down from the top of the leaf.",
    "Body valve end upper: 4 3/4 in along, 3/4 in down",
    "Body valve end middle: 4 3/4 in along, 1 1/2 in down (only if the sheet wants more screws)",
    "Body valve end lower: 4 3/4 in along, 2 1/4 in down",
    "Body far end upper: 12 1/4 in along, 3/4 in down",
    "Body far end middle: 12 1/4 in along, 1 1/2 in down (only if the sheet wants more screws)",
    "Body far end lower: 12 1/4 in along, 2 1/4 in down",
]


def test_a_step_lists_its_holes_in_the_app_and_line_by_line(tmp_path: Path) -> None:
    shown = prompt(begun(tmp_path, *CLASSROOM).state)
    assert [one.text for one in shown.holes[:7]] == BODY
    lines = [line.strip() for line in rendered(shown, shown.accepts, "full")]
    assert [line for line in lines if line in BODY][:2] == BODY[:2]
    (words,) = line_words(shown, "full")
    rows = [line.removeprefix("- ") for line in str(words).split("\n")]
    assert [text for text in rows if text in BODY] == BODY


def test_spoken_each_hole_has_its_numbers_in_words(tmp_path: Path) -> None:
    state = begun(tmp_path, *CLASSROOM).state
    said = step_aloud(state, prompt(state), language("english"))
    assert "Body valve end upper: four and three quarters inches along, three quarters" in said
    assert "one and a half inches down, only if the sheet wants more screws." in said


def test_another_hand_makes_the_marks_due_again(tmp_path: Path) -> None:
    session = begun(tmp_path, *CLASSROOM)
    give(session, "done")
    assert label(session.state.graph, session.state.at) == "read"
    give(session, "knuckles = right")
    assert label(session.state.graph, session.state.at) == "mark"


def test_a_cut_that_lists_holes_wants_them_read_back(tmp_path: Path) -> None:
    assert report(tmp_path).sound
    forgotten = DRILLING.replace(f"reads_back: [{READ}]", "reads_back: [body_place]")
    codes = {one.code for one in report(tmp_path, forgotten).findings}
    assert any("read" in code or "hold" in code for code in codes), codes


def test_holes_without_a_setting_out_are_a_fault(tmp_path: Path) -> None:
    found = report(tmp_path, DRILLING.replace("drill_leaf]\nsteps", "row]\nsteps"))
    assert any("depends on drill_leaf of setting-out" in one.message for one in found.findings)


def test_parts_of_one_answer_are_facts_of_their_own(tmp_path: Path) -> None:
    graph = report(tmp_path).graph
    assert graph is not None
    assert "setting_out" not in graph.facts
    assert graph.facts["refusal"].gives_labels[0] == "go-on"
    assert graph.facts["body_place"].gives == "text"
    both = DRILLING.replace("    parts: [", "    part: source\n    parts: [")
    assert any(
        "has “part” or “parts”, not both" in one.message for one in report(tmp_path, both).findings
    )
    unknown = DRILLING.replace("parts: [refusal,", "parts: [refusal, body_high,")
    assert any(one.code == "part-wrong" for one in report(tmp_path, unknown).findings)
