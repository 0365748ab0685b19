"""The back door, ready to be worked on."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from guide.run.session import Session
from tests.screens.back_door import Hand, begin_back_door


@pytest.fixture
def session(tmp_path: Path) -> Iterator[Session]:
    """A run that has just begun."""
    begun = begin_back_door(tmp_path)
    yield begun
    begun.close()


@pytest.fixture
def hand(session: Session) -> Hand:
    """A hand on the keys of that run."""
    return Hand(session)


@pytest.fixture
def at_the_hold(hand: Hand) -> Hand:
    """The run at its hold: a steel leaf, 36 in wide."""
    hand.press("enter", "enter", "1")
    hand.type("36 in")
    return hand
