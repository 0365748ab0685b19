"""No front end decides anything by the name of a command, but in the tables that translate to those names."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import guide
from guide.words.commands import ANSWERS, COMMANDS, VOICE

GUIDE = Path(guide.__file__).parent
NAMES = frozenset(command.name for command in (*COMMANDS, *ANSWERS, *VOICE))
TABLES = frozenset(("screens/run_keys.py", "plain/line_words.py"))
"""Where keys and lines become commands. Words said do so in `run/talk_commands.py`."""
PRACTICE = "plain/practice.py"
"""A practice door is no run: its lines have words of their own."""
OF_THE_EAR = {"screens/talking.py": "_PERHAPS_TALK", "speech/ear.py": "_MAY_GO_ON"}
"""The ear's reasons why nothing counts: one of them, “unsure”, is an answer's name too."""
OF_A_SHEET = frozenset(f"plain/sheet_{name}.py" for name in ("dialogue", "paper", "questions"))
"""Copying a sheet is no run either: its lines and its answers have words of their own."""
SETTINGS = "screens/settings_screen.py"
"""One of the settings has a command's name."""
ELSEWHERE = {PRACTICE, SETTINGS, *OF_A_SHEET, *TABLES, *OF_THE_EAR}
FILES = sorted(
    str(path.relative_to(GUIDE))
    for part in ("screens", "plain", "speech")
    for path in (GUIDE / part).rglob("*.py")
)


def compared(source: str) -> Iterator[tuple[int, str]]:
    """The line and the name where a source compares with a command's name, or looks something up by it."""
    tree = ast.parse(source)
    tables = {
        target.id
        for node in tree.body
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value and _names_in(node.value)
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        if isinstance(target, ast.Name)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = (node.left, *node.comparators)
            for side in sides:
                yield from ((node.lineno, name) for name in _names_in(side))
                if isinstance(side, ast.Name) and side.id in tables:
                    yield node.lineno, side.id
        elif isinstance(node, ast.MatchValue):
            yield from ((node.lineno, name) for name in _names_in(node))
        elif isinstance(node, ast.Dict):
            yield from (
                (node.lineno, key.value)
                for key in node.keys
                if isinstance(key, ast.Constant) and key.value in NAMES
            )


def _names_in(node: ast.AST) -> list[str]:
    """The names of commands that stand in a literal: alone, or in a tuple, a list or a set."""
    if isinstance(node, ast.Constant):
        return [node.value] if isinstance(node.value, str) and node.value in NAMES else []
    if isinstance(node, ast.Tuple | ast.List | ast.Set):
        return [name for one in node.elts for name in _names_in(one)]
    if isinstance(node, ast.MatchValue):
        return _names_in(node.value)
    return []


@pytest.mark.parametrize("file", [one for one in FILES if one not in ELSEWHERE])
def test_no_command_is_told_by_its_name(file: str) -> None:
    assert list(compared((GUIDE / file).read_text("utf-8"))) == []


@pytest.mark.parametrize(("file", "reasons"), OF_THE_EAR.items())
def test_there_the_reasons_of_the_ear_are_all_that_is_compared(file: str, reasons: str) -> None:
    found = list(compared((GUIDE / file).read_text("utf-8")))
    assert [name for _, name in found] == [reasons]


@pytest.mark.parametrize("file", sorted(TABLES))
def test_the_tables_are_where_they_are_said_to_be(file: str) -> None:
    assert list(compared((GUIDE / file).read_text("utf-8")))


@pytest.mark.parametrize(
    "line",
    [
        'if name == "pause": leave()',
        'if name in ("draw", "turn"): draw()',
        'does = {"back": look}',
        'match name:\n    case "help": show()',
        'LOOKS = ("back", "forward")\nif name in LOOKS: look()',
    ],
)
def test_a_comparison_would_be_found(line: str) -> None:
    assert list(compared(line))


def test_the_desk_needs_no_front_end_and_no_reader_of_files() -> None:
    look = "import sys, guide.run.desk; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    heavy = {"textual", "pydantic", "yaml", "guide.screens", "guide.plain", "guide.speech"}
    assert loaded & heavy == set()
