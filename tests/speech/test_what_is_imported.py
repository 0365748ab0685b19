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
