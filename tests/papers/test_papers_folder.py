"""The papers of a job in hand: written to one folder, and told with the place."""

from pathlib import Path

import pytest

from guide.files.library import papers_folder
from guide.papers.papers_folder import put_papers
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.settings import Settings, save_settings
from tests.run.shipped_runs import carried_shipped


def play(name: str) -> Session:
    """A shipped scenario at its end."""
    state = carried_shipped(name)[1][-1].state
    return Session(MemoryJournal(), state, "this device")


def test_a_job_with_a_sheet_leaves_record_and_template() -> None:
    session = play("demo")
    told = " ".join(put_papers(session))
    written = sorted(path.name for path in papers_folder().iterdir())
    stem = f"fit-surface-closer-demo-{session.state.run[:6]}"
    assert written == [f"{stem}-record.html", f"{stem}-record.pdf", f"{stem}-template.pdf"]
    assert str(papers_folder() / f"{stem}-template.pdf") in told
    assert "printed at 100 percent" in told
    assert (papers_folder() / f"{stem}-template.pdf").read_bytes().startswith(b"%PDF")


def test_without_a_sheet_the_record_alone_is_written_and_the_reason_said() -> None:
    told = " ".join(put_papers(play("kitchen-after-punching")))
    assert {path.suffix for path in papers_folder().iterdir()} == {".html", ".pdf"}
    assert not any("template" in path.name for path in papers_folder().iterdir())
    assert "No template: this job has no sheet" in told
    assert "Use the paper from the box." in told


def test_a_folder_that_cannot_be_made_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "papers").write_text("a file in its way")
    monkeypatch.setenv("HINGESIDE_HOME", str(tmp_path))
    (told,) = put_papers(play("demo"))
    assert told.startswith("Nothing is written: ")


def test_before_the_opening_is_known_what_is_missing_is_said_in_words() -> None:
    first = carried_shipped("demo")[1][0].state
    _, told = put_papers(Session(MemoryJournal(), first, "this device"))
    assert told.endswith("No template yet: not answered are hinge side, hinge, mount, opening.")


def test_a_signature_that_is_not_a_picture_is_told(tmp_path: Path) -> None:
    (tmp_path / "signed.png").write_text("A. Fitter")
    save_settings(Settings(signature=str(tmp_path / "signed.png")))
    (told,) = put_papers(play("adjust-one-valve"))
    assert told == (
        "Nothing is written. Your signature, in the settings: signed.png is not a JPEG or PNG picture; attach one of"
        " those."
    )
