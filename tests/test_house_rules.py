"""The rules of the house: README, the table of the parts and the gate agree with the code."""

import re
from pathlib import Path

from guide.cli.main import VERBS

TOP = Path(__file__).resolve().parents[1]
GATE = (TOP / ".ci" / "run").read_text("utf-8")
LINT = (TOP / ".ci" / "lint").read_text("utf-8")


def test_readme_names_no_verb_that_is_not_there() -> None:
    text = (TOP / "README.md").read_text("utf-8")
    named = set(re.findall(r"^\s+\.venv/bin/hingeside +([a-z]+)", text, re.MULTILINE))
    assert named
    assert named <= set(VERBS)


def test_every_part_is_in_the_developers_table() -> None:
    text = (TOP / "DEVELOPERS.md").read_text("utf-8")
    parts = [path.name for path in (TOP / "guide").iterdir() if (path / "__init__.py").is_file()]
    assert parts
    assert [part for part in parts if f"guide/{part}" not in text] == []


def test_every_file_that_developers_are_sent_to_is_there() -> None:
    text = (TOP / "DEVELOPERS.md").read_text("utf-8")
    named = set(re.findall(r"`([\w./-]+\.(?:py|json|md|tcss|toml))`", text))
    written_later = {"guide/handbook/findings/CODE.md", "procedures/editions.json"}
    folders = ("guide", "tests", "procedures")
    there = [path.as_posix() for folder in folders for path in (TOP / folder).rglob("*.*")]
    there += [path.as_posix() for path in TOP.glob("*.*")]
    assert len(named) > 50
    missing = {name for name in named if not any(path.endswith(f"/{name}") for path in there)}
    assert missing - written_later == set()


def test_the_gate_runs_what_the_readme_says() -> None:
    readme = (TOP / "README.md").read_text("utf-8")
    install = "python3 -m venv .venv && .venv/bin/pip install '.[voice,dev]'"
    tests = ".venv/bin/python -m pytest"
    assert f"{install} && {tests}\n" in readme
    # And a Vosk model of a quarter of a gigabyte, and the reader of building models: without them tests are skipped.
    installed = GATE.replace(" --quiet", "").index(
        install.replace("dev]", "dev,korean,ifc,crew,web]")
    )
    assert GATE.index(f"\n{tests} |") > installed


def test_the_gate_runs_every_tool_that_developers_are_told_of() -> None:
    text = (TOP / "DEVELOPERS.md").read_text("utf-8")
    (rule,) = re.findall(r"^- `\.ci/run` is the whole gate.*(?:\n  .*)*", text, re.MULTILINE)
    named = re.findall(r"`((?:ruff|mypy|lint-imports)[^`]*)`", rule)
    assert len(named) == 4
    assert [tool for tool in named if f'" .venv/bin/{tool}\n' not in LINT] == []
    assert "\n.ci/lint " in GATE
