"""The rules of the house: lint, format, types, import order, and that README and table agree with the code."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from guide.cli.main import VERBS

TOP = Path(__file__).resolve().parents[1]
TOOLS = {
    "lint": [sys.executable, "-m", "ruff", "check", "."],
    "format": [sys.executable, "-m", "ruff", "format", "--check", "."],
    "types": [sys.executable, "-m", "mypy"],
    "import order": [str(Path(sys.executable).with_name("lint-imports"))],
}


@pytest.mark.parametrize("rule", list(TOOLS))
def test_the_code_keeps_the_rule(rule: str) -> None:
    done = subprocess.run(TOOLS[rule], cwd=TOP, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


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


def test_the_gate_runs_what_the_readme_says() -> None:
    readme = (TOP / "README.md").read_text("utf-8")
    gate = (TOP / ".ci" / "run").read_text("utf-8").replace(" --quiet", "")
    command = "python3 -m venv .venv && .venv/bin/pip install '.[voice,dev]' && .venv/bin/python -m pytest"
    assert command in readme
    # And a Vosk model of a quarter of a gigabyte, without which its tests are skipped.
    assert command.replace("dev]", "dev,korean]") in gate
