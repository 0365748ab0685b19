"""Records: to be read, for a machine, for a spreadsheet; and whether a run is whole."""

import csv
import io
import json
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.files.library import runs_folder
from guide.run.journal import Damaged
from guide.run.log.form import event_line, read_line
from guide.run.log.reading import read_log
from guide.run.store import open_run, recover
from tests.cli.program import CHECKOUT, hingeside
from tests.run.kept_runs import chained_anew, kept_run, lines_of, parsed, tamper

GYM_STORE = str(CHECKOUT / "tests" / "run" / "procedures" / "gym-store.yaml")
FINISHED = (
    *("wood", "yes", "=HYPERLINK(1)", "", "36 in", "note +44 is the extension", "", "0"),
    *("yes", "begin", "done", "", "yes"),
)
Printed = pytest.CaptureFixture[str]


@pytest.fixture
def finished() -> Path:
    """A finished run of the gym store's door."""
    assert hingeside("run", GYM_STORE, "--plain", lines=FINISHED).status == 0
    (path,) = runs_folder().glob("*.run")
    return path


def test_the_record_reads_as_a_page(finished: Path, capsys: Printed) -> None:
    assert main(["record", finished.stem]) == 0
    text = capsys.readouterr().out
    for line in (
        "Finished",
        "  The 36 in leaf closes by itself.",
        "  Nothing.",
        "  4. How wide is the leaf? 36 in; keyed",
        "  Size: 3",
        "  Drill the lead holes in the leaf: done. Which leaf: Timber; How wide: 36 in; size: 3",
        "  2. Read back: hold-timber",
    ):
        assert line in text.splitlines(), line
    assert text.endswith(
        "The maker's sheet, the listing, the local code and the authority having jurisdiction govern.\n"
    )


def test_the_record_for_a_machine_has_the_events_with_it(finished: Path, capsys: Printed) -> None:
    assert main(["record", finished.stem, "--format", "json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["outcome"] == "finished"
    assert data["facts"]["width"]["value"] == "36 in"
    assert [event["seq"] for event in data["journal"]] == list(range(1, data["events"] + 1))
    assert data["cuts"][0]["at"] == "pilot"


def test_no_cell_for_a_spreadsheet_is_computed_by_it(finished: Path, capsys: Printed) -> None:
    assert main(["record", finished.stem, "--format", "csv"]) == 0
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert rows[0] == ["seq", "utc", "local", "by", "kind", "at", "value", "addendum"]
    values = [row[6] for row in rows]
    assert "'=HYPERLINK(1)" in values
    assert "'+44 is the extension" in values
    assert not any(cell[:1] in tuple("=+-@") for row in rows for cell in row)


def test_the_record_of_a_job_made_safe_says_why(capsys: Printed) -> None:
    hingeside("run", GYM_STORE, "--plain", lines=("wood", "safe the frame is cracked", "yes"))
    (path,) = runs_folder().glob("*.run")
    assert main(["record", str(path)]) == 0
    assert "Made safe and handed to the foreman: the frame is cracked" in capsys.readouterr().out


def test_a_computed_fact_that_was_never_shown_is_left_out(capsys: Printed) -> None:
    """The width is known and the size could be computed from it, but the run never came so far."""
    hingeside("run", GYM_STORE, "--plain", lines=("wood", "no", "", "50 in"))
    (path,) = runs_folder().glob("*.run")
    assert main(["record", str(path)]) == 0
    assert "size" not in capsys.readouterr().out


def test_verify_names_the_last_digest_that_the_record_names(
    finished: Path, capsys: Printed
) -> None:
    assert main(["record", "--verify", str(finished)]) == 0
    verified = capsys.readouterr().out
    assert main(["record", finished.stem, "--format", "json"]) == 0
    digest = json.loads(capsys.readouterr().out)["last_digest"]
    assert verified.startswith(f"{finished.name}: unbroken, ")
    assert "lines, ended; lines cut from the end or a file rewritten" in verified
    assert verified.endswith(f"cannot be seen from the file alone: compare {digest}\n")
    assert main(["record", finished.stem]) == 0
    assert f"  Last digest: {digest}" in capsys.readouterr().out.splitlines()


def test_the_digest_of_a_record_tells_a_file_that_was_rewritten_throughout(
    finished: Path, capsys: Printed
) -> None:
    digest = read_log(finished).digest
    lines = parsed(finished)
    chained_anew(finished, [*lines[:-1], {**lines[-1], "utc": "2001-01-01T00:00:00.000Z"}])
    (finished.parent.parent / "catalogue.sqlite").unlink()
    assert main(["record", "--verify", str(finished)]) == 0
    assert "unbroken" in capsys.readouterr().out
    assert main(["record", "--verify", str(finished), "--digest", digest]) == 1
    out, err = capsys.readouterr()
    assert (out, "BROKEN" in err) == ("", True)


def test_the_digest_of_an_earlier_record_is_found_and_what_was_added_since_is_said(
    capsys: Printed,
) -> None:
    path = kept_run()
    digest = read_log(path).digest
    open_run(path).close()
    assert main(["record", "--verify", str(path), "--digest", digest]) == 0
    assert "holds the line of that digest; 1 lines were added since" in capsys.readouterr().out
    assert main(["record", "--verify", str(path), "--digest", digest[:-1]]) == 2


def test_lines_cut_from_the_end_are_missed_on_the_device_that_knew_them(capsys: Printed) -> None:
    path = kept_run()
    path.write_bytes(b"".join(lines_of(path)[:-3]))
    assert main(["record", "--verify", str(path)]) == 1
    assert "3 lines known here are gone" in capsys.readouterr().err
    (path.parent.parent / "catalogue.sqlite").unlink()
    assert main(["record", "--verify", str(path)]) == 0


def test_a_file_that_is_not_the_one_known_here_is_told(capsys: Printed) -> None:
    path = kept_run()
    lines = parsed(path)
    lines[3]["by"] = "Somebody else"
    chained_anew(path, lines)
    assert main(["record", "--verify", str(path)]) == 1
    assert "not the file that is known here" in capsys.readouterr().err


def test_a_broken_run_is_vouched_for_in_nothing(capsys: Printed) -> None:
    path = kept_run()
    tamper(path, 5, b"36 in", b"46 in")
    assert main(["record", "--verify", str(path)]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "BROKEN" in err
    assert "changed or damaged after its event 4" in err


def test_a_repaired_run_says_so_first_and_on_its_record(capsys: Printed) -> None:
    path = kept_run()
    tamper(path, 5, b"36 in", b"46 in")
    with pytest.raises(Damaged) as found:
        open_run(path)
    recover(path, found.value, "A. Fitter")
    assert main(["record", "--verify", str(path)]) == 0
    first, second = capsys.readouterr().out.splitlines()
    assert "REPAIRED" in first
    assert "what was damaged was removed, 4 lines; kept as gym-store" in first
    assert "unbroken, 5 events" in second
    for form in ("text", "json"):
        assert main(["record", path.stem, "--format", form]) == 0
        assert "what was damaged was removed, 4 lines" in capsys.readouterr().out


HIDDEN = "Gym\x1b[2J\x9b\u202estore\u2066\r\x00"


def strange_run(where: str = "about") -> Path:
    """A run with what a terminal obeys in the names of its door, and perhaps elsewhere, as a stranger may send it."""
    path = kept_run()
    raw = lines_of(path)
    line = read_line(raw[1][:-1])
    body = line.events[0][2]
    body["about"]["door"] = body["about"]["site"] = HIDDEN
    if where == "title":
        body["title"] = body["graph"]["title"] = HIDDEN
    elif where == "question":
        body["graph"]["facts"][0]["ask"] = HIDDEN
    text, _ = event_line(line)
    path.write_bytes(raw[0] + text)
    words = HIDDEN if where == "note" else "Gym store."
    noted = {
        **parsed(kept_run())[-1],
        "events": [["0" * 32, "noted", {"at": "leaf-of", "text": words}]],
    }
    return chained_anew(path, [*parsed(path), noted])


@pytest.mark.parametrize("form", ["text", "json", "csv"])
def test_nothing_that_a_terminal_obeys_is_printed_of_a_strangers_run(
    capsys: Printed, form: str
) -> None:
    path = strange_run()
    assert main(["record", str(path), "--format", form]) == 0
    out = capsys.readouterr().out
    assert "Gym" in out
    assert all(char.isprintable() for char in out.replace("\r\n", "").replace("\n", ""))


@pytest.mark.parametrize("where", ["title", "question", "note"])
def test_where_no_job_of_ours_has_such_signs_a_strangers_run_is_refused_in_a_sentence(
    capsys: Printed, where: str
) -> None:
    path = strange_run(where)
    assert main(["record", str(path)]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert "does not hold a whole run" in printed.err
    assert printed.err.removesuffix("\n").isprintable()


def test_a_strangers_run_can_be_read_from_anywhere_and_stays_as_it_is(
    capsys: Printed, tmp_path: Path
) -> None:
    path = tmp_path / "sent.run"
    path.write_bytes(strange_run().read_bytes())
    before = path.read_bytes()
    (runs_folder().parent / "catalogue.sqlite").unlink()
    assert main(["record", str(path)]) == 0
    assert main(["record", "--verify", str(path)]) == 0
    capsys.readouterr()
    assert main(["run", "--resume", str(path), "--plain"]) == 2
    assert "can only be read" in capsys.readouterr().err
    assert [one.name for one in tmp_path.iterdir()] == ["sent.run"]
    assert path.read_bytes() == before


def test_an_output_never_lands_among_the_runs(
    finished: Path, capsys: Printed, tmp_path: Path
) -> None:
    before = finished.read_bytes()
    link = tmp_path / "link.txt"
    link.symlink_to(finished)
    for output in (finished, finished.with_name("record.txt"), link):
        assert main(["record", finished.stem, "-o", str(output)]) == 2
        assert "in the folder of the jobs" in capsys.readouterr().err
    assert finished.read_bytes() == before
    assert [one.name for one in finished.parent.iterdir()] == [finished.name]


def test_an_older_record_stays_until_the_new_one_is_whole(
    finished: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wanted = tmp_path / "gym-store.txt"
    wanted.write_text("The record of last week.")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr("guide.files.writing.write_all", full)
        assert main(["record", finished.stem, "-o", str(wanted)]) == 3
    assert wanted.read_text() == "The record of last week."
    assert list(tmp_path.iterdir()) == [wanted]


def test_a_record_is_written_where_it_is_wanted(
    finished: Path, tmp_path: Path, capsys: Printed
) -> None:
    wanted = tmp_path / "gym-store.txt"
    assert main(["record", finished.stem, "-o", str(wanted)]) == 0
    assert wanted.read_text("utf-8").startswith("RECORD: A closer on the gym store door")
    nowhere = tmp_path / "no-folder" / "x.txt"
    assert main(["record", finished.stem, "-o", str(nowhere)]) == 3
    assert f"No such file or directory ({nowhere})" in capsys.readouterr().err
