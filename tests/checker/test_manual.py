"""Every finding has its page, and every snippet of a page does what the page says."""

import ast
import re
from pathlib import Path

import pytest

from guide.checker.check import check
from guide.checker.manual import all_codes, page_of, printed
from guide.checker.proof import Proof
from guide.checker.rules import FILE_RULES, GRAPH_RULES
from guide.files.findings import LEVELS, Finding
from guide.handbook import pages
from guide.handbook.pages import page_text
from guide.procedure.compiler import compile_procedure
from guide.procedure.load import load
from guide.run.replay import replay
from tests.checker.snippets import MARK, ROOT, files_of

GUIDE = Path(__file__).resolve().parents[2] / "guide"
READERS = (GUIDE / "files", GUIDE / "procedure", GUIDE / "checker", GUIDE / "trade" / "sheet")
"""Where files are read, and what is wrong with them is told."""
TOO_LONG_TO_PRINT = {
    *("cannot-read", "not-text", "too-large", "too-deep", "too-many", "not-proved"),
    *("edition-not-raised", "editions-unreadable"),
}
"""Findings whose examples are made by the tests below, and in test_editions.py."""
GIVES_A_CODE = {
    "Finding",
    "Property",
    "WrongCondition",
    "at_block",
    "at_part",
    "bad",
    "fault",
    "stop",
    *("Form", "UnreadableError", "_fault"),
}
"""The calls that a finding's code is given to."""
CODE = re.compile(r"[a-z]+(-[a-z]+)*")


def emitted() -> dict[str, str]:
    """Every code that the sources of READERS give a finding, and the file that gives it."""
    found: dict[str, str] = {}
    for path in sorted(path for folder in READERS for path in folder.rglob("*.py")):
        for call in ast.walk(ast.parse(path.read_text("utf-8"))):
            if not isinstance(call, ast.Call):
                continue
            name = getattr(call.func, "attr", getattr(call.func, "id", ""))
            for value in call.args if name in GIVES_A_CODE else ():
                text = getattr(value, "value", None)
                if isinstance(text, str) and CODE.fullmatch(text):
                    found[text] = path.name
    return found


def test_the_pages_are_those_of_the_codes_that_are_given() -> None:
    given = emitted()
    assert {code: file for code, file in given.items() if code not in all_codes()} == {}
    assert set(all_codes()) - set(given) == set(), "a page for what is never found"


def test_a_rule_has_the_name_of_its_code() -> None:
    names = {rule.__name__.replace("_", "-") for rule in (*FILE_RULES, *GRAPH_RULES)}
    assert names <= set(all_codes())


@pytest.mark.parametrize("code", all_codes())
def test_a_page_says_what_why_and_what_to_do(code: str) -> None:
    page = page_of(code)
    assert page.level in LEVELS
    assert page.title.endswith(".")
    assert page.about.endswith(".")
    assert page.do.endswith(".")
    assert bool(page.fails) == bool(page.passes) == (code not in TOO_LONG_TO_PRINT)
    text = printed(page)
    assert code in text.splitlines()[0]
    assert page.do in text


def test_a_code_without_a_page_is_refused() -> None:
    with pytest.raises(LookupError, match="no page “cut-without-hole”"):
        page_of("cut-without-hole")


@pytest.mark.parametrize(
    ("part", "instead"),
    [
        ("# no-end", "# no-ends"),
        ("- Level: error", "- Level: grave"),
        ("- May be accepted: no", "- May be accepted: never"),
        ("Do: finish", "Finish"),
        ("## Passes", "## Twin"),
    ],
)
def test_a_page_of_another_shape_is_refused(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, part: str, instead: str
) -> None:
    text = page_text("findings", "no-end")
    assert part in text
    (tmp_path / "findings").mkdir()
    (tmp_path / "findings" / "no-end.md").write_text(text.replace(part, instead), "utf-8")
    monkeypatch.setattr(pages, "FOLDER", tmp_path)
    with pytest.raises(ValueError, match="page of “no-end” does not have the shape"):
        page_of.__wrapped__("no-end")


def test_a_check_that_finds_nothing_reads_no_page(tmp_path: Path) -> None:
    passes = page_of("cut-without-hold").passes
    page_of.cache_clear()
    assert found_in(tmp_path, passes) == []
    assert page_of.cache_info().currsize == 0


def found_in(folder: Path, snippet: str) -> list[Finding]:
    """What is said of a snippet's files."""
    for name, text in files_of(snippet).items():
        (folder / name).write_text(text, "utf-8")
    return check(folder / ROOT, replay=replay).findings


def marked(snippet: str) -> tuple[str, int] | None:
    """The file and line that the snippet marks."""
    for name, text in files_of(snippet).items():
        for number, line in enumerate(text.splitlines(), 1):
            if line.endswith(MARK):
                return name, number
    return None


WITH_SNIPPETS = [code for code in all_codes() if code not in TOO_LONG_TO_PRINT]


@pytest.mark.parametrize("code", WITH_SNIPPETS)
def test_the_failing_snippet_fails_at_its_marked_line(tmp_path: Path, code: str) -> None:
    snippet = page_of(code).fails
    found = found_in(tmp_path, snippet)
    assert [finding.code for finding in found] == [code], found
    assert found[0].level == page_of(code).level
    place = marked(snippet)
    if place is not None:
        assert (Path(found[0].file).name, found[0].line) == place
    else:
        assert code in ("empty", "sheet-wrong")


@pytest.mark.parametrize("code", WITH_SNIPPETS)
def test_its_near_twin_passes(tmp_path: Path, code: str) -> None:
    assert found_in(tmp_path, page_of(code).passes) == []


def codes_of(path: Path) -> list[str]:
    """The codes found in a file, each of the level that its page states."""
    found = check(path).findings
    assert [finding.level for finding in found] == [page_of(one.code).level for one in found]
    return [finding.code for finding in found]


def test_a_file_that_is_not_there_cannot_be_read(tmp_path: Path) -> None:
    path = tmp_path / "bakery.yaml"
    assert codes_of(path) == ["cannot-read"]
    path.write_text("facts:\n  fire: {yesno: {}, ask: Is it a fire door?}\n")
    assert codes_of(path) == []


def test_a_file_in_an_old_encoding_is_no_text(tmp_path: Path) -> None:
    path = tmp_path / "bakery.yaml"
    path.write_bytes(
        "facts:\n  fire: {yesno: {}, ask: Is it a fire door (Brandschutztür)?}\n".encode("latin-1")
    )
    assert codes_of(path) == ["not-text"]
    path.write_text(
        "facts:\n  fire: {yesno: {}, ask: Is it a fire door (Brandschutztür)?}\n", "utf-8"
    )
    assert codes_of(path) == []


@pytest.mark.parametrize(("options", "found"), [(20_001, ["too-large"]), (2_000, [])])
def test_a_list_past_any_real_one_is_too_large(
    tmp_path: Path, options: int, found: list[str]
) -> None:
    path = tmp_path / "bakery.yaml"
    words = ", ".join(f"tool {number}" for number in range(options))
    path.write_text(_one_step(f"tools: [{words}]"))
    assert codes_of(path) == found


def _one_step(more: str) -> str:
    return (
        "procedure: bakery\ntitle: The bakery's back door\nsteps:\n"
        f"  - do: {{id: cover, text: Fit the cover., {more}}}\n"
        "  - end: {id: done, outcome: finished}\n"
    )


def test_nesting_past_any_real_file_is_too_deep(tmp_path: Path) -> None:
    path = tmp_path / "bakery.yaml"
    path.write_text(_one_step(f"tools: {'[' * 70}drill{']' * 70}"))
    assert codes_of(path) == ["too-deep"]
    path.write_text(_one_step("tools: [drill]"))
    assert codes_of(path) == []


@pytest.mark.parametrize(("blocks", "last"), [(150, "too-many"), (100, "fact-unknown")])
def test_after_a_hundred_faults_it_is_said_that_there_are_more(
    tmp_path: Path, blocks: int, last: str
) -> None:
    path = tmp_path / "bakery.yaml"
    asks = "".join(f"  - ask: {{id: q{number}, fact: widht}}\n" for number in range(blocks))
    path.write_text(
        f"procedure: bakery\ntitle: A door\nsteps:\n{asks}  - end: {{id: done, outcome: finished}}\n"
    )
    assert codes_of(path)[-1] == last


@pytest.mark.parametrize(("bound", "found"), [(8, [("not-proved", "warning")]), (10_000, [])])
def test_past_its_bound_the_proof_claims_nothing(
    tmp_path: Path, bound: int, found: list[tuple[str, str]]
) -> None:
    path = tmp_path / "example.yaml"
    path.write_text(files_of(page_of("cut-without-hold").passes)[ROOT])
    graph, _ = compile_procedure(load(path))
    assert graph is not None
    assert [(one.code, one.level) for one in Proof(graph, bound=bound).findings] == found


def test_more_ways_back_than_a_run_can_tell_apart_are_found_before_anybody_climbs(
    tmp_path: Path,
) -> None:
    """Six are proved and can be run; a run would refuse seven."""
    for ways, found in ((6, []), (7, ["too-deep"])):
        checks = "".join(
            f"  - check: {{id: latches-{n}, fact: latches, limit: yes, otherwise: {{go: swing}}}}\n"
            for n in range(ways)
        )
        path = tmp_path / "bakery.yaml"
        path.write_text(
            "procedure: bakery\nedition: 1\ntitle: The bakery's back door\n"
            'facts: {latches: {yesno: {yes: "Yes", no: "No"}, ask: Does it latch?, say: Latched?}}\n'
            "steps:\n  - do: {id: swing, text: Swing the leaf., say: Swing it.}\n"
            f"{checks}  - end: {{id: done, outcome: finished, text: It latches.}}\n"
        )
        assert codes_of(path) == found
