"""Slips made by hand in the shipped files, of kinds that once went unseen: each with the finding that sees it.

They are what a careful reader notices in the file itself: words against a name, a number, a condition or a sibling.
One row is one slip: what it is, the file, the block or fact after which the first `old` becomes `new`, and the finding.
Where `new` is nothing, the lines with the words of `old` are left out.
"""

import shutil
from functools import cache
from pathlib import Path

import pytest

from guide.checker.rules import FILE_RULES, GRAPH_RULES
from guide.files.findings import ERROR
from guide.procedure.compiler import compile_procedure
from guide.procedure.load import load

SHIPPED = Path(__file__).parents[2] / "procedures"

Row = tuple[str, str, str, str, str, str]

AGAINST_WORDS: list[Row] = [
    (
        *("the shoe's number where the words say body", "holes.yaml", "id: mark-the-body"),
        *("Body {body_along} along", "Body {shoe_along} along", "words-against-fact"),
    ),
    (
        *("21 degrees where the words say twelve", "tune-door.yaml", "twelve:"),
        *("= 12 deg", "= 21 deg", "words-against-fixed"),
    ),
    (
        *("slower in the text, faster in the short words", "as-left.yaml", "id: last-slower"),
        *("Sweep an eighth slower", "Sweep an eighth faster", "say-against-text"),
    ),
    (
        *("right under a condition on left", "body-and-arm.yaml", "id: hinges-right\n"),
        *("{hinges_on_your: right}", "{hinges_on_your: left}", "words-against-label"),
    ),
    (
        *("a limit of 10 lbf, with 7 lbf in its reason", "latch-and-force.yaml", "steps:"),
        *("{at most 7 lbf}, read", "{at most 10 lbf}, read", "number-alone"),
    ),
    (
        *("a limit of 8 lbf among many of 5", "right-size.yaml", "id: never-light"),
        *("{at most 5 lbf}", "{at most 8 lbf}", "limit-alone"),
    ),
    (
        *("an answer shown as its opposite", "closer-facts.yaml", "knuckles:"),
        *("left: Left", "left: On the right", "label-against-words"),
    ),
    (
        *("handed over, and not started", "hand-over.yaml", "id: force-left-to-do"),
        *("outcome: left-to-do", "outcome: not-started", "outcome-against-words"),
    ),
]
BESIDE: list[Row] = [
    (
        *("the line of one direction given for the other", "holes.yaml", "marks:"),
        *("along_from: along_line", "along_from: datum_line", "input-wrong"),
    ),
    (
        *("a range of ten times what is usual", "tune-door.yaml", "sweep_time:"),
        *("to: 60 s", "to: 600 s", "range-wide"),
    ),
    (
        *("seconds that became minutes", "tune-door.yaml", "sweep_time:"),
        *("to: 60 s", "to: 60 min", "range-wide"),
    ),
    (
        *(
            "a hold that lacks what its sibling reads back",
            "holes.yaml",
            "id: before-drilling-numbers",
        ),
        *("hinge, opening, leaf", "hinge, leaf", "hold-short"),
    ),
    (
        *("two times of one swing that lost each other", "tune-door.yaml", "id: sweep-now"),
        *("same_swing: latch-now", "", "swing-split"),
    ),
    (
        *("two forms of one step, both done", "body-and-arm.yaml", "id: presets-by-sheet"),
        *("when: {sheet_loaded: yes, spring_quarters: none}", "", "done-twice"),
    ),
    (
        *("a fact asked for twice at once", "latch-and-force.yaml", "id: unlatch-by-force"),
        *("released_by: push", "released_by: turn", "asked-twice"),
    ),
]
DANGER: list[Row] = [
    (
        *("a live cable without a caution", "choose-mount.yaml", "id: find-the-cable"),
        *("caution: | hazards: [electrical]", "", "hazard-unnamed"),
    ),
    (
        *("work above the head without a caution", "body-and-arm.yaml", "id: regular-shoe"),
        *("hazards: [ladder]", "", "hazard-unnamed"),
    ),
    (
        *("drilling that does not say it cuts", "holes.yaml", "id: punch-marks"),
        *("cuts: true", "", "reads-without-cut"),
    ),
    (
        *("an end as not started, after holes", "holes.yaml", "id: no-drill-frame"),
        *("outcome: made-safe", "outcome: not-started", "started-already"),
    ),
    (
        *("a step for fire doors, done on all others", "make-safe.yaml", "id: tonight"),
        *("when: {fire: yes}", "when: {not: {fire: yes}}", "words-against-label"),
    ),
    (
        *("a step for fire doors, done on every door", "make-safe.yaml", "id: tonight"),
        *("when: {fire: yes}", "", "when-missing"),
    ),
]
OF_FILES: list[Row] = [
    (
        *("a text cut by a number sign", "hang-check.yaml", "steps:"),
        *("text: Tighten the hinge", "text: Tighten the #10 hinge", "text-cut"),
    ),
    (
        *("an answer that another file goes by", "closer-facts.yaml", "first_look:"),
        *("      oil: {label: Oil", "      oily: {label: Oil", "option-gone"),
    ),
]
SLIPS = [*AGAINST_WORDS, *BESIDE, *DANGER, *OF_FILES]


def spoilt(text: str, after: str, old: str, new: str) -> str:
    """The text with the slip in it."""
    head, anchor, rest = text.partition(after)
    assert anchor, after
    if new:
        assert old in rest, old
        return head + anchor + rest.replace(old, new, 1)
    lines = rest.split("\n")
    for words in old.split(" | "):
        del lines[next(number for number, line in enumerate(lines) if words in line)]
    return head + anchor + "\n".join(lines)


def found_in(path: Path) -> set[tuple[str, str]]:
    """What reading, compiling and the rules find: codes and messages."""
    loaded = load(path)
    graph, findings = compile_procedure(loaded)
    if graph is not None and all(one.level != ERROR for one in findings):
        findings += [one for file_rule in FILE_RULES for one in file_rule(loaded)]
        findings += [one for graph_rule in GRAPH_RULES for one in graph_rule(graph)]
    return {(one.code, one.message) for one in findings}


@cache
def found_as_shipped(file: str) -> set[tuple[str, str]]:
    return found_in(SHIPPED / file)


@pytest.mark.parametrize(("what", "file", "after", "old", "new", "code"), SLIPS)
def test_a_slip_of_hand_is_seen(
    tmp_path: Path, what: str, file: str, after: str, old: str, new: str, code: str
) -> None:
    for path in SHIPPED.glob("*.yaml"):
        shutil.copy(path, tmp_path)
    (tmp_path / file).write_text(spoilt((SHIPPED / file).read_text(), after, old, new))
    checked = CHECKED_BY.get(file, file)
    found = found_in(tmp_path / checked) - found_as_shipped(checked)
    assert code in {one for one, _ in found}, what


CHECKED_BY = {"closer-facts.yaml": "may-i-drill.yaml"}
"""The procedure by which a file of facts is checked."""
