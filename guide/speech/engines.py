"""Which engine hears: the built-in one (PocketSphinx), or the added one (Vosk) if a folder with its model is set."""

import os
from importlib import util
from pathlib import Path

from guide.run.settings import ENGINES
from guide.speech.engine import Engine, NoEngine

MODEL = "HINGESIDE_VOICE_MODEL"
"""The environment variable that names the folder of the added engine's model."""


def load_engine(name: str = "auto", model: str = "", own: str = "") -> Engine:
    """The engine of this name; `auto` is the added one if its library and a model folder are there.

    `model` is the folder of the added engine's model; if it is empty, the environment's is used. `own` is a file of
    means of one person's voice, for the built-in engine alone. Raises NoEngine with what is missing.
    """
    if name not in ENGINES:
        raise NoEngine(f"“{name[:40]}” is not an engine; choose {', '.join(ENGINES)}.")
    folder = model or os.environ.get(MODEL, "")
    there = bool(folder) and util.find_spec("vosk") is not None
    if name == "added" or (name == "auto" and there):
        from guide.speech.vosk_engine import Vosk

        if not folder:
            raise NoEngine(
                "The added recogniser needs the folder of its model; "
                f"name it in the setting “model”, or in {MODEL}."
            )
        return Vosk(Path(folder))
    from guide.speech.pocketsphinx_engine import PocketSphinx

    return PocketSphinx(own)
