"""Texts that are marked can be found, and a catalogue translates them; without one they are as written."""

import ast
import os
import subprocess
import sys
from collections.abc import Mapping
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_file
from babel.messages.mofile import write_mo

from guide.plain.line_words import HINTS
from guide.run.desk_words import FIRST, WAITS
from guide.translation import DOMAIN

TOP = Path(__file__).resolve().parents[1]
GYM_STORE = TOP / "tests" / "run" / "procedures" / "gym-store.yaml"
MARKING = [
    path
    for path in sorted((TOP / "guide").rglob("*.py"))
    if "from guide.translation import " in path.read_text("utf-8")
]
"""The files that mark any text."""
MARKED_AT_LEAST = 700


@cache
def marked() -> dict[str, set[str]]:
    """Each marked text, with the files it is in."""
    found: dict[str, set[str]] = {}
    for path in MARKING:
        for _, texts, *_ in extract_from_file("python", path):
            for text in (texts,) if isinstance(texts, str) else texts:
                found.setdefault(text, set()).add(path.relative_to(TOP / "guide").as_posix())
    return found


def test_the_texts_of_desk_and_lines_are_marked() -> None:
    found = marked()
    assert len(found) >= MARKED_AT_LEAST
    assert found["Noted."] == {"run/desk_words.py"}
    assert {FIRST, *WAITS.values(), *HINTS.values()} <= set(found)


def test_every_mark_is_a_plain_text_that_a_catalogue_can_have() -> None:
    found = marked()
    for path in MARKING:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "_":
                (text,) = node.args
                assert isinstance(text, ast.Constant), f"{path}:{node.lineno}"
                assert text.value in found, f"{path}:{node.lineno}"


@pytest.mark.parametrize(
    ("text", "file"),
    [
        ("The job is paused; nothing is lost. Enter continues it, Ctrl+Q closes.", "screens/hingeside_app.py"),
        ("Go on with the job that is highlighted; so does a click", "screens/home_screen.py"),
        ("Not timed. A, then T: the same swing with the watch.", "screens/practice_words.py"),
        ("It comes home and latches.", "practice/wording.py"),
        ("Units of the paper", "plain/sheet_questions.py"),
    ],
)  # fmt: skip
def test_texts_of_screens_practice_and_sheets_are_marked(text: str, file: str) -> None:
    assert file in marked()[text]


def german(folder: Path, words: Mapping[Any, Any]) -> dict[str, str]:
    """The environment of a person who reads German; the words are our own, for these tests."""
    catalogue = Catalog(locale="de", domain=DOMAIN)
    for text, translated in words.items():
        catalogue.add(text, translated)
    made = BytesIO()
    write_mo(made, catalogue)
    path = folder / "de" / "LC_MESSAGES" / f"{DOMAIN}.mo"
    path.parent.mkdir(parents=True)
    path.write_bytes(made.getvalue())
    return {**os.environ, "LANGUAGE": "de", "HINGESIDE_CATALOGUES": str(folder)}


def printed(environment: dict[str, str], *call: str, typed: str = "") -> str:
    """What a call of the program prints."""
    done = subprocess.run(
        [sys.executable, *call],
        input=typed,
        env=environment,
        cwd=TOP,
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


def test_a_catalogue_translates_a_job_line_by_line(tmp_path: Path, own_home: Path) -> None:
    words = {
        "Enter or “done” when it is done.": "Enter oder „done“, wenn es getan ist.",
        "Answer first: {pick}.": "Zuerst die Antwort: {pick}.",
    }
    call = ("-m", "guide.cli.main", "run", str(GYM_STORE), "--plain")
    told = printed(german(tmp_path, words), *call, typed="\n\nwood\nno\n")
    assert "! Zuerst die Antwort: type the number of the answer, 1 to 3" in told
    assert "  Enter oder „done“, wenn es getan ist." in told
    assert "What is the leaf made of?" in told  # a procedure's words are the trainer's


SHOWS = """\
import os, pathlib
from guide.translation import ngettext, use_catalogue
use_catalogue(pathlib.Path(os.environ["HINGESIDE_CATALOGUES"]))
from guide.plain.sheet_questions import WORDS
from guide.screens.run_keys import OVER_KEYS
from guide.trade.sheet.sheet import Sheet
print(OVER_KEYS[0].word, WORDS[Sheet]["units"].ask, sep="\\n")
print(*(ngettext("{count} door", "{count} doors", count).format(count=count) for count in (1, 2)))
"""


def test_a_catalogue_translates_the_key_bar_and_the_questions_of_a_sheet(tmp_path: Path) -> None:
    words = {
        "More": "Mehr",
        "Units of the paper": "Einheiten des Blattes",
        ("{count} door", "{count} doors"): ("{count} Tür", "{count} Türen"),
    }
    told = printed(german(tmp_path, words), "-c", SHOWS)
    assert told.splitlines() == ["Mehr", "Einheiten des Blattes", "1 Tür 2 Türen"]
