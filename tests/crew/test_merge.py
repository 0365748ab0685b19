"""Jobs of several devices united: nothing is lost, twice is as once, and the order is all one."""

import json
from collections.abc import Callable
from itertools import permutations
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.cli.main import main
from guide.crew.sources import FolderSource
from guide.crew.taking_in import DataFolder, Outcome
from guide.run.catalogue import summary_of
from guide.run.log.lock import RunLock
from guide.run.run_list import list_runs
from guide.run.store import open_run
from tests.crew.devices import NOTES, at_home, begun, held, noted, put
from tests.run.kept_runs import tamper

Printed = pytest.CaptureFixture[str]


def merged(capsys: Printed, *arguments: str) -> tuple[int, str, str]:
    """Call `hingeside merge`: status, standard output, standard error."""
    status = main(["merge", *arguments])
    printed = capsys.readouterr()
    return status, printed.out, printed.err


def united(into: Path, *homes: Path) -> Outcome:
    """Unite devices in one folder."""
    target = DataFolder(into, own=False)
    for home in homes:
        target.unite(FolderSource(home))
    return target.outcome


@pytest.fixture
def tablet(tmp_path: Path) -> Path:
    return tmp_path / "tablet"


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    return tmp_path / "phone"


def test_the_jobs_of_two_devices_are_united_in_a_folder(
    capsys: Printed, tablet: Path, phone: Path, tmp_path: Path
) -> None:
    gym, stage = begun("Gym store"), begun("Stage left")
    put(tablet, "gym", gym)
    put(phone, "stage", stage)
    both = tmp_path / "both"
    for new in (2, 0):  # twice is as once
        status, out, err = merged(capsys, str(tablet), str(phone), "-o", str(both))
        assert (status, err) == (0, "")
        assert out.startswith(f"Jobs: {new} new, 0 continued elsewhere, 0 diverged, {2 - new} here")
        assert held(both) == {gym, stage}
    assert held(tablet) == {gym}


def test_a_copy_that_was_continued_elsewhere_gives_way_to_the_longer(
    capsys: Printed, tablet: Path
) -> None:
    put(tablet, "gym", longer := noted(begun("Gym store"), NOTES[0]))
    with at_home(tablet.with_name("own")) as own:
        mine = put(own, "gym-store-here", begun("Gym store"))
        assert not list_runs()[0].missing
        status, out, _ = merged(capsys, str(tablet))
        assert (status, mine.read_bytes()) == (0, longer)
        assert "0 new, 1 continued elsewhere" in out
        open_run(mine).close()  # it is gone on with, and nothing is missed in it
        (only,) = list_runs()
        assert (only.missing, only.twin, only.diverged) == ("", "", "")


def test_a_job_that_two_devices_continued_stays_in_both_ways_and_is_shown_so(
    capsys: Printed, tablet: Path
) -> None:
    there = noted(begun("Gym store"), NOTES[0], "aaaaaaaaaaaa")
    here = noted(noted(begun("Gym store"), NOTES[1], "bbbbbbbbbbbb"), NOTES[2], "bbbbbbbbbbbb")
    put(tablet, "gym", there)
    with at_home(tablet.with_name("own")) as own:
        mine = put(own, "gym", here)
        list_runs()
        status, out, _ = merged(capsys, str(tablet), str(tablet))
        assert (status, held(own)) == (0, {here, there})
        assert "Diverged: gym and gym-2 are one job that was continued in two ways." in out
        assert {(run.name, run.diverged, run.missing) for run in list_runs()} == {
            ("gym", "gym-2", ""),
            ("gym-2", "gym", ""),
        }
        assert main(["record", "--verify", "gym-2"]) == 0
        assert main(["record", "gym"]) == 0
        assert (
            "DIVERGED: this job was continued in another way too: gym-2" in capsys.readouterr().out
        )
        session = open_run(mine)
        assert session.told == (
            "This job was continued in another way too, in gym-2; compare the two before you go on."
        )
        session.close()
        mine.write_bytes(begun("Gym store"))  # what is cut off is missed all the same
        assert main(["record", "--verify", str(mine)]) == 1


def test_one_door_worked_at_on_two_devices_is_said(capsys: Printed, tablet: Path) -> None:
    put(tablet, "there", noted(begun("Gym store"), NOTES[0]))
    with at_home(tablet.with_name("own")):
        from tests.run.kept_runs import kept_run

        mine = kept_run("gym  STORE")
        _, out, _ = merged(capsys, str(tablet))
        assert f"Two devices: {mine.stem} and there are two jobs at the door Gym store." in out
        assert {run.elsewhere for run in list_runs()} == {"there", mine.stem}
        assert main(["record", "there"]) == 0
        assert f"another device has a job at this door: {mine.stem}" in capsys.readouterr().out


def replaced_by_link(path: Path) -> None:
    path.rename(path.with_suffix(".old"))
    path.symlink_to(path.with_suffix(".old"))


SPOILED: dict[str, tuple[Callable[[Path], object], str]] = {
    "a line was changed": (lambda path: tamper(path, 2, b'"wood"', b'"steel"'), "was changed"),
    "a later version": (
        lambda path: path.write_bytes(path.read_bytes().replace(b'"format":', b'"format":9', 1)),
        "version",
    ),
    "a shopping list": (lambda path: path.write_bytes(b"Screws, wedges.\n"), "is not a run"),
    "nothing": (lambda path: path.write_bytes(b""), "is not a run"),
    "a link": (
        replaced_by_link,
        "link",
    ),
}


@pytest.mark.parametrize("how", SPOILED)
def test_what_is_damaged_or_foreign_is_never_taken_in(
    capsys: Printed, tablet: Path, tmp_path: Path, how: str
) -> None:
    spoil, said = SPOILED[how]
    put(tablet, "stage", stage := begun("Stage left"))
    gym = put(tablet, "gym", begun("Gym store"))
    spoil(gym)
    before = gym.lstat()
    status, out, err = merged(capsys, str(tablet), "-o", str(tmp_path / "both"))
    assert (status, held(tmp_path / "both")) == (1, {stage})
    assert out.startswith("Jobs: 1 new, "), "the others are taken in, and the result is printed"
    told = [line for line in err.splitlines() if "gym.run" in line]
    assert len(told) == 1
    assert said in told[0]
    assert gym.lstat() == before


def test_a_file_that_is_not_a_run_is_named_and_left_out(
    capsys: Printed, tablet: Path, tmp_path: Path
) -> None:
    put(tablet, "gym", begun("Gym store"))
    (tablet / "runs" / "tender.docx").write_bytes(b"PK")
    (tablet / "runs" / "gym.removed-0a1b2c3d").write_bytes(b"{}")
    status, _, err = merged(capsys, str(tablet), "-o", str(tmp_path / "both"))
    assert (status, err.count("\n")) == (1, 1)
    assert "Left out: " in err
    assert "tender.docx is not a run." in err


def test_a_line_that_was_being_written_is_kept_aside_where_its_run_goes_on(
    tablet: Path, phone: Path
) -> None:
    half = b'{"device":"0a1b'
    mine = put(phone, "gym", begun("Gym store") + half)
    put(tablet, "gym", longer := noted(begun("Gym store"), NOTES[0]))
    united(phone, tablet)
    assert mine.read_bytes() == longer
    (aside,) = mine.parent.glob("gym.removed-*")
    assert aside.read_bytes() == half


def test_a_job_that_is_open_is_left_and_said(capsys: Printed, tablet: Path) -> None:
    put(tablet, "gym", noted(begun("Gym store"), NOTES[0]))
    with at_home(tablet.with_name("own")) as own:
        mine = put(own, "gym", begun("Gym store"))
        lock = RunLock(mine)
        status, _, err = merged(capsys, str(tablet))
        lock.release()
        assert (status, held(own)) == (1, {begun("Gym store")})
        assert "open in another window" in err


def test_sheets_and_photos_go_along_and_of_two_that_differ_both_stay(
    tablet: Path, phone: Path, tmp_path: Path
) -> None:
    photo = "photos/5891b5b522d5df086d0ff0b110fbd9d21bb4fc7163af34d08286a2e846f6be03.jpg"
    files = {
        tablet: {"procedures/sheets/mine.yaml": b"arm: 9\n", photo: b"hello\n"},
        phone: {"procedures/sheets/mine.yaml": b"arm: 8\n", "sites/elm.site.json": b"114\n"},
    }
    for home, named in files.items():
        for name, data in named.items():
            (home / name).parent.mkdir(parents=True, exist_ok=True)
            (home / name).write_bytes(data)
    (tablet / "sites").mkdir()
    (tablet / "sites" / "elm.site.json").write_bytes(b"112\n")
    (phone / "photos").mkdir()
    (phone / photo).write_bytes(b"a photo of something else\n")
    ways = []
    for number, order in enumerate(permutations((tablet, phone))):
        into = tmp_path / f"both-{number}"
        said = united(into, *order, *order)
        assert [name for name, _ in said.both] == [
            "procedures/sheets/mine.yaml",
            "sites/elm.site.json",
        ]
        assert len(list((into / "sites").glob("elm-????????.site.json"))) == 1
        assert "is not the one that was taken" in said.left[0]
        ways.append(into)
    first, second = ways
    assert united(first, second).both == []  # and the two ways hold the same
    assert {path.read_bytes() for path in (first / "procedures").rglob("*.yaml")} == {
        b"arm: 9\n",
        b"arm: 8\n",
    }
    assert (second / photo).read_bytes() == b"hello\n"


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ([], "Name what to unite"),
        (["elm-lane"], "There is no folder or file elm-lane."),
        (["empty"], "empty holds no jobs"),
        (["tablet", "-o", "full"], "full holds other files; name a new folder."),
    ],
)
def test_a_call_that_names_nothing_to_unite_changes_nothing(
    capsys: Printed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str],
    sentence: str,
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    put(tmp_path / "tablet", "gym", begun("Gym store"))
    (tmp_path / "empty").mkdir()
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "tender.docx").touch()
    status, out, err = merged(capsys, *arguments)
    assert (status, out) == (2, "")
    assert sentence in err


def test_the_result_as_json(capsys: Printed, tablet: Path) -> None:
    put(tablet, "gym", begun("Gym store"))
    found = json.loads(merged(capsys, str(tablet / "runs" / "gym.run"), "--json")[1])
    assert (found["added"], found["left"]) == (["gym"], [])


# --- any order, any copies ---

DEVICES = ("phone", "tablet", "van")
DOORS = ("Gym store", "Stage left")
_device = st.integers(0, len(DEVICES) - 1)
_door = st.integers(0, len(DOORS) - 1)
STEP = st.one_of(
    st.tuples(st.just("note"), st.tuples(_device, _door, st.integers(0, len(NOTES) - 1))),
    st.tuples(st.just("copy"), st.tuples(_device, _device, _door, st.integers(2, 12))),
    st.tuples(st.just("merge"), st.tuples(_device, _device)),
)


Step = tuple[str, tuple[int, ...]]


def _lines(data: bytes, count: int) -> bytes:
    return b"".join(data.splitlines(keepends=True)[:count])


def _longest(all_of: set[bytes]) -> set[bytes]:
    return {one for one in all_of if not any(two != one and two.startswith(one) for two in all_of)}


def _play(homes: list[Path], steps: list[Step]) -> set[bytes]:
    """Work at some devices; give all that any of their run files ever held."""
    ever: set[bytes] = set()
    for what, (device, *rest) in steps:
        here = homes[device]
        if what == "merge":
            if rest[0] != device and (homes[rest[0]] / "runs").is_dir():
                united(here, homes[rest[0]])
        elif what == "note":
            door, text = rest
            path = here / "runs" / f"door-{door}.run"
            data = path.read_bytes() if path.is_file() else begun(DOORS[door])
            put(here, path.stem, noted(data, NOTES[text], DEVICES[device]))
        else:
            other, door, count = rest
            path = homes[other] / "runs" / f"door-{door}.run"
            if path.is_file():
                put(here, f"copy-{other}-{door}-{count}", _lines(path.read_bytes(), count))
        ever |= {one for home in homes for one in held(home)}
    return ever


@settings(max_examples=20)
@given(st.lists(STEP, min_size=2, max_size=10), st.randoms(use_true_random=False))
def test_whatever_was_copied_and_united_the_union_is_the_same(
    steps: list[Step], order: Random
) -> None:
    with TemporaryDirectory() as folder:
        homes = [Path(folder) / name for name in DEVICES]
        ever = _play(homes, steps)
        wanted = _longest(ever)
        for number in range(2):
            into = Path(folder) / f"all-{number}"
            there = [home for home in homes if (home / "runs").is_dir()] * 2
            order.shuffle(there)
            united(into, *there)
            assert _longest(held(into)) == held(into) == wanted


def test_a_summary_of_a_run_names_the_device_it_began_on(tablet: Path) -> None:
    path = put(tablet, "gym", begun("Gym store"))
    assert len(summary_of(path).device) == 12
