"""Every rule has its page, and every snippet of a page does what the page says."""

import ast
import re
from pathlib import Path

import pytest

from guide.procedure.checker import check
from guide.procedure.checker.proof import Proof
from guide.procedure.checker.rules import RULES, Rule
from guide.procedure.checker.rules.rule import MARK, ROOT, files_of, page_of, printed
from guide.procedure.compiler import compile_procedure
from guide.procedure.findings import LEVELS, Finding
from guide.procedure.load import load
from guide.run.replay import replay

GUIDE = Path(__file__).resolve().parents[2] / "guide"
READERS = (GUIDE / "procedure", GUIDE / "trade" / "sheet")
"""Where files are read, and what is wrong with them is told."""
TOO_LONG_TO_PRINT = {"cannot-read", "not-text", "too-large", "too-deep", "too-many", "not-proved"}
"""Rules whose examples are made by the tests below."""
SAYING = {
    *("Finding", "Question", "WrongCondition", "_finding", "_said", "bad", "fault", "stop"),
    *("Form", "UnreadableError", "_fault"),
}
"""The calls that a finding's code is given to."""
CODE = re.compile(r"[a-z]+(-[a-z]+)*")


def emitted() -> dict[str, str]:
    """Every code that the sources of READERS give a finding, and the file it stands in."""
    found: dict[str, str] = {}
    for path in sorted(path for folder in READERS for path in folder.rglob("*.py")):
        for call in ast.walk(ast.parse(path.read_text("utf-8"))):
            if not isinstance(call, ast.Call):
                continue
            name = getattr(call.func, "attr", getattr(call.func, "id", ""))
            for value in call.args if name in SAYING else ():
                text = getattr(value, "value", None)
                if isinstance(text, str) and CODE.fullmatch(text):
                    found[text] = path.name
    return found


def test_every_code_that_is_given_has_a_page() -> None:
    given = emitted()
    assert {code: file for code, file in given.items() if code not in RULES} == {}
    unsaid = {code for code, rule in RULES.items() if code not in given and not _says(rule)}
    assert unsaid == set(), "a page for what is never said"


def _says(rule: type[Rule]) -> bool:
    """Whether a rule finds for itself, and so gives its own code."""
    return "in_facts" in vars(rule) or "in_graph" in vars(rule)


@pytest.mark.parametrize("code", list(RULES))
def test_a_page_says_what_why_and_what_to_do(code: str) -> None:
    page = page_of(RULES[code])
    assert RULES[code].level in LEVELS
    assert page.title.endswith(".")
    assert page.about.endswith(".")
    assert page.do.endswith(".")
    assert bool(page.fails) == bool(page.passes) == (code not in TOO_LONG_TO_PRINT)
    text = printed(RULES[code])
    assert code in text.splitlines()[0]
    assert page.do in text


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


WITH_SNIPPETS = [code for code in RULES if code not in TOO_LONG_TO_PRINT]


@pytest.mark.parametrize("code", WITH_SNIPPETS)
def test_the_failing_snippet_fails_at_its_marked_line(tmp_path: Path, code: str) -> None:
    snippet = page_of(RULES[code]).fails
    found = found_in(tmp_path, snippet)
    assert [finding.code for finding in found] == [code], found
    assert found[0].level == RULES[code].level
    place = marked(snippet)
    if place is not None:
        assert (Path(found[0].file).name, found[0].line) == place
    else:
        assert code in ("empty", "sheet-wrong")


@pytest.mark.parametrize("code", WITH_SNIPPETS)
def test_its_near_twin_passes(tmp_path: Path, code: str) -> None:
    assert found_in(tmp_path, page_of(RULES[code]).passes) == []


def codes_of(path: Path) -> list[str]:
    return [finding.code for finding in check(path).findings]


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


@pytest.mark.parametrize(("options", "codes"), [(20_001, ["too-large"]), (2_000, [])])
def test_a_list_past_any_real_one_is_too_large(
    tmp_path: Path, options: int, codes: list[str]
) -> None:
    path = tmp_path / "bakery.yaml"
    words = ", ".join(f"tool {number}" for number in range(options))
    path.write_text(_one_step(f"tools: [{words}]"))
    assert codes_of(path) == codes


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


@pytest.mark.parametrize(("bound", "codes"), [(8, ["not-proved"]), (10_000, [])])
def test_past_its_bound_the_proof_claims_nothing(
    tmp_path: Path, bound: int, codes: list[str]
) -> None:
    path = tmp_path / "example.yaml"
    path.write_text(files_of(page_of(RULES["cut-without-hold"]).passes)[ROOT])
    graph, _ = compile_procedure(load(path))
    assert graph is not None
    assert [finding.code for finding in Proof(graph, bound=bound).findings] == codes
