"""A backup: everything in one file, believed only when every byte of it is what its list says."""

import io
import json
import os
import shutil
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.crew.backup import FORM, LARGEST_WHOLE, LIST, BackupSource, BadBackup, write_backup
from guide.crew.sources import LARGEST_FILE
from guide.run.log.lock import RunLock
from guide.run.practice_results import kept_in
from guide.run.run_list import list_runs
from tests.crew.devices import NOTES, at_home, begun, held, noted, put
from tests.run.kept_runs import tamper

Printed = pytest.CaptureFixture[str]
STICK = "stick.zip"


@pytest.fixture(autouse=True)
def _in_a_folder_with_a_stick(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def van(tmp_path: Path) -> Iterator[Path]:
    """A device with a job, one that is damaged, a deleted one, a sheet and settings."""
    with at_home(tmp_path / "van") as home:
        put(home, "gym", begun("Gym store"))
        tamper(put(home, "broken", begun("Stage left")), 2, b'"wood"', b'"steel"')
        for name in ("bin/old.run", "sites/elm-lane/doors.csv", "photos/a.jpg", "settings.toml"):
            (home / name).parent.mkdir(exist_ok=True, parents=True)
            (home / name).write_bytes(b"# " + name.encode())
        (home / "device").write_text("of this device alone")
        list_runs()
        yield home


def called(capsys: Printed, *arguments: str) -> tuple[int, str, str]:
    """Call the program: status, standard output, standard error."""
    status = main(arguments)
    printed = capsys.readouterr()
    return status, printed.out, printed.err


def kept(home: Path) -> dict[str, bytes]:
    """Every file of a data folder that is not of this device alone."""
    return {
        str(path.relative_to(home)): path.read_bytes()
        for path in sorted(home.rglob("*"))
        if path.is_file() and path.name not in ("device", "catalogue.sqlite")
        if path.parent.name != "locks"
    }


def test_a_backup_restored_on_a_new_device_gives_all_there_was(
    capsys: Printed, van: Path, tmp_path: Path
) -> None:
    status, out, err = called(capsys, "backup", STICK)
    assert (status, err) == (0, "")
    assert out.startswith("stick.zip: 2 jobs, 6 files, ")
    with at_home(tmp_path / "new van") as home:
        status, out, err = called(capsys, "restore", STICK)
        assert (status, err) == (0, "")
        assert out.startswith("Jobs: 1 new")
        assert kept(home) == kept(van)
        assert not (home / "device").exists()
        assert called(capsys, "restore", STICK)[1].startswith("Jobs: 0 new, 0 continued elsewhere")
        assert kept(home) == kept(van)


def test_what_is_here_is_never_replaced_and_what_differs_is_said(
    capsys: Printed, van: Path, tmp_path: Path
) -> None:
    called(capsys, "backup", STICK)
    with at_home(tmp_path / "tablet") as home:
        put(home, "gym", longer := noted(begun("Gym store"), NOTES[0]))
        (home / "settings.toml").write_text('units = "metric"\n')
        status, out, _ = called(capsys, "restore", STICK)
        assert (status, held(home)) == (0, {longer, (van / "runs" / "broken.run").read_bytes()})
        assert (home / "settings.toml").read_text() == 'units = "metric"\n'
        assert "Differs: settings.toml stays as it is here; the other is settings-" in out


def test_a_backup_that_is_there_is_replaced_only_when_told_to(capsys: Printed, van: Path) -> None:
    called(capsys, "backup", STICK)
    before = Path(STICK).read_bytes()
    (van / "runs" / "gym.run").unlink()
    status, out, err = called(capsys, "backup", STICK)
    assert (status, out) == (2, "")
    assert "stick.zip is there already; name another file, or add --replace." in err
    assert Path(STICK).read_bytes() == before
    assert called(capsys, "backup", STICK, "--replace")[0] == 0
    assert Path(STICK).read_bytes() != before


def test_what_cannot_be_kept_is_left_out_and_said(capsys: Printed, van: Path) -> None:
    (van / "sites" / "link").symlink_to("/etc/passwd")
    (van / "sites" / "doors?.csv").touch()
    status, out, err = called(capsys, "backup", STICK)
    assert (status, err.count("\n")) == (1, 2)
    assert out.startswith("stick.zip: 2 jobs, "), "the backup is written all the same"
    assert "link is a link" in err
    assert "doors?.csv has a name that not every system takes" in err


def test_a_job_that_is_open_is_left_by_restore_and_the_rest_is_taken_in(
    capsys: Printed, van: Path, tmp_path: Path
) -> None:
    longer = noted(begun("Gym store"), NOTES[0])
    put(van, "gym", longer)
    called(capsys, "backup", STICK)
    with at_home(tmp_path / "new van") as home:
        lock = RunLock(put(home, "gym", begun("Gym store")))
        status, out, err = called(capsys, "restore", STICK, "--json")
        lock.release()
        assert (status, len(json.loads(out)["files"]), err.count("\n")) == (1, 5, 1)
        assert "open in another window" in err
        assert called(capsys, "restore", STICK)[0] == 0
        assert longer in held(home)


def test_a_backup_does_not_hold_an_earlier_one_or_land_among_the_jobs(
    capsys: Printed, van: Path
) -> None:
    outs = [called(capsys, "backup", str(van / name))[1] for name in ("a.zip", "b.zip")]
    assert [out.partition(": ")[2] for out in outs] == [outs[0].partition(": ")[2]] * 2
    status, _, err = called(capsys, "backup", str(van / "runs" / "jobs.zip"))
    assert status == 2
    assert "is in the folder of the jobs" in err


def test_a_disk_that_is_full_leaves_the_old_backup(
    capsys: Printed, van: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    called(capsys, "backup", STICK)
    before = Path(STICK).read_bytes()

    def full(file: int) -> None:
        raise OSError(28, os.strerror(28), STICK)

    monkeypatch.setattr(os, "fsync", full)
    status, out, err = called(capsys, "backup", STICK, "--replace")
    assert (status, out, err.count("\n")) == (3, "", 1)
    assert Path(STICK).read_bytes() == before
    assert [path.name for path in Path().iterdir() if path.is_file()] == [STICK]


# --- archives that are not what they seem ---

Entries = list[tuple[str, bytes, int]]
"""Names, bytes and file modes."""
FILE, LINK = 0o100600, 0o120777


def archive(entries: Entries, listed: object = None) -> bytes:
    """A ZIP file with these entries, and a list that agrees with them unless one is given."""
    from hashlib import sha256

    own = {
        "hingeside": "backup",
        "form": FORM,
        "files": [
            {"name": name, "size": len(data), "sha256": sha256(data).hexdigest()}
            for name, data, _ in entries
        ],
    }
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data, mode in [*entries, (LIST, json.dumps(listed or own).encode(), FILE)]:
            info = zipfile.ZipInfo(name)
            info.external_attr = mode << 16
            info.compress_type = zipfile.ZIP_DEFLATED
            packed.writestr(info, data)
    return file.getvalue()


def bomb() -> bytes:
    data = archive([("data/photos/a.jpg", bytes(50 << 20), FILE)])
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        listed = json.loads(packed.read(LIST))
    listed["files"][0]["size"] = 1000
    return archive([("data/photos/a.jpg", bytes(50 << 20), FILE)], listed)


def huge() -> bytes:
    entry = {"size": LARGEST_FILE, "sha256": "0" * 64}
    names = [f"data/{n}" for n in range((LARGEST_WHOLE // LARGEST_FILE) + 1)]
    listed = {
        "hingeside": "backup",
        "form": FORM,
        "files": [{"name": one, **entry} for one in names],
    }
    return archive([(one, b"", FILE) for one in names], listed)


def twice() -> bytes:
    with pytest.warns(UserWarning, match="Duplicate name"):
        return archive([("data/a", b"1", FILE), ("data/a", b"2", FILE)])


def deep() -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as packed:
        packed.writestr(LIST, "[" * 200_000)
    return file.getvalue()


ONE = ("data/sites/doors.csv", b"114\n", FILE)
BAD: dict[str, tuple[Callable[[], bytes], str]] = {
    "cut off": (lambda: archive([ONE])[:-30], "damaged or cut off"),
    "only its beginning": (lambda: b"PK\x03\x04", "damaged or cut off"),
    "one byte other": (lambda: changed(archive([ONE]), 52), "damaged"),
    "a photo album": (lambda: zipped("album.html"), "has no list of its files"),
    "a shopping list": (lambda: b"Screws, wedges.\n", "damaged or cut off, or not a backup"),
    "up and out": (lambda: archive([("data/../../x", b"", FILE)]), "outside its folders"),
    "from the root": (lambda: archive([("/etc/passwd", b"", FILE)]), "outside its folders"),
    "another drive": (lambda: archive([("data/C:x", b"", FILE)]), "outside its folders"),
    "backslashes": (lambda: archive([("data/..\\x", b"", FILE)]), "outside its folders"),
    "a link": (lambda: archive([("data/runs", b"/etc", LINK)]), "holds a link"),
    "a bomb": (bomb, "holds more than its list says"),
    "a larger bomb": (huge, "is larger than 16 GB unpacked"),
    "one name twice": (twice, "names a file twice"),
    "a file unlisted": (
        lambda: archive([ONE], {"hingeside": "backup", "form": 1, "files": []}),
        "does not hold the files of its list",
    ),
    "a newer form": (
        lambda: archive([ONE], {"hingeside": "backup", "form": 2, "files": []}),
        "another version",
    ),
    "brackets": (deep, "has a list that cannot be read"),
}


def changed(data: bytes, place: int) -> bytes:
    return data[:place] + bytes([data[place] ^ 1]) + data[place + 1 :]


def zipped(name: str) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as packed:
        packed.writestr(name, "Doors")
    return file.getvalue()


@pytest.mark.parametrize("how", BAD)
def test_a_bad_archive_is_one_sentence_and_nothing_of_it_is_used(
    capsys: Printed, own_home: Path, how: str
) -> None:
    made, said = BAD[how]
    Path(STICK).write_bytes(made())
    status, out, err = called(capsys, "restore", STICK)
    assert (status, out, err.count("\n")) == (1, "", 1)
    assert said in err
    assert [one.name for one in own_home.iterdir()] == ["cache"]


def test_a_backup_cut_anywhere_is_refused(van: Path, capsys: Printed) -> None:
    shutil.rmtree(van / "bin")
    called(capsys, "backup", STICK)
    data = Path(STICK).read_bytes()
    for end in range(0, len(data), max(1, len(data) // 60)):
        Path(STICK).write_bytes(data[:end])
        with pytest.raises(BadBackup):
            BackupSource(Path(STICK))


def test_practice_results_go_along(capsys: Printed, van: Path, tmp_path: Path) -> None:
    kept_in().write_text("{}\n")
    called(capsys, "backup", STICK)
    with at_home(tmp_path / "new van"):
        called(capsys, "restore", STICK)
        assert kept_in().read_text() == "{}\n"


def test_a_backup_can_be_united_with_a_folder(capsys: Printed, van: Path, tmp_path: Path) -> None:
    (van / "runs" / "broken.run").unlink()
    called(capsys, "backup", STICK)
    put(tmp_path / "tablet", "gym", longer := noted(begun("Gym store"), NOTES[0]))
    status, _, err = called(capsys, "merge", STICK, "tablet", "-o", "both")
    assert (status, err) == (0, "")
    assert held(Path("both")) == {longer}
    assert not Path("both/settings.toml").exists()


def test_where_nothing_can_be_written_the_name_that_was_given_is_told(tmp_path: Path) -> None:
    wanted = tmp_path / "no-such-folder" / "jobs.zip"
    with pytest.raises(OSError, match=r"jobs\.zip") as told:
        write_backup(wanted, "2027-03-01T14:02:11Z", replace=False)
    assert told.value.filename == str(wanted)
