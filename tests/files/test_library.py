"""Where files are found: by name, by path, the person's own before shipped ones."""

from pathlib import Path

import pytest

from guide.files.library import NotFound, catalogue, find, shipped_folder, user_folder


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The person's own procedures, and a folder to stand in that has none."""
    folder = user_folder() / "procedures"
    folder.mkdir(parents=True)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.chdir(elsewhere)
    return folder


def test_a_shipped_procedure_is_found_by_name_from_anywhere(own: Path) -> None:
    path = find("procedure", "right-size")
    assert path == shipped_folder() / "procedures" / "right-size.yaml"
    assert find("procedure", "right-size.yaml") == path


@pytest.mark.parametrize(
    ("kind", "name"), [("sheet", "generic-a"), ("scenario", "demo"), ("procedure", "make-safe")]
)
def test_each_kind_has_its_own_folder(own: Path, kind: str, name: str) -> None:
    assert find(kind, name).is_file()


def test_the_persons_own_file_stands_before_the_shipped_one(own: Path) -> None:
    mine = own / "right-size.yaml"
    mine.write_text("procedure: right-size\n")
    assert find("procedure", "right-size") == mine
    entry = next(one for one in catalogue("procedure") if one.name == "right-size")
    assert (entry.path, entry.own) == (mine, True)
    mine.unlink()
    assert not next(one for one in catalogue("procedure") if one.name == "right-size").own


def test_a_path_is_taken_from_where_the_person_stands(own: Path) -> None:
    here = Path("closet-door.yaml")
    here.write_text("procedure: closet-door\n")
    assert find("procedure", "closet-door.yaml") == here
    assert find("procedure", "./closet-door.yaml").samefile(here)
    assert find("procedure", str(here.resolve())).samefile(here)


def test_a_file_that_is_being_worked_on_is_not_passed_over_for_a_shipped_one(own: Path) -> None:
    here = Path("right-size.yaml")
    here.write_text("procedure: right-size\n")
    assert find("procedure", "right-size.yaml") == here
    assert find("procedure", "right-size") != here


def test_a_misspelt_name_brings_the_nearest(own: Path) -> None:
    with pytest.raises(
        NotFound, match="There is no procedure “rihgt-size”; did you mean “right-size”"
    ):
        find("procedure", "rihgt-size")
    with pytest.raises(NotFound, match="there are: generic-a, generic-b"):
        find("sheet", "zzz")


@pytest.mark.parametrize(
    "name",
    [
        "",
        " ",
        "a\0b",
        "x" * 5000,
        "x" * 130,
        "no/such/file",
        "../right-size",
        "a\\b",
        "\x1b[2J",
        "a\nb",
        "~",
    ],
)
def test_an_odd_name_is_told_in_one_line(own: Path, name: str) -> None:
    with pytest.raises(NotFound) as missing:
        find("procedure", name)
    message = str(missing.value)
    assert message.isprintable()
    assert len(message) < 500


@pytest.mark.parametrize("name", [".", "..", "/"])
def test_a_folder_is_handed_on_to_be_told_as_one(own: Path, name: str) -> None:
    assert find("procedure", name).is_dir()


def test_the_library_lists_files_only_and_by_name(own: Path) -> None:
    (own / "drafts.yaml").mkdir()
    (own / "notes.txt").write_text("")
    names = [one.name for one in catalogue("procedure")]
    assert names == sorted(names)
    assert "drafts" not in names
    assert "notes" not in names
    assert "right-size" in names
