"""What a file says in two places, and not alike: twins, numbers, outcomes, lists, stages; and what only looks so."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.checker.manual import page_of
from tests.checker.snippets import ROOT, files_of


def codes(folder: Path, snippet: str) -> list[str]:
    for name, text in files_of(snippet).items():
        (folder / name).write_text(text, "utf-8")
    return [one.code for one in check(folder / ROOT).findings if one.level != "advice"]


ALIKE = [
    # twins of which one job has one: another reason, or a condition that shuts the other out
    (
        "done-twice",
        "      why: On the bench the spring is loose and the wrench goes in straight.\n",
        "",
    ),
    ("done-twice", "id: presets-by-sheet", "id: presets-by-sheet\n      when: {sheet: yes}"),
    # two questions for one fact with something done between them
    (
        "asked-twice",
        "  - ask:\n      id: by-turn",
        "  - do: {id: free-it, text: Oil the latch bolt.}\n  - ask:\n      id: by-turn",
    ),
    # the reason or the question bears the number of the text
    ("number-alone", "and {7 lbf} is the limit", "and {10 lbf} is the limit"),
    ("number-alone", "and {7 lbf} is the limit", "and {4 in} is where it is read"),
    # a limit that a reason names, and one among as few as there can be
    ("limit-alone", "id: note-four,", 'id: note-four, why: "It is {8 lbf} outdoors.",'),
    (
        "limit-alone",
        '{at most 5 lbf}."}\n  - do: {id: note-two',
        '{4 in}."}\n  - do: {id: note-two',
    ),
    # an end before the cut
    ("outcome-against-words", "Handed over. Left to do: the force", "Handed over, with the force"),
    # a stage that goes on in the part after the next
    ("stage-twice", "file: body.yaml, stage: Fit", "file: body.yaml"),
    # the shared fact is not what the other file has under that name
    ("option-gone", "when: {arm: stop}", "when: {arm: hold-open}"),
    # every answer of the list comes
    (
        "label-idle",
        "when: {leaves: [active, inactive], bolts: yes}",
        "when: {leaves: active, bolts: yes}",
    ),
]


@pytest.mark.parametrize(("code", "old", "new"), ALIKE)
def test_what_only_looks_like_a_contradiction_is_left_alone(
    tmp_path: Path, code: str, old: str, new: str
) -> None:
    snippet = page_of(code).fails.replace("   # here", "")
    assert old in snippet
    assert code in codes(tmp_path, snippet)
    assert code not in codes(tmp_path, snippet.replace(old, new, 1))


def test_a_job_that_ends_before_its_first_cut_has_not_started(tmp_path: Path) -> None:
    snippet = page_of("started-already").fails
    early = (
        "  - end: {id: no-mount, when: {mount: parallel}, outcome: not-started, text: Ask first.}\n"
    )
    found = codes(tmp_path, snippet.replace("  - hold:", f"{early}  - hold:"))
    assert found == ["started-already"], "the end after the cut alone"


@pytest.mark.parametrize(
    ("texts", "found"),
    [
        ("{centre-pivot: Centre-hung pivots, offset-pivot: Offset pivots}", 0),
        ("{centre-pivot: Offset pivots, offset-pivot: Centre-hung pivots}", 2),
        ("{track: Concealed in leaf or frame, hidden: Arm that slides in a track}", 1),
        ("{stop: A buffer on the arm, plain: Nothing at its end}", 0),
    ],
)
def test_answers_whose_words_are_each_others(tmp_path: Path, texts: str, found: int) -> None:
    labels = texts.strip("{}").split(":")[0]
    snippet = (
        f"facts:\n  hangs: {{choice: {texts}, ask: What does it hang on?}}\nsteps:\n"
        "  - ask: {id: on-what, fact: hangs}\n"
        f"  - do: {{id: note-it, when: {{hangs: {labels}}}, text: Note it.}}\n"
        "  - end: {id: done, outcome: finished}\n"
    )
    assert codes(tmp_path, snippet).count("label-against-words") == found


FIRE = """\
facts:
  fire: {yesno: {}, ask: Is it a fire door?}
  prep: {choice: {old: Old holes close by, plain: No preparation}, ask: Is it prepared?}
steps:
  - ask: {id: fire-door, fact: fire}
  - ask: {id: prepared, fact: prep}
  - do: {id: look, when: {fire: yes, prep: plain}, text: Look at the label.}
"""


@pytest.mark.parametrize(
    ("step", "found"),
    [
        ("id: tell, when: {fire: no}, text: Tell the owner., hazards: [fire-door]", True),
        ("id: tell, when: {fire: yes}, text: Tell the owner., hazards: [fire-door]", False),
        ("id: tell, when: {fire: no}, text: Tell the owner., hazards: [ladder]", False),
        ("id: fill, when: {not: {prep: old}}, text: Plug each of the old ones.", True),
        ("id: fill, when: {prep: old}, text: Plug each of the old ones.", False),
        ("id: fill, when: {not: {prep: old}}, text: Ask for the plan of the old ones.", False),
    ],
)
def test_a_step_about_the_answer_that_its_condition_shuts_out(
    tmp_path: Path, step: str, found: bool
) -> None:
    told = codes(tmp_path, f"{FIRE}  - do: {{{step}}}\n  - end: {{id: done, outcome: finished}}\n")
    assert told == (["words-against-label"] if found else [])


def test_a_step_with_the_hazard_of_a_fire_door_is_for_fire_doors(tmp_path: Path) -> None:
    step = "  - do: {id: tell, text: Tell the owner., hazards: [fire-door]}\n"
    end = "  - end: {id: done, outcome: finished}\n"
    assert codes(tmp_path, FIRE + step + end) == ["when-missing"]
    unasked = FIRE.replace("  - ask: {id: fire-door, fact: fire}\n", "").replace("fire: yes, ", "")
    assert "when-missing" not in codes(tmp_path, unasked + step + end)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('when: {sweep: "< 7 s"}', 'when: {any: [{sweep: "< 5 s"}, {sweep: "< 7 s"}]}'),
        ('until: {latches: yes, sweep: ">= 5 s"}', "until: {latches: yes}"),
        ('when: {sweep: "< 7 s"}', 'when: {sweep: "> 7 s"}'),
    ],
)
def test_a_step_may_act_by_more_numbers_than_its_repeat_has(
    tmp_path: Path, old: str, new: str
) -> None:
    snippet = page_of("cure-apart").fails.replace("   # here", "")
    assert old in snippet
    assert "cure-apart" not in codes(tmp_path, snippet.replace(old, new))
