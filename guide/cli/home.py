"""`hingeside` by itself: the app, at its first screen."""

from guide.cli.messages import Usage
from guide.cli.terminal import app_can_open
from guide.cli.voice import voice_wanted
from guide.run.device import arrival
from guide.run.settings import load_settings


def run() -> int:
    """Open the app; without a terminal, say what to call instead."""
    if not app_can_open():
        raise Usage(
            "There is no terminal here that the app can be drawn on; “hingeside run fit-surface-closer --plain” works"
            " line by line."
        )
    from guide.screens.app import run_app

    settings = load_settings()
    open_voice = voice_wanted(settings)
    return run_app(None, settings, arrival(), open_voice=open_voice)
