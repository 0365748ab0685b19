"""The name of this device: one for each machine and folder, so that a copied folder does not speak for another."""

import shutil
from pathlib import Path

import pytest

from guide.run import device
from guide.run.device import CAME, arrival, device_id
from guide.run.journal import JournalError


def test_a_device_keeps_its_name(own_home: Path) -> None:
    assert arrival() == ""
    name = device_id()
    assert (len(name), device_id(), arrival()) == (12, name, "")
    assert (own_home / "device").read_text().startswith(f"{name} ")


def test_a_copied_folder_has_a_new_name_and_says_so_once(
    own_home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = device_id()
    copy = own_home.with_name("copied-to-the-tablet")
    shutil.copytree(own_home, copy)
    monkeypatch.setenv("HINGESIDE_HOME", str(copy))
    assert (arrival(), arrival()) == (CAME, "")
    assert device_id() != name
    monkeypatch.setenv("HINGESIDE_HOME", str(own_home))
    assert (device_id(), arrival()) == (name, "")


def test_two_machines_that_share_a_folder_have_a_name_each(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    names = []
    for machine in ("van", "tablet", "van", "tablet"):
        monkeypatch.setattr(device, "_machine", lambda machine=machine: machine)
        names.append(device_id())
    assert names[:2] == names[2:]
    assert names[0] != names[1]


@pytest.mark.parametrize("text", ["", "0a1b2c3d4e5f", "\xff", "0a1b2c3d4e5f " + "0" * 64])
def test_a_file_that_says_nothing_of_this_machine_gets_a_name(own_home: Path, text: str) -> None:
    (own_home / "device").write_text(text, "latin-1")
    assert device_id() == device_id()


def test_where_no_name_can_be_kept_nothing_is_begun(own_home: Path) -> None:
    (own_home / "device").mkdir()
    with pytest.raises(JournalError, match="then start again"):
        device_id()


def test_the_file_says_nothing_of_the_machine(
    own_home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(device, "_machine", lambda: "anna-laptop")
    device_id()
    assert "anna" not in (own_home / "device").read_text()
