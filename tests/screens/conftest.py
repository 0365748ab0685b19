"""The back door, ready to be worked on; and the app's styles, read once for all apps of a process."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet

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


@pytest.fixture(autouse=True, scope="session")
def styles_read_once() -> Iterator[None]:
    """Each app reads some eighty style texts as it opens, and always the same: what they say depends on the text, its
    place and the colours of the theme alone."""
    kept: dict[tuple[object, ...], list[RuleSet]] = {}
    read = Stylesheet._parse_rules

    def read_once(sheet: Stylesheet, *text: object, **about: object) -> list[RuleSet]:
        asked = (text, *about.items(), *sheet._variables.items())
        if asked not in kept:
            kept[asked] = read(sheet, *text, **about)  # type: ignore[arg-type]
        return kept[asked]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Stylesheet, "_parse_rules", read_once)
        yield
