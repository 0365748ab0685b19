"""One recogniser for all tests of a process: loading its model takes longer than most sayings."""

import pytest

from guide.speech import pocketsphinx_engine
from guide.speech.pocketsphinx_engine import PocketSphinx


@pytest.fixture(scope="session")
def engine() -> PocketSphinx:
    """A loaded model; what it listens for is set anew by whatever listens."""
    return PocketSphinx()


@pytest.fixture
def loaded(engine: PocketSphinx, monkeypatch: pytest.MonkeyPatch) -> None:
    """A command called in this process finds the model loaded; one with a voice of somebody's own loads another."""

    def open_engine(own: str = "") -> PocketSphinx:
        return PocketSphinx(own) if own else engine

    monkeypatch.setattr(pocketsphinx_engine, "PocketSphinx", open_engine)
