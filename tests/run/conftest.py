import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from guide.procedure.compiler import compile_procedure
from guide.procedure.load import load
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from tests.run.kept_runs import kept_run
from tests.run.small_procedures import FOLDER, NOON


@pytest.fixture
def asked_after_hold() -> Session:
    """A run of a file that `check` would not let pass: it asks a fact again behind its hold."""
    graph, _ = compile_procedure(load(FOLDER / "asked-after-hold.yaml"))
    assert graph is not None
    return Session.begin(MemoryJournal(), graph, device="bench", clock=lambda: NOON)


@pytest.fixture
def nobody(monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A home with one run, none of which can be written: as root, by being somebody else meanwhile."""
    home = Path(tempfile.mkdtemp(prefix="home-"))
    monkeypatch.setenv("HINGESIDE_HOME", str(home))
    kept_run()
    for path in (home, *home.rglob("*")):
        path.chmod(0o555 if path.is_dir() else 0o444)
    root = os.geteuid() == 0
    if root:
        os.seteuid(65534)
    yield home
    if root:
        os.seteuid(0)
    for folder in (home, *(path for path in home.rglob("*") if path.is_dir())):
        folder.chmod(0o755)
    shutil.rmtree(home)
