"""What every test has: a home of its own, and the mark for programs a test cannot do without."""

import gc
import os
import shutil
import sys
from collections.abc import Iterator
from importlib.util import find_spec
from itertools import count
from pathlib import Path

import pytest
from hypothesis import settings
from xdist.remote import Producer
from xdist.scheduler import LoadFileScheduling

gc.disable()  # what is loaded and collected stays

# The program is started some hundred times: without what Python keeps of a first start, each compiles all it loads.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

POSTGRES = "usr/lib/postgresql/*/bin"
"""Where Debian keeps the programs of PostgreSQL, which are not on the path."""

MEMORY = Path("/dev/shm")
ENOUGH = 4 << 30
"""What must be free there [bytes]; a run of all tests leaves some sixty million."""
if MEMORY.is_dir() and os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > ENOUGH:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))

# The same examples every time: more of them find nothing new in a second run. Campaigns try thousands.
settings.register_profile("same every time", derandomize=True, deadline=None, max_examples=40)
settings.load_profile("same every time")

SELDOM = (50_000, 20, 100)
"""How often garbage is looked for: most of what a test makes goes without being looked for."""


def pytest_collection_finish() -> None:
    """Look for garbage from here on, but not among the modules and tests."""
    gc.freeze()
    gc.set_threshold(*SELDOM)
    gc.enable()


CARRIED = ("run/test_shipped_job.py", "site/test_way.py")
"""These carry every shipped scenario, or most of them, to its end: in one process each is carried once."""


class ByFile(LoadFileScheduling):  # type: ignore[misc] # xdist carries no types
    """A file's tests run in one process, and so do those of files that share what takes long to make."""

    def _split_scope(self, nodeid: str) -> str:
        file: str = super()._split_scope(nodeid)
        return CARRIED[0] if file.endswith(CARRIED) else file


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Producer) -> ByFile:
    """What `--dist=loadfile` would make, but for files that share."""
    return ByFile(config, log)


@pytest.fixture(scope="session")
def homes(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder for each test.

    They are numbered here: pytest would look through all the folders there are to find the next number, some
    ten million of them by the last test.
    """
    folder = tmp_path_factory.mktemp("homes")
    return (folder / str(number) for number in count())


@pytest.fixture(scope="session")
def checked_files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The cache of all tests of all workers: a shipped procedure is checked once, and not for each home again."""
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "checked"
    folder.mkdir(exist_ok=True)
    return folder


@pytest.fixture(autouse=True)
def own_home(
    homes: Iterator[Path],
    unused: list[Path],
    checked_files: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[Path]:
    """Settings and runs in a folder that goes with the test; its cache leads to that of all tests."""
    home = unused.pop() if unused else next(homes)
    if not home.exists():
        home.mkdir()
        (home / "cache").symlink_to(checked_files, target_is_directory=True)
    monkeypatch.setenv("HINGESIDE_HOME", str(home))
    yield home
    if home.is_dir() and list(home.iterdir()) == [home / "cache"] and (home / "cache").is_symlink():
        unused.append(home)


@pytest.fixture(scope="session")
def unused() -> list[Path]:
    """The home of a test that wrote nothing, for the next: most write nothing, and folders by the ten thousand are slow
    to make and to clear away."""
    return []


@pytest.fixture
def own_cache(own_home: Path) -> Path:
    """A home with an empty cache of its own."""
    (own_home / "cache").unlink()
    return own_home / "cache"


@pytest.fixture(autouse=True, scope="session")
def no_waiting_for_the_disk() -> Iterator[None]:
    """What is written in this process is not waited for. What outlives a flat battery is tested with processes that are
    started (`tests/run/test_on_disk.py`), and by the campaigns."""
    with pytest.MonkeyPatch.context() as patch:
        for call in ("fsync", "fdatasync"):
            patch.setattr(os, call, lambda _: None, raising=False)
        yield


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip a `needs(program)` test where the program is missing; fail it where all are required."""
    for mark in item.iter_markers("needs"):
        missing = [name for name in mark.args if not _there(name)]
        if missing and os.environ.get("HINGESIDE_REQUIRE") == "1":
            pytest.fail(f"this test needs {', '.join(missing)}", pytrace=False)
        if missing:
            pytest.skip(f"needs {', '.join(missing)}")


def _there(name: str) -> bool:
    """Whether a program is there, or with `python:` before its name a package."""
    package = name.removeprefix("python:")
    if package != name:
        return find_spec(package) is not None
    places = [os.environ.get("PATH", os.defpath), *map(str, Path("/").glob(POSTGRES))]
    return shutil.which(name, path=os.pathsep.join(places)) is not None
