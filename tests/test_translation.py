"""Texts that are marked can be found, and a catalogue translates them; without one they are as written."""

import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo

from guide.plain.line_words import HINTS
from guide.run.desk_words import FIRST, WAITS
from guide.translation import DOMAIN

TOP = Path(__file__).resolve().parents[1]
GYM_STORE = TOP / "tests" / "run" / "procedures" / "gym-store.yaml"
MARKED_AT_LEAST = 70


def marked() -> dict[str, set[str]]:
    """Each marked text, with the files it is in."""
    found: dict[str, set[str]] = {}
    for name, _, text, *_ in extract_from_dir(TOP / "guide", method_map=[("**.py", "python")]):
        assert isinstance(text, str)
        found.setdefault(text, set()).add(Path(name).as_posix())
    return found


def test_the_texts_of_desk_and_lines_are_marked() -> None:
    found = marked()
    assert len(found) >= MARKED_AT_LEAST
    assert found["Noted."] == {"run/desk_words.py"}
    assert {FIRST, *WAITS.values(), *HINTS.values()} <= set(found)


def test_a_catalogue_translates_a_job_line_by_line(tmp_path: Path, own_home: Path) -> None:
    """German is our own, for this test."""
    catalogue = Catalog(locale="de", domain=DOMAIN)
    catalogue.add("Enter or “done” when it is done.", "Enter oder „done“, wenn es getan ist.")
    catalogue.add("Answer first: {pick}.", "Zuerst die Antwort: {pick}.")
    made = BytesIO()
    write_mo(made, catalogue)
    path = tmp_path / "de" / "LC_MESSAGES" / f"{DOMAIN}.mo"
    path.parent.mkdir(parents=True)
    path.write_bytes(made.getvalue())
    done = subprocess.run(
        [sys.executable, "-m", "guide.cli.main", "run", str(GYM_STORE), "--plain"],
        input="\n\nwood\nno\n",
        env={**os.environ, "LANGUAGE": "de", "HINGESIDE_CATALOGUES": str(tmp_path)},
        cwd=TOP,
        capture_output=True,
        text=True,
        check=True,
    )
    assert "! Zuerst die Antwort: type the number of the answer, 1 to 3" in done.stdout
    assert "  Enter oder „done“, wenn es getan ist." in done.stdout
    assert "What is the leaf made of?" in done.stdout  # a procedure's words are the trainer's
