"""The commands that a page or a help text shows, and a folder in which each of them can be called."""

import csv
import json
import re
import shlex
from collections.abc import Iterator
from pathlib import Path

import openpyxl
from PIL import Image

from guide.crew.backup import write_backup
from guide.files.library import folders, runs_folder, shipped_folder
from guide.files.writing import write_beside
from guide.handbook.pages import FOLDER, USER
from guide.procedure.sheet_file import read_sheet, written_sheet
from guide.run.session import utc_now
from guide.run.settings import Settings, save_settings
from tests.crew.devices import begun, put
from tests.speech.sounds import wav

TOP = Path(__file__).resolve().parents[2]
PAGES = [TOP / "README.md", *sorted((FOLDER / USER).glob("*.md"))]
PLACEHOLDERS = {"FILE": "demo", "PROCEDURE": "fit-surface-closer"}
"""Words in capitals that a person replaces, and what they are here."""
NOT_CALLED = (
    "voice --teach",
    "voice --forget",
    "settings model=",
    "rehearse demo --voice",
    "serve",
    "crew",
)
"""What needs a microphone, a model, a server or minutes; tests/speech, tests/crew and tests/web call it."""

_IN_A_LINE = re.compile(r"`(hingeside(?: [^`]+)?)`")


def commands_of(text: str) -> Iterator[str]:
    """Each command of a page of Markdown, without the name of the program: in blocks of code, then in sentences.

    A verb alone in a sentence, as in “`hingeside plan` reads a schedule”, is only named.
    """
    for line in text.splitlines():
        if line.startswith("    "):
            yield from command_in(line)
    for inline in _IN_A_LINE.findall(text):
        yield from (command for command in command_in(inline) if " " in command)


def command_in(line: str) -> Iterator[str]:
    """The command of a line, if it is one; what is said of it comes after a “#” or two blanks."""
    found = re.match(r"\s*(?:\.venv/bin/)?hingeside(?:\s(.*))?$", line)
    if found:
        yield re.split(r"\s{2,}|\s#", (found[1] or "").strip())[0]


def words_of(command: str) -> list[str]:
    """The arguments of a command, each placeholder replaced."""
    words = shlex.split(command)
    known = PLACEHOLDERS
    if not {"JOB", "FILE.run", "DIGEST"}.isdisjoint(words):
        known = known | _of_the_first_job()
    return [known.get(word, word) for word in words]


def _of_the_first_job() -> dict[str, str]:
    """The name, the file and the last digest of the first job that is kept."""
    path = min(runs_folder().glob("*.run"))
    last = json.loads(path.read_text("utf-8").splitlines()[-1])
    return {"JOB": path.stem, "FILE.run": str(path), "DIGEST": last["digest"]}


def is_called(command: str) -> bool:
    """Whether the command can be called in a test."""
    return not command.startswith(NOT_CALLED)


def lay_out(folder: Path) -> None:
    """Put into the folder, and into the data folder, the files that the documents speak of."""
    gym_store = TOP / "tests" / "run" / "procedures" / "gym-store.yaml"
    text = gym_store.read_text("utf-8").replace("procedure: gym-store", "procedure: my-procedure")
    (folder / "my-procedure.yaml").write_text(text, "utf-8")
    tutorial = (FOLDER / USER / "first-procedure.md").read_text("utf-8")
    for block in re.findall(r"```yaml\n((?:procedure|scenario): .*?)```", tutorial, re.DOTALL):
        name = block.partition("\n")[0].partition(": ")[2]
        (folder / f"{name}.yaml").write_text(block, "utf-8")
    _copy_schedule(folder)
    wav([0] * 8000, folder / "width.wav")
    Image.new("L", (200, 60), 255).save(folder / "FILE.png")
    sheet = read_sheet(shipped_folder() / "procedures" / "sheets" / "generic-a.yaml")[1].to_json()
    for device, door in {"tablet": "Gym store", "phone": "Stage left"}.items():
        put(folder / device, door.partition(" ")[0].casefold(), begun(door))
    write_backup(folder / "tablet.zip", utc_now(), replace=False)
    own = folders("sheet")[0] / "my-closer.yaml"
    own.parent.mkdir(parents=True)
    save_settings(Settings(name="Ada Fitter"))
    write_beside(own, written_sheet({**sheet, "sheet": "my-closer"}).encode())


def _copy_schedule(folder: Path) -> None:
    shipped = shipped_folder() / "scenarios" / "schedules" / "elm-lane-school.csv"
    (folder / "doors.csv").write_bytes(shipped.read_bytes())
    book = openpyxl.Workbook()
    assert book.active is not None
    with shipped.open(encoding="utf-8", newline="") as rows:
        for row in csv.reader(rows):
            book.active.append(row)
    book.save(folder / "doors.xlsx")
