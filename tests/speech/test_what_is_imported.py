"""Nothing of sound is loaded before somebody listens or speaks."""

import subprocess
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]
SOUND = ("pocketsphinx", "miniaudio", "sounddevice", "espeakng_loader", "pyttsx3", "vosk", "numpy")
PARTS = sorted(
    f"guide.speech.{path.stem}"
    for path in (CHECKOUT / "guide" / "speech").glob("*.py")
    if path.stem != "__init__"
)


@pytest.mark.parametrize("module", ["guide.cli.main", "guide.screens.app", ",".join(PARTS)])
def test_importing_loads_no_sound_library(module: str) -> None:
    look = f"import sys; import {module}\nprint(*[one for one in {SOUND!r} if one in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", look], cwd=CHECKOUT, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == []


def test_a_run_without_a_voice_loads_none_of_this_part() -> None:
    """Nor does one with a voice, before its first step is on the screen."""
    look = (
        "import sys, guide.cli.run, guide.cli.home, guide.screens.hingeside_app\n"
        "from guide.cli.voice import voice_wanted\n"
        "from guide.run.settings import Settings\n"
        "assert voice_wanted(Settings()) is None\n"
        "assert voice_wanted(Settings(voice='on')) and voice_wanted(Settings(), asked=True)\n"
        "print(*[one for one in sys.modules if one.startswith('guide.speech')])"
    )
    done = subprocess.run(
        [sys.executable, "-c", look], cwd=CHECKOUT, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == []


def test_an_open_voice_still_loads_no_sound_library_into_the_app() -> None:
    """The ear and the mouth have processes of their own; the microphone is opened in the ear's thread."""
    look = (
        "import sys; from guide.cli.voice import voice_wanted\n"
        "from guide.run.settings import Settings\n"
        "voice = voice_wanted(Settings(), asked=True)(); voice.close()\n"
        f"print(*[one for one in {SOUND!r} if one in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", look], cwd=CHECKOUT, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == []
