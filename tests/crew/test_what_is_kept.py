"""The handbook's page on what is kept about people: each of its commands does what it says."""

import json
import re
import shlex
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.handbook.pages import page_text
from tests.crew.devices import NOTES, begun, held, noted, put, run_of

PAGE = page_text("user", "what-is-kept")


def commands() -> list[list[str]]:
    """The commands of the page, in its order."""
    lines = re.findall(r"^    hingeside (.*)$", PAGE, re.MULTILINE)
    return [shlex.split(line.replace("JOB", "gym")) for line in lines]


def test_the_commands_of_the_page_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, own_home: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    gym = put(own_home, "gym", begun("Gym store"))
    put(tmp_path / "tablet", "gym", longer := noted(begun("Gym store"), NOTES[0]))
    put(tmp_path / "phone", "stage", stage := begun("Stage left"))
    ran = [command[0] for command in commands() if main(command) == 0]
    assert ran == ["backup", "restore", "merge", "settings", "backup", "record"]
    assert held(own_home) == {longer, stage}
    record = json.loads("{" + capsys.readouterr().out.partition("\n{")[2])
    assert record["run"] == run_of(gym.read_bytes())
