"""The protocol of the app as its screens know it: what they ask of it, and where they send a person on to."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, cast

from rich.console import Console
from textual.app import App

from guide.run.session import Session
from guide.run.settings import Settings
from guide.screens.held import HeldKeys

if TYPE_CHECKING:
    from guide.practice.practice import Practice
    from guide.screens.run_view import RunView
    from guide.screens.voice import OpenVoice


class Host(Protocol):
    """The app that a screen is open in."""

    ascii: bool
    settings: Settings
    theme: str
    clock: Callable[[], float]
    held: HeldKeys
    """When each key last came, on whichever screen."""
    console: Console
    site: Path | None
    """The file of the site whose doors are gone to; a job that is left leads back to them."""
    open_voice: "OpenVoice | None"
    """Makes the voice of a run, if one is wanted."""

    def follow_run(self, run: "RunView") -> None: ...
    def open_run(self, session: Session, notice: str = "") -> None: ...
    def open_home(self, notice: str = "") -> None: ...
    def open_practice(self, practice: "Practice") -> None: ...


def host(app: App[object]) -> Host:
    """The app of a screen; no other app has these screens."""
    return cast(Host, app)
