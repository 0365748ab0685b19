"""`hingeside sheet new`: a whole sheet through a pipe, paused and taken up, and never over another file."""

import os
import signal
import subprocess
from pathlib import Path

import pytest

from guide.trade.sheet.sheet import Sheet
from tests.cli.program import CHECKOUT, COMMAND, hingeside, started
from tests.plain.larkhill import LINES as LARKHILL
from tests.plain.paper_answers import lines_for, small_paper
from tests.trade.shipped_sheets import load_sheet

LINES = lines_for(small_paper())


def test_a_whole_sheet_is_written_checked_and_laid_on_the_paper(own_home: Path) -> None:
    done = started("sheet", "new", "harbour", lines=LINES)
    assert (done.status, done.err) == (0, "")
    file = own_home / "procedures" / "sheets" / "harbour.yaml"
    assert_copied(file)
    assert list(file.parent.iterdir()) == [file]
    command = (
        '  hingeside template sheet=harbour mount=top-jamb hand=RH hinge=butt range="100 deg"'
        " -o harbour-top-jamb-RH.pdf"
    )
    assert command in done.out.splitlines()
    assert hingeside("check", str(file)).status == 0


def assert_copied(file: Path) -> None:
    copied = Sheet.from_json({**small_paper(), "sheet": "harbour"})
    assert load_sheet(file) == copied


def test_a_template_is_drawn_by_the_command_that_is_told(tmp_path: Path) -> None:
    file = tmp_path / "harbour.yaml"
    done = hingeside("sheet", "new", "harbour", "-o", str(file), lines=LINES)
    (command,) = (line for line in done.out.splitlines() if "mount=regular hand=LH" in line)
    assert f'sheet="{file}"' in command
    words = ["template", f"sheet={file}", "mount=regular", "hand=LH", "hinge=butt"]
    pdf = tmp_path / "holes.pdf"
    drawn = hingeside(*words, "range=100 deg", "-o", str(pdf))
    assert (drawn.status, pdf.read_bytes()[:5]) == (0, b"%PDF-")


def test_the_units_are_not_asked_if_they_are_given() -> None:
    lines = [LINES[0], *LINES[2:]]
    done = hingeside("sheet", "new", "harbour", "--units", "metric", lines=lines)
    assert done.status == 0
    assert "Units of the paper" not in done.out


def test_an_end_of_the_lines_leaves_a_draft_and_says_how_to_go_on(tmp_path: Path) -> None:
    file = tmp_path / "harbour.yaml"
    call = ("sheet", "new", "harbour", "-o", str(file))
    paused = hingeside(*call, lines=LINES[:40])
    assert paused.status == 0
    assert (
        f"41 answers are kept in {file}.draft. To continue: hingeside {' '.join(call)}"
        in paused.err
    )
    assert not file.exists()
    done = hingeside(*call, lines=LINES[40:])
    assert done.out.startswith(f"Taken up from {file}.draft: answers so far: 41.")
    assert_copied(file)


@pytest.mark.skipif(os.name == "nt", reason="no such signal there")
def test_ctrl_c_leaves_a_draft_too(tmp_path: Path) -> None:
    file = tmp_path / "harbour.yaml"
    with subprocess.Popen(
        [*COMMAND, "sheet", "new", "harbour", "-o", str(file)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=CHECKOUT,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write(f"{LINES[0]}\n{LINES[1]}\n")
        process.stdin.flush()
        while "Sizes (EN)" not in process.stdout.readline():
            pass
        process.send_signal(signal.SIGINT)
        _, err = process.communicate(timeout=60)
    assert (process.returncode, "3 answers are kept" in err) == (0, True)


def test_a_file_that_is_there_is_written_over_only_with_a_yes(tmp_path: Path) -> None:
    file = tmp_path / "harbour.yaml"
    file.write_text("mine", "utf-8")
    call = ("sheet", "new", "harbour", "-o", str(file))
    paused = hingeside(*call, lines=[*LINES, "no"])
    assert (paused.status, file.read_text("utf-8")) == (0, "mine")
    other = hingeside(*call, lines=[str(tmp_path / "other")])
    assert (other.status, file.read_text("utf-8")) == (0, "mine")
    assert_copied(tmp_path / "other.yaml")
    over = hingeside(*call, lines=[*LINES, "yes"])
    assert over.status == 0
    assert_copied(file)


def test_one_number_of_a_finished_sheet_is_corrected(tmp_path: Path) -> None:
    file = tmp_path / "harbour.yaml"
    new, edit = (("sheet", verb, "harbour", "-o", str(file)) for verb in ("new", "edit"))
    assert hingeside(*new, lines=LINES).status == 0
    again = hingeside(*new)
    words = " ".join(again.out.split())
    assert "is there already. To correct it, stop here and type: hingeside sheet edit" in words
    file.with_name("harbour.yaml.draft").unlink()
    listed = hingeside(*edit, lines=["list all", "stop"])
    (row,) = (line for line in listed.out.splitlines() if "Body, height: 60 mm" in line)
    done = hingeside(*edit, lines=[f"change {row.split()[0]}", "62", "keep"])
    assert (done.status, done.err) == (0, "")
    taller = {**small_paper(), "sheet": "harbour"}
    taller["body"]["height"] = "62 mm"
    assert load_sheet(file) == Sheet.from_json(taller)


def test_a_sheet_that_is_not_there_is_copied_first(tmp_path: Path) -> None:
    done = hingeside("sheet", "edit", "harbour", "-o", str(tmp_path / "harbour.yaml"))
    assert done.status == 2
    assert "is not there; copy it first: hingeside sheet new harbour" in done.err


def test_the_drawings_that_are_told_are_with_the_plate_and_without(own_home: Path) -> None:
    """The invented paper of Larkhill, whose regular arm has a drop plate below a rail of 3 1/2 in."""
    done = hingeside("sheet", "new", "larkhill", lines=LARKHILL)
    assert (done.status, done.err) == (0, "")
    words = " ".join(done.out.split())
    assert "worked out from the rows as 25/32 in" in words
    assert "a top rail lower than 3 1/2 in" in words
    for room in ("fits", "plate"):
        assert f'range="100 deg" room={room} -o larkhill-regular' in words
    sheet = own_home / "procedures" / "sheets" / "larkhill.yaml"
    door = [f"sheet={sheet}", "mount=regular", "hand=LH", "hinge=butt", "range=100 deg"]
    unknown = hingeside("template", *door, "-o", str(own_home / "holes.pdf"))
    assert unknown.status != 0
    assert "Measure the top rail" in unknown.err
    assert not (own_home / "holes.pdf").exists()


def test_an_error_that_is_left_is_told_and_is_the_status(tmp_path: Path) -> None:
    """The regular arm's shoe at 239 mm where the paper has 329 mm, and left so."""
    file = tmp_path / "harbour.yaml"
    lines = list(LINES)
    lines[lines.index("329 mm")] = "239"
    done = hingeside("sheet", "new", "harbour", "-o", str(file), lines=[*lines, *[""] * 9])
    assert done.status == 1
    assert f"cannot be right: hingeside check {file}" in done.err
    assert hingeside("check", str(file)).status == 1


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (("sheet",), "required: new|edit, NAME"),
        (("sheet", "new"), "required: NAME"),
        (("sheet", "new", "Back Door"), "write small letters and digits joined by hyphens"),
        (("sheet", "new", "harbour", "--json"), "unrecognized arguments: --json"),
        (("sheet", "new", "harbour", "--units", "feet"), "invalid choice: 'feet'"),
    ],
)
def test_a_wrong_call_is_one_sentence(call: tuple[str, ...], says: str) -> None:
    done = hingeside(*call)
    assert (done.status, done.out) == (2, "")
    assert says in done.err
    assert len(done.err.splitlines()) == 1


def test_a_folder_is_no_file_to_write(tmp_path: Path) -> None:
    done = hingeside("sheet", "new", "small-closer", "-o", str(tmp_path))
    assert (done.status, done.out) == (2, "")
    assert "is a folder" in done.err
    assert list(tmp_path.glob("*.draft")) == []


def test_a_full_disk_or_a_spoilt_draft_is_a_sentence(tmp_path: Path) -> None:
    file = tmp_path / "harbour.yaml"
    full = started("sheet", "new", "harbour", "-o", str(file), lines=LINES, largest_file=400)
    assert (full.status, "Traceback" in full.err) == (3, False)
    file.with_name("harbour.yaml.draft").write_text("{", "utf-8")
    spoilt = hingeside("sheet", "new", "harbour", "-o", str(file), lines=LINES)
    assert (spoilt.status, "is not a draft of a sheet" in spoilt.err) == (1, True)
