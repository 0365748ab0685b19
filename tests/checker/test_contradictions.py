"""Words that contradict each other or their condition are found; what only looks like it is left alone."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.checker.contrast import contrary, has_phrase, words

END = "  - end: {id: done, outcome: finished}\n"
FACTS = """\
facts:
  knuckles: {choice: {left: Left, right: Right}, ask: Where are the hinges?}
  arm: {choice: {plain: Plain arm, hold-open: Hold-open arm}, ask: Which arm?}
  stopper: {choice: {wall: Wall, hold-open: A hold-open, none-yet: Nothing yet}, ask: What stops it?}
  body_along: {length: {from: 1 in, to: 30 in}, ask: How far along is the body?}
  shoe_along: {length: {from: 1 in, to: 40 in}, ask: How far along is the shoe?}
"""
ASKS = "".join(
    f"  - ask: {{id: ask-{name.replace('_', '-')}, fact: {name}}}\n"
    for name in ("knuckles", "arm", "stopper", "body_along", "shoe_along")
)
USED = (
    '  - do: {id: uses, text: "{body_along} and {shoe_along}"}\n'
    "  - do: {id: uses-arm, when: {arm: plain, stopper: wall, knuckles: left}, text: Look at it.}\n"
)


def codes(folder: Path, steps: str, facts: str = FACTS) -> list[str]:
    path = folder / "clinic.yaml"
    path.write_text(
        f"procedure: clinic\ntitle: The clinic's door\n{facts}steps:\n{ASKS}{USED}{steps}{END}",
        "utf-8",
    )
    return [one.code for one in check(path).findings if one.level != "advice"]


FOUND = {
    "say-against-text": [
        "text: Turn it an eighth faster., say: An eighth slower.",
        "text: Set the valve to 12 degrees., say: Twenty degrees.",
        "text: Wait 5 s after each turn., say: Wait six seconds.",
    ],
    "words-against-label": [
        "when: {knuckles: right}, text: Keep the hinges on your left.",
        "when: {knuckles: left}, text: Look at it., say: Hinges on your right.",
    ],
    "words-against-fact": [
        'text: "Mark the body {shoe_along} along."',
        'text: "Mark the shoe {body_along} along."',
        'text: Mark it., say: "Body {shoe_along}."',
    ],
    "fact-repeated": ['text: "Along {body_along}, down {body_along}."'],
    "hazard-unnamed": [
        "text: Have the live wires made dead.",
        "text: Find the cable and switch it off.",
    ],
}
LEFT_ALONE = [
    "text: Turn it faster or slower., say: Slower.",
    "text: Turn it an eighth faster., say: An eighth more.",
    "text: Open to 90 and time it to 12 degrees., say: Time it from ninety.",
    "text: Open it., say: Wait 5 seconds.",
    "when: {knuckles: right}, text: Mark it on the hinge side.",
    "when: {knuckles: right}, text: Work from left to right.",
    'text: "Mark the shoe {shoe_along} along, from the line of the body."',
    'text: "Body {body_along}, shoe {shoe_along}."',
    'text: "Set it {shoe_along} along."',
    "text: Pull the cable tie tight.",
    "text: Have the live cable switched off., hazards: [electrical]",
    "text: Have the live cable switched off., caution: {danger: A live cable kills.}",
    "text: Live with the draught until the seal is in.",
]


@pytest.mark.parametrize(("code", "step"), [(c, s) for c, steps in FOUND.items() for s in steps])
def test_a_contradiction_is_found(tmp_path: Path, code: str, step: str) -> None:
    assert codes(tmp_path, f"  - do: {{id: step, {quoted(step)}}}\n") == [code]


@pytest.mark.parametrize("step", LEFT_ALONE)
def test_what_only_looks_like_one_is_left_alone(tmp_path: Path, step: str) -> None:
    assert codes(tmp_path, f"  - do: {{id: step, {quoted(step)}}}\n") == []


def quoted(step: str) -> str:
    """The step's keys as a block mapping would have them, with texts that hold a comma in quotes."""
    key, _, text = step.partition("text: ")
    told, sep, rest = text.partition("., ")
    inner = f"{told}." if sep else told
    if inner.startswith('"'):
        return step
    return f'{key}text: "{inner}"{", " + rest if sep else ""}'


def test_a_step_named_after_an_answer_needs_its_condition(tmp_path: Path) -> None:
    assert codes(tmp_path, "  - do: {id: set-hold-open, text: Set it.}\n") == ["when-missing"]
    assert codes(tmp_path, "  - do: {id: set-hold, text: Set it.}\n") == []
    with_when = "  - do: {id: set-hold-open, when: {arm: hold-open}, text: Set it.}\n"
    assert codes(tmp_path, with_when) == []
    by_another = "  - do: {id: set-hold-open, when: {stopper: wall}, text: Set it.}\n"
    assert "when-missing" not in codes(tmp_path, by_another)


def test_a_case_named_after_another_answer_is_found(tmp_path: Path) -> None:
    cases = (
        "  - by_case:\n      id: by-arm\n      cases:\n"
        "        - {id: plain, when: {arm: hold-open}, steps: []}\n"
        "        - {id: other, when: {arm: plain}, steps: []}\n"
    )
    assert codes(tmp_path, cases) == ["words-against-label"]
    assert codes(tmp_path, cases.replace("id: plain,", "id: with-a-plain-arm,")) == []


def test_answers_whose_words_changed_places_are_found(tmp_path: Path) -> None:
    swapped = FACTS.replace(
        "{left: Left, right: Right}", "{left: On the right, right: On the left}"
    )
    assert codes(tmp_path, "", swapped) == ["label-against-words"] * 2
    kept = FACTS.replace("{left: Left, right: Right}", "{left: Not right, right: Not left}")
    assert "label-against-words" in codes(tmp_path, "", kept)
    fine = FACTS.replace("{left: Left, right: Right}", "{left: Left not right, right: The other}")
    assert codes(tmp_path, "", fine) == []


SWEEP = (
    "  sweep: {time: {from: 1 s, to: 60 s}, ask: How long?}\n"
    "  latch: {time: {from: 1 s, to: 9 s}, ask: How long?}\n"
)


@pytest.mark.parametrize(
    ("first", "second", "found"),
    [
        ("Time it to the mark.", "Time it from the mark.", ["swing-split"]),
        ("Time it to the mark.", "Open it again, and time it from 90.", []),
        ("Time it to the stop.", "Time it from the mark.", []),
    ],
)
def test_two_times_of_one_swing(tmp_path: Path, first: str, second: str, found: list[str]) -> None:
    steps = (
        f'  - time: {{id: one, fact: sweep, text: "{first}"}}\n'
        f'  - time: {{id: two, fact: latch, text: "{second}"}}\n'
    )
    assert codes(tmp_path, steps, FACTS + SWEEP) == found
    apart = steps.replace(
        "  - time: {id: two", "  - do: {id: b, text: Open it.}\n  - time: {id: two"
    )
    assert codes(tmp_path, apart, FACTS + SWEEP) == []


@pytest.mark.parametrize(
    ("range_", "found"),
    [
        ("from: 1 in, to: 300 in, usual: 4 in to 16 in", ["range-wide"]),
        ("from: 1 in, to: 30 ft, usual: 4 in to 16 in", ["range-wide"]),
        ("from: 1 in, to: 159 in, usual: 4 in to 16 in", []),
        ("from: 1 in, to: 300 in", []),
    ],
)
def test_a_range_far_past_what_is_usual(tmp_path: Path, range_: str, found: list[str]) -> None:
    facts = FACTS.replace("from: 1 in, to: 30 in", range_)
    assert codes(tmp_path, "", facts) == found
    meant = facts.replace("from: 1 in, to: 40 in", range_)
    assert codes(tmp_path, "", meant) == []


def test_words_are_compared_whole_and_numbers_in_figures() -> None:
    assert words("Twelve of the leaf's {screws}, please") == ("12", "of", "the", "leaf", "please")
    assert has_phrase("Set the hold-open arm", "hold open")
    assert not has_phrase("Set the hold", "hold open")
    assert contrary("on the left", "on the right") == ("left", "right")
    assert contrary("left or right", "on the right") is None
    assert contrary("brightly", "on the left") is None
