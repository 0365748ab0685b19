"""Faults of YAML as a trainer makes them: each is named with what to write, and the rest of the file is still read."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.files.findings import Finding
from guide.files.marks import plain, read_marked
from guide.procedure.load import load

HEAD = "procedure: clinic\ntitle: The clinic's corridor door\n"
END = "  - end: {id: done, outcome: finished}\n"


def found_in(folder: Path, steps: str) -> list[Finding]:
    path = folder / "clinic.yaml"
    path.write_text(f"{HEAD}steps:\n{steps}{END}", "utf-8")
    return check(path).findings


LOST = [
    "  - do: {id: pilot, text: Drill the leaf}  # then the frame\n",
    "  - do:\n      id: pilot  # of two\n      text: Drill the leaf.\n",
    "  - do:\n      id: pilot\n      text: Drill the leaf.\n      # for #8 screws\n",
    '  - do:\n      id: pilot\n      text: "Drill for #8 screws."\n',
    "  - do:\n      id: pilot\n      text: >-\n        Drill for #8 screws.\n",
    "  - do:\n      id: pilot\n      text: Drill the leaf.\n      minutes: 5 # with the ladder\n",
]


@pytest.mark.parametrize("steps", LOST)
def test_a_comment_that_cuts_no_text_is_a_comment(tmp_path: Path, steps: str) -> None:
    assert "text-cut" not in [one.code for one in found_in(tmp_path, steps)]


@pytest.mark.parametrize(
    "line",
    [
        "text: Drill 3/32 in holes for #8 screws",
        "text: Drill # 8 holes",
        "tools: [drill]\n      text: Set the two\n        holes for #8 screws",
        "text: Set the sign.\n      tools:\n        - bit for #8 screws",
    ],
)
def test_a_text_that_a_comment_cuts_is_an_error(tmp_path: Path, line: str) -> None:
    found = found_in(tmp_path, f"  - do:\n      id: pilot\n      {line}\n")
    assert [one.code for one in found if one.level == "error"] == ["text-cut"]
    assert "put quotes around the whole text" in found[0].message


def test_a_measure_with_a_comment_is_whole(tmp_path: Path) -> None:
    text = "facts:\n  gap:\n    length: {from: 0 in, to: 1 in}\n    ask: 1/8 in # of play\n"
    path = tmp_path / "facts.yaml"
    for value, code in (("1 3/8 in to 2 in", ""), (">= 5 s", ""), ("one to two in", "text-cut")):
        path.write_text(text.replace("1/8 in #", f"{value} #").replace("ask:", "usual:"), "utf-8")
        assert (code in [one.code for one in load(path).gather()]) is bool(code)


SAID = {
    "a comma in a text within braces": (
        "  - do: {id: wedge, text: Wedge the leaf, then try it, say: Wedge it.}\n",
        "text-parted",
        "so “then try it” is cut off from “Wedge the leaf”",
    ),
    "a fact at the beginning of a text": (
        "  - do:\n      id: wedge\n      text: {lead} holes in the leaf.\n",
        "yaml-syntax",
        'write text: "{lead} holes in the leaf."',
    ),
    "the same within braces": (
        "  - do: {id: wedge, text: {lead} holes., say: Holes.}\n",
        "yaml-syntax",
        'write text: "{lead} holes."',
    ),
    "a fact alone": (
        "  - do:\n      id: wedge\n      text: {lead}\n",
        "text-parted",
        'write it in quotes: "{lead}"',
    ),
    "a colon in a text": (
        "  - do: {id: wedge, text: Spring: EN size 3.}\n",
        "yaml-syntax",
        'write text: "Spring: EN size 3."',
    ),
    "curly quotes": (
        "  - do:\n      id: wedge\n      text: “Spring: EN size 3.”\n",
        "yaml-syntax",
        'straight ones hold a text together; write text: "Spring: EN size 3."',
    ),
    "a hash sign within braces": (
        "  - do: {id: wedge, text: Holes for #8 screws.}\n",
        "yaml-syntax",
        'write text: "Holes for #8 screws."',
    ),
    "a comparison without quotes": (
        "  - check:\n      id: wedge\n      limit: > 5 lbf\n",
        "yaml-syntax",
        'write limit: "> 5 lbf"',
    ),
    "a line too far to the left": (
        "  - do:\n      id: wedge\n     text: Wedge it.\n",
        "yaml-syntax",
        "begin it in column 7",
    ),
    "a line too far to the right": (
        "  - do:\n      id: wedge\n        text: Wedge it.\n",
        "yaml-syntax",
        "begin it in column 7",
    ),
    "a dash between two lists": (
        "  - do:\n      id: wedge\n      text: Wedge it.\n   - do: {id: b, text: Try it.}\n",
        "yaml-syntax",
        "begin it in column 3",
    ),
}


@pytest.mark.parametrize("fault", SAID)
def test_a_fault_is_named_with_what_to_write(tmp_path: Path, fault: str) -> None:
    steps, code, words = SAID[fault]
    (first, *_) = [one for one in found_in(tmp_path, steps) if one.code == code]
    assert words in first.message


@pytest.mark.parametrize(
    ("sign", "read"),
    [
        ("≤ 5 lbf", "<= 5 lbf"),
        ("“<= 5 lbf”", "<= 5 lbf"),
        ('"=< 5 lbf"', "<= 5 lbf"),
        ('"=> 5 lbf"', ">= 5 lbf"),
        ('"< = 5 lbf"', "<= 5 lbf"),
        ('"== 5 lbf"', "= 5 lbf"),
    ],
)
def test_signs_in_the_wrong_order_or_of_a_word_processor_are_named_with_those_that_are_read(
    tmp_path: Path, sign: str, read: str
) -> None:
    path = tmp_path / "clinic.yaml"
    path.write_text(
        f"{HEAD}facts:\n  push: {{force: {{from: 0 lbf, to: 60 lbf}}, ask: Pounds?}}\nsteps:\n"
        f"  - check:\n      id: light\n      fact: push\n      limit: {sign}\n"
        f"      otherwise: {{go: light}}\n{END}",
        "utf-8",
    )
    told = [one.message for one in check(path).findings if one.code == "comparison-wrong"]
    assert [message.rpartition("write ")[2] for message in told] == [f'"{read}".']


def test_all_faults_are_told_at_once(tmp_path: Path) -> None:
    steps = (
        "  - do: {id: wedge, text: Spring: EN size 3.}\n"
        "  - do: {id: try, text: Try it, gently.}\n"
        "  - do:\n      id: mark\n     text: Mark the holes.\n"
        "  - ask: {id: how-wide, fact: width}\n"
    )
    found = found_in(tmp_path, steps)
    assert [(one.line, one.code) for one in found] == [
        (4, "yaml-syntax"),
        (5, "text-parted"),
        (8, "yaml-syntax"),
        (9, "fact-unknown"),
    ]


def test_what_is_repaired_in_memory_reads_as_it_was_meant() -> None:
    tree, found = read_marked("steps:\n  - do: {id: a, text: {lead} in, say: x}\n", "a.yaml")
    assert plain(tree) == {"steps": [{"do": {"id": "a", "text": "{lead} in", "say": "x"}}]}
    assert [one.level for one in found] == ["error"]


def test_what_is_never_closed_is_told_with_its_line() -> None:
    for text, said in (("a: [x, y\nb: c\n", "“[” on line 1"), ("a: 'x\nb: c\n", "“'” on line 1")):
        with pytest.raises(Exception, match="is not closed") as caught:
            read_marked(text, "a.yaml")
        assert said in str(caught.value)
