"""`hingeside handbook`: the pages listed, printed and written to files."""

import io
import json
from pathlib import Path

import pypdf
import pytest

from guide.cli.main import main
from guide.errors import DONE, UNKNOWN
from guide.handbook.pages import USER, page_names, page_text
from guide.papers.rendering.page_pdf import page_pdf

Printed = pytest.CaptureFixture[str]


def test_the_pages_are_listed_with_their_titles(capsys: Printed) -> None:
    assert main(["handbook"]) == DONE
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines[: len(page_names(USER))]] == list(page_names(USER))
    assert "safety                     Safety and limits" in lines


def test_a_page_is_read_in_plain_lines(capsys: Printed) -> None:
    assert main(["handbook", "Words", "of the trade"]) == DONE
    text = capsys.readouterr().out
    assert "Picture: A regular arm from above" in text
    assert " • Backcheck: the cushion when the leaf is pushed open hard." in text
    assert "**" not in text
    assert "\x1b" not in text
    assert max(map(len, text.splitlines())) <= 88


def test_a_finding_is_explained_as_by_check(capsys: Printed) -> None:
    assert main(["handbook", "cut-without-hold"]) == DONE
    page = capsys.readouterr().out
    assert main(["check", "--explain", "cut-without-hold"]) == DONE
    assert page == capsys.readouterr().out


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("planing", "did you mean “planning”?"),
        ("cut-with-hold", "did you mean “cut-without-hold”?"),
        ("carburettor", "“hingeside handbook” lists the pages."),
    ],
)
def test_an_unknown_topic_gets_one_sentence(typed: str, hint: str, capsys: Printed) -> None:
    assert main(["handbook", typed]) == UNKNOWN
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err == f"hingeside: The handbook has no page “{typed}”; {hint}\n"


def test_a_program_gets_json(capsys: Printed) -> None:
    assert main(["handbook", "--json"]) == DONE
    topics = json.loads(capsys.readouterr().out)["topics"]
    assert {"topic": "voice", "title": "Voice"} in topics
    assert main(["handbook", "voice", "--json"]) == DONE
    page = json.loads(capsys.readouterr().out)
    assert page["text"].startswith("# Voice\n")


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ["page-at-the-door", "page-setting-a-closer"])
def test_a_page_to_print_is_one_sheet(name: str, paper: str) -> None:
    made = pypdf.PdfReader(io.BytesIO(page_pdf(page_text(USER, name), paper)))
    assert len(made.pages) == 1
    text = made.pages[0].extract_text()
    assert "local code govern" in " ".join(text.split())


def test_a_page_goes_into_a_file_by_its_ending(tmp_path: Path, capsys: Printed) -> None:
    for name in ("safety.pdf", "safety.md", "safety.txt", "cut-without-hold.txt"):
        assert main(["handbook", name.partition(".")[0], "-o", str(tmp_path / name)]) == DONE
    assert capsys.readouterr().out == ""
    assert (tmp_path / "safety.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "safety.md").read_text("utf-8") == page_text(USER, "safety")
    assert (tmp_path / "safety.txt").read_text("utf-8").lstrip().startswith("Safety and limits")
    assert "Passes" in (tmp_path / "cut-without-hold.txt").read_text("utf-8")
