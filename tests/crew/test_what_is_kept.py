"""The handbook's page on what is kept about people: each of its commands does what it says."""

import json
import re
import shlex
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.crew.push import push
from guide.crew.server import Server
from guide.handbook.pages import page_text
from tests.crew.devices import NOTES, begun, held, noted, put, run_of
from tests.crew.postgres import OWNER, database, said_by

PAGE = page_text("user", "what-is-kept")


def commands() -> list[list[str]]:
    """The commands of the page, in its order."""
    return [shlex.split(line) for line in re.findall(r"^    hingeside (.*)$", PAGE, re.MULTILINE)]


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


@pytest.mark.needs("postgres", "python:psycopg")
def test_the_owner_of_a_server_can_remove_a_job(tmp_path: Path) -> None:
    gym, stage = begun("Gym store"), begun("Stage left")
    put(tmp_path, "gym", gym)
    put(tmp_path, "stage", stage)
    (statements,) = re.findall(r"```sql\n(.*?)```", PAGE, re.DOTALL)
    with database() as folder:
        server = Server(f"postgresql://{OWNER}@/postgres?host={folder}")
        server.prepare()
        push(server, tmp_path / "runs")
        server.close()
        said_by(folder, statements.replace("NAME", run_of(gym)))
        left = said_by(folder, "SELECT DISTINCT run FROM hingeside.line")
        assert left == [(run_of(stage),)]
        armed = said_by(folder, "SELECT tgenabled FROM pg_trigger WHERE tgname = 'only_added'")
        assert armed in ([("O",)], [(b"O",)])
