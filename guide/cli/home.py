"""`hingeside` by itself: the app, at its first screen."""

import sys

from guide.cli.messages import Usage
from guide.cli.voice import voice_wanted
from guide.run.device import arrival
from guide.run.settings import load_settings


def run() -> int:
    """Open the app; without a terminal, say what to call instead."""
    if not (sys.stdin.isatty() and sys.__stderr__ is not None and sys.__stderr__.isatty()):
        raise Usage(
            "This is not a terminal; “hingeside run fit-surface-closer --plain” works line by line."
        )
    from guide.screens.app import run_app

    settings = load_settings()
    open_voice = voice_wanted(settings)
    return run_app(None, settings, arrival(), open_voice=open_voice)
