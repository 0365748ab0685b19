"""Sheets that are kept: read without parsing, never when the file has changed."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from guide.files.findings import BadFile
from guide.files.library import find
from guide.files.stored_form import STORED_FORM
from guide.procedure.sheet_cache import cache_folder, sheet_of

pytestmark = pytest.mark.usefixtures("own_cache")


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    """A copy of a shipped sheet, as an owner would change it."""
    path = tmp_path / "back-door.yaml"
    path.write_bytes(find("sheet", "generic-a").read_bytes())
    return path


def kept() -> Path:
    (entry,) = cache_folder().glob("sheet-*.json")
    return entry


def test_a_kept_sheet_is_the_sheet_and_is_read_without_yaml_pydantic_and_hashlib(
    sheet: Path,
) -> None:
    program = (
        "import sys; from pathlib import Path; from guide.procedure.sheet_cache import cache_folder, sheet_of; "
        "print(sheet_of(Path(sys.argv[1])).to_json()); "
        "print(*[one for one in ('yaml', 'pydantic', 'hashlib') if one in sys.modules])"
    )
    fresh = sheet_of(sheet)
    assert sheet_of(sheet) == fresh
    call = [sys.executable, "-c", program, str(sheet)]
    told = subprocess.run(call, check=True, capture_output=True, text=True).stdout.splitlines()
    assert told == [str(fresh.to_json()), ""]


def test_a_changed_sheet_is_read_again(sheet: Path) -> None:
    assert sheet_of(sheet).sizes[1] == 6
    sheet.write_text(sheet.read_text().replace("sizes: 1 to 6", "sizes: 1 to 4"))
    assert sheet_of(sheet).sizes[1] == 4


def test_a_sheet_that_broke_or_went_is_told_although_it_was_kept(sheet: Path) -> None:
    sheet_of(sheet)
    sheet.write_text(sheet.read_text().replace("units: inch", "units: ell"))
    with pytest.raises(BadFile, match="ell"):
        sheet_of(sheet)
    sheet.unlink()
    with pytest.raises(BadFile, match=r"back-door\.yaml"):
        sheet_of(sheet)


def test_a_mark_at_the_beginning_of_a_sheet_does_not_spoil_the_entry(sheet: Path) -> None:
    sheet.write_bytes(b"\xef\xbb\xbf" + sheet.read_bytes())
    sheet_of(sheet)
    _set("about", "Read from the cache")
    assert sheet_of(sheet).about == "Read from the cache"


def test_an_entry_of_another_file_is_not_taken_for_ones_own(sheet: Path) -> None:
    fresh = sheet_of(sheet)
    _set("about", "Another closer")
    entry = json.loads(kept().read_text("utf-8"))
    kept().write_text(json.dumps(entry | {"path": "/elsewhere/front-door.yaml"}))
    assert sheet_of(sheet) == fresh


def test_an_entry_of_another_version_is_made_again(sheet: Path) -> None:
    fresh = sheet_of(sheet)
    _set("about", "Another closer")
    entry = json.loads(kept().read_text("utf-8"))
    kept().write_text(json.dumps(entry | {"format": STORED_FORM - 1}))
    assert sheet_of(sheet) == fresh
    assert json.loads(kept().read_text("utf-8"))["format"] == STORED_FORM


@pytest.mark.parametrize("data", [b"", b"{", b"[]", b"{}", b'{"format": 2}', b"\xff\xfe"])
def test_an_entry_that_cannot_be_read_is_passed_over(sheet: Path, data: bytes) -> None:
    fresh = sheet_of(sheet)
    kept().write_bytes(data)
    assert sheet_of(sheet) == fresh


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere every name of a file is text")
def test_a_sheet_whose_name_is_no_text_is_read_and_not_kept(sheet: Path) -> None:
    odd = sheet.rename(sheet.with_name(os.fsdecode(b"back-door-\xff.yaml")))
    assert sheet_of(odd).sheet == "generic-a"
    assert list(cache_folder().iterdir()) == []


def _set(key: str, value: str) -> None:
    entry = json.loads(kept().read_text("utf-8"))
    entry["sheet"][key] = value
    kept().write_text(json.dumps(entry))
