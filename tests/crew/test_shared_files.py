"""Photos, sites and sheets by a crew's server: only added, known by their digests, and nobody's sheet replaced."""

import hashlib
from dataclasses import replace
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.crew.server import WRITER
from guide.crew.shared_files import Versions
from guide.site.site import Site, with_door
from guide.site.site_files import change, delete, keep_new, read_site, site_path
from tests.crew.devices import at_home
from tests.crew.postgres import ANNA, OWNER, PASSWORD, said_by
from tests.crew.test_server import OPENED, link

pytestmark = pytest.mark.needs("postgres", "python:psycopg")
Printed = pytest.CaptureFixture[str]
PHOTO = b"\xff\xd8 the latch side of door 104"
NAME = f"photos/{hashlib.sha256(PHOTO).hexdigest()}.jpg"
ELM = Site("Elm Lane School", "2026-11-30T08:00:00.000Z")


@pytest.fixture
def there(running: Path) -> Path:
    """The server, prepared, with one person and no file."""
    said_by(running, "DROP SCHEMA IF EXISTS hingeside CASCADE")
    assert main(["crew", "init", link(running, OWNER)]) == 0
    said_by(
        running,
        f"DROP ROLE IF EXISTS {ANNA}",
        f"CREATE ROLE {ANNA} LOGIN PASSWORD '{PASSWORD}' IN ROLE {WRITER}",
    )
    return running


def called(capsys: Printed, action: str, there: Path, status: int = 0) -> str:
    """What push or pull says, all of it."""
    capsys.readouterr()
    got = main(["crew", action, link(there)])
    told = "".join(capsys.readouterr())
    assert got == status, told
    return told


def write(home: Path, name: str, data: bytes) -> None:
    path = home / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)


def test_a_photo_and_a_site_reach_the_other_device_and_a_changed_site_follows(
    capsys: Printed, there: Path, tmp_path: Path
) -> None:
    tablet, phone = tmp_path / "tablet", tmp_path / "phone"
    with at_home(tablet):
        write(tablet, NAME, PHOTO)
        elm = keep_new(ELM)
        assert "0 lines and 2 other files sent" in called(capsys, "push", there)
        assert "0 lines sent" in called(capsys, "push", there)
    with at_home(phone):
        assert "Other files: 2 new, 0 differ." in called(capsys, "pull", there)
        assert (phone / NAME).read_bytes() == PHOTO
        assert "Other files" not in called(capsys, "pull", there)
        change(site_path(ELM.name), lambda site: with_door(site, "104", "hall", {}))
        assert "1 other files sent" in called(capsys, "push", there)
    with at_home(tablet):
        assert "Other files: 0 new, 1 renewed, 0 differ." in called(capsys, "pull", there)
        assert [door.number for door in read_site(elm).doors] == ["104"]
        delete(elm)
        called(capsys, "pull", there)
        assert not elm.exists(), "deleted here, and not changed since"


def test_a_site_that_two_devices_changed_and_a_sheet_that_differs_stay_both(
    capsys: Printed, there: Path, tmp_path: Path
) -> None:
    sheet = "procedures/sheets/larkhill-4.yaml"
    homes = [tmp_path / name for name in ("tablet", "phone")]
    with at_home(homes[0]) as home:
        keep_new(ELM)
        write(home, sheet, b"sheet: larkhill-4\n")
        called(capsys, "push", there)
    with at_home(homes[1]):
        called(capsys, "pull", there)
    for number, home in enumerate(homes):
        with at_home(home):
            change(site_path(ELM.name), lambda site, n=number: replace(site, notes=(f"Key {n}",)))  # type: ignore[misc]
            write(home, sheet, f"sheet: larkhill-4 # {number}\n".encode())
            called(capsys, "push", there)
    for number, home in enumerate(homes):
        with at_home(home):
            for differ in (2, 0):  # twice is as once
                told = called(capsys, "pull", there)
                assert ("2 differ." in told) == bool(differ)
            assert read_site(site_path(ELM.name)).notes == (f"Key {number}",)
            assert (home / sheet).read_bytes().endswith(f"# {number}\n".encode())
            assert len([*home.glob("sites/*")]) == len([*home.glob("procedures/sheets/*")]) == 2


def test_a_server_that_lies_about_a_file_is_found(
    capsys: Printed, there: Path, tmp_path: Path
) -> None:
    with at_home(tmp_path / "tablet") as tablet:
        write(tablet, NAME, PHOTO)
        called(capsys, "push", there)
    opened = [one.replace("line", "file") for one in OPENED[:1]]
    drop = "ALTER TABLE hingeside.file DROP CONSTRAINT file_check"
    with at_home(tmp_path / "phone") as phone:
        said_by(there, *opened, "UPDATE hingeside.file SET name = 'sites/../../out'")
        assert "No device sends a file of that name" in called(capsys, "pull", there, 1)
        said_by(there, drop, f"UPDATE hingeside.file SET name = '{NAME}', raw = 'another door'")
        assert "It is not what was sent" in called(capsys, "pull", there, 1)
        assert [*phone.rglob("out"), *phone.rglob("*.jpg")] == []
    with at_home(tmp_path / "tablet"):
        said_by(there, "DELETE FROM hingeside.file")
        assert f"no longer has {NAME}, which was there" in called(capsys, "pull", there, 1)


def test_files_are_added_and_never_changed(capsys: Printed, there: Path, own_home: Path) -> None:
    import psycopg

    write(own_home, NAME, PHOTO)
    called(capsys, "push", there)
    for who in (ANNA, OWNER):
        for one in ("UPDATE hingeside.file SET raw = raw", "DELETE FROM hingeside.file"):
            with (
                psycopg.connect(link(there, who)) as connection,
                pytest.raises(psycopg.errors.InsufficientPrivilege),
            ):
                connection.execute(one)


def test_the_latest_versions_are_those_that_no_other_was_made_from() -> None:
    versions = Versions({"v1": "", "v2": "v1", "v3": "v2", "w2": "v1"})
    assert versions.latest == ["v3", "w2"]
    assert versions.leads_to("v1", "v3")
    assert not versions.leads_to("v2", "w2")
    assert not Versions({"a": "b", "b": "a"}).leads_to("c", "a"), "a circle ends"
