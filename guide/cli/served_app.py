"""The app of one tab of a browser: started by `hingeside serve`, not by a person. Voice is off there."""

from guide.cli.main import guarded
from guide.run.device import arrival
from guide.run.settings import load_settings


def run() -> int:
    """Open the app at its first screen."""
    from guide.screens.app import run_app

    return run_app(None, load_settings(), arrival())


if __name__ == "__main__":
    raise SystemExit(guarded(run))
