"""Compiled graphs that are kept: read without parsing, never when a file has changed."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.findings import BadFile
from guide.files.stored_form import STORED_FORM
from guide.procedure import stored_graph
from guide.procedure.graph import Graph
from guide.procedure.sheet_cache import cache_folder
from guide.procedure.stored_graph import BadGraph
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from tests.procedure.sample_procedure import CLOSET_DOOR

pytestmark = pytest.mark.usefixtures("own_cache")

PART = (
    "procedure: part\ntitle: A part\ncounts_on: []\nsteps: [{do: {id: clean, text: Clean it.}}]\n"
)


@pytest.fixture
def door(tmp_path: Path) -> Path:
    """A procedure with a part beside it."""
    path = tmp_path / "closet-door.yaml"
    path.write_text(
        CLOSET_DOOR.replace("\nsteps:\n", "\nsteps:\n  - include: {id: first, file: part.yaml}\n")
    )
    (tmp_path / "part.yaml").write_text(PART)
    return path


DEAR = ("yaml", "pydantic", "sqlite3", "filelock", "guide.run.photos")


def kept() -> Path:
    (entry,) = cache_folder().glob("*.json")
    return entry


def test_a_kept_graph_is_the_graph(door: Path) -> None:
    fresh = graph_of(door)
    assert graph_of(door) == fresh


def test_a_run_of_a_kept_graph_begins_without_yaml_database_or_photos(door: Path) -> None:
    """They are dear to load, and its first step is on the screen the sooner."""
    program = (
        "import sys; from pathlib import Path; from guide.checker.graph_cache import graph_of\n"
        "from guide.run.store import begin_run\n"
        "graph = graph_of(Path(sys.argv[1])); begin_run(graph, units='inch')\n"
        f"dear = {DEAR!r}\n"
        "print(len(graph.nodes), *(name for name in dear if name in sys.modules))"
    )

    def fresh_process() -> list[str]:
        call = [sys.executable, "-c", program, str(door)]
        return subprocess.run(call, check=True, capture_output=True, text=True).stdout.split()

    nodes = str(len(graph_of(door).nodes))
    assert fresh_process() == [nodes]
    kept().unlink()
    assert fresh_process() == [nodes, "yaml", "pydantic"]


def test_a_run_begun_from_a_kept_graph_is_one_begun_from_the_file(door: Path) -> None:
    compiled, again = graph_of(door), graph_of(door)
    assert (compiled.checked, again.checked) == (False, True)
    first, second = (
        Session.begin(MemoryJournal(), graph, device="bench").state for graph in (compiled, again)
    )
    assert first.graph == second.graph
    assert [node.loops for node in first.graph.nodes] == [n.loops for n in second.graph.nodes]
    assert second.graph is not again
    assert second.graph.nodes[0] is not again.nodes[0]


def test_a_graph_that_no_run_may_hold_is_not_kept(
    door: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It would be taken from the cache unchecked, and the run begun with it could not be opened again."""

    def refuse(_: object) -> Graph:
        raise BadGraph("The procedure in this job cannot be run: it has no blocks.")

    monkeypatch.setattr(stored_graph, "read_stored", refuse)
    assert not graph_of(door).checked
    assert not list(cache_folder().glob("*.json"))


def test_a_changed_part_is_compiled_again(door: Path) -> None:
    graph_of(door)
    door.with_name("part.yaml").write_text(PART.replace("Clean it.", "Clean the top rail."))
    assert graph_of(door).nodes[0].body["text"] == "Clean the top rail."


def test_a_part_that_broke_is_told_although_the_graph_was_kept(door: Path) -> None:
    graph_of(door)
    door.with_name("part.yaml").write_text("procedure: part\n")
    with pytest.raises(BadFile, match=r"part\.yaml"):
        graph_of(door)
    door.with_name("part.yaml").unlink()
    with pytest.raises(BadFile, match=r"no file “part\.yaml”"):
        graph_of(door)


def test_a_mark_at_the_beginning_of_a_file_does_not_spoil_the_entry(door: Path) -> None:
    door.write_bytes(b"\xef\xbb\xbf" + door.read_bytes())
    graph_of(door)
    entry = json.loads(kept().read_text())
    entry["graph"]["title"] = "Read from the cache"
    kept().write_text(json.dumps(entry))
    assert graph_of(door).title == "Read from the cache"


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b"{}",
        b'{"format": 1}',
        b"\xff\xfe",
        b'{"format": 1, "sources": 3}',
    ],
)
def test_an_entry_that_cannot_be_read_is_passed_over(door: Path, data: bytes) -> None:
    fresh = graph_of(door)
    kept().write_bytes(data)
    assert graph_of(door) == fresh


def test_an_entry_of_another_version_is_made_again(door: Path) -> None:
    fresh = graph_of(door)
    entry = kept()
    whole = json.loads(entry.read_text("utf-8"))
    whole["graph"]["title"] = "Another door"
    entry.write_text(json.dumps(whole))
    assert graph_of(door).title == "Another door"
    entry.write_text(json.dumps(whole | {"format": STORED_FORM + 1}))
    assert graph_of(door) == fresh
    assert json.loads(entry.read_text("utf-8"))["format"] == STORED_FORM


def test_an_entry_that_was_cut_short_is_passed_over(door: Path) -> None:
    fresh = graph_of(door)
    entry = kept()
    entry.write_bytes(entry.read_bytes()[:-200])
    assert graph_of(door) == fresh
    assert json.loads(entry.read_text())["graph"]["name"] == "closet-door"


def test_a_graph_is_made_where_none_can_be_kept(door: Path) -> None:
    # A file where the folder should be: nothing can be written below it, whoever runs the test.
    cache_folder().parent.mkdir(parents=True, exist_ok=True)
    cache_folder().write_text("")
    assert graph_of(door).name == "closet-door"
    assert cache_folder().read_text() == ""


def test_nothing_but_whole_entries_is_left_behind(door: Path) -> None:
    graph_of(door)
    assert [path.suffix for path in cache_folder().iterdir()] == [".json"]


def test_a_faulty_file_is_never_kept(door: Path) -> None:
    door.write_text(door.read_text().replace("edition: 2", "edition: two"))
    with pytest.raises(BadFile, match="whole number"):
        graph_of(door)
    assert not list(cache_folder().glob("*.json"))
