"""Every command that README, a page of the handbook or `--help` shows does what it says."""

import io
import shutil
from pathlib import Path

import pytest

from guide.cli.main import VERBS, main
from guide.errors import DONE, UNKNOWN
from guide.trade.registry import COMPUTATIONS
from tests.handbook.shown_commands import (
    PAGES,
    command_in,
    commands_of,
    is_called,
    lay_out,
    words_of,
)

Printed = pytest.CaptureFixture[str]
THE_APP = ""
"""The call without a verb, which is refused here, without a terminal."""


@pytest.fixture(scope="module")
def prepared(tmp_path_factory: pytest.TempPathFactory, checked_files: Path) -> Path:
    """A home with a finished job and a sheet of one's own, and a folder `here` with the files spoken of."""
    home = tmp_path_factory.mktemp("prepared")
    (home / "cache").symlink_to(checked_files, target_is_directory=True)
    here = home / "here"
    here.mkdir()
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv("HINGESIDE_HOME", str(home))
        patched.setattr("sys.stdin", io.StringIO(""))
        lay_out(here)
        assert main(["run", "fit-surface-closer", "--door", "demo"]) == DONE
    return home


@pytest.fixture
def there(prepared: Path, own_home: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """That home as the home of this test, and its folder as the current one."""
    (own_home / "cache").unlink()
    shutil.copytree(prepared, own_home, symlinks=True, dirs_exist_ok=True)
    monkeypatch.chdir(own_home / "here")
    return own_home / "here"


def called(words: list[str], monkeypatch: pytest.MonkeyPatch) -> int:
    """The status of a call with nothing on standard input."""
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    try:
        return main(words)
    except SystemExit as leaving:
        return int(leaving.code or 0)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_command_of_a_page_can_be_called(
    page: Path, there: Path, monkeypatch: pytest.MonkeyPatch, capsys: Printed
) -> None:
    for command in dict.fromkeys(commands_of(page.read_text("utf-8"))):
        words = words_of(command)
        assert not words or words[0] in VERBS, command
        if is_called(command):
            status = called(words, monkeypatch)
            wanted = UNKNOWN if command == THE_APP else DONE
            assert status == wanted, (command, capsys.readouterr().err)


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_has_examples_that_can_be_called(
    verb: str, there: Path, monkeypatch: pytest.MonkeyPatch, capsys: Printed
) -> None:
    assert called([verb, "--help"], monkeypatch) == DONE
    shown = capsys.readouterr().out.partition("\nexamples:\n")[2]
    commands = [command for line in shown.splitlines() for command in command_in(line)]
    assert 2 <= len(commands) <= 4
    assert {command.partition(" ")[0] for command in commands} == {verb}
    # Those of a page are called page by page, and here only to prepare for another.
    of_pages = {one for page in PAGES for one in commands_of(page.read_text("utf-8"))}
    while commands and commands[-1] in of_pages:
        commands.pop()
    for command in commands:
        if is_called(command):
            status = called(words_of(command), monkeypatch)
            assert status == DONE, (command, capsys.readouterr().err)


def test_every_computation_shows_its_inputs_and_an_example(
    monkeypatch: pytest.MonkeyPatch, capsys: Printed
) -> None:
    for computation in COMPUTATIONS.values():
        assert called(["work", computation.name, "--help"], monkeypatch) == DONE
        lines = capsys.readouterr().out.splitlines()
        for one in computation.inputs:
            assert any(line.startswith(f"  {one.name}= ") for line in lines), one.name
        (command,) = command_in(lines[-1])
        assert called(words_of(command), monkeypatch) == DONE, command
        assert capsys.readouterr().out


def test_the_help_of_an_input_has_units_choices_and_limits(capsys: Printed) -> None:
    assert main(["work", "spring-size", "-h"]) == DONE
    told = " ".join(capsys.readouterr().out.split())
    assert "width= width of the leaf. Length, in, ft, mm, cm or m; 12 in to 10 ft." in told
    assert "regular if left out. One of: regular, top-jamb, parallel." in told
    assert "gives: a whole number, 1 to 7." in told
    assert "A number without a unit is read as in or lb." in told
    assert main(["work", "spring-sise", "-h"]) == UNKNOWN
    assert "did you mean spring-size?" in capsys.readouterr().err
