"""What every test has: a home of its own, and the mark for programs a test cannot do without."""

import os
import shutil
from importlib.util import find_spec
from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def own_home(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Settings, runs and cache in a folder that goes with the test."""
    home = tmp_path_factory.mktemp("home")
    monkeypatch.setenv("HINGESIDE_HOME", str(home))
    return home


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
    return find_spec(package) is not None if package != name else shutil.which(name) is not None
