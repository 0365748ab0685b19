"""Which engine hears: the embedded one, or Vosk where a folder with its model is set."""

import os
from importlib import util
from pathlib import Path

from guide.speech.engine import Engine, NoEngine

ENGINES = ("auto", "pocketsphinx", "vosk")
MODEL = "HINGESIDE_VOSK_MODEL"
"""The environment variable that names the folder of a Vosk model."""


def load_engine(name: str = "auto", model: str = "", own: str = "") -> Engine:
    """The engine of this name; `auto` takes Vosk where its library and a model folder are there.

    `model` is the folder of a Vosk model; where it is empty, the environment's is taken. `own` is a file of means
    of one person's voice, for the embedded engine alone. Raises NoEngine with what is missing.
    """
    if name not in ENGINES:
        raise NoEngine(f"“{name[:40]}” is no engine; there are {', '.join(ENGINES)}.")
    folder = model or os.environ.get(MODEL, "")
    there = bool(folder) and util.find_spec("vosk") is not None
    if name == "vosk" or (name == "auto" and there):
        from guide.speech.vosk_engine import Vosk

        if not folder:
            raise NoEngine(
                f"Vosk needs the folder of a model; name it in the setting “model”, or in {MODEL}."
            )
        return Vosk(Path(folder))
    from guide.speech.pocketsphinx_engine import PocketSphinx

    return PocketSphinx(own)
