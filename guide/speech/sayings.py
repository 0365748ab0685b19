"""Words turned into WAV files, to be heard by the ear: how a rehearsal speaks where no person does.

The synthesiser is flite where it is installed, whose voices the acoustic model follows best; else eSpeak NG.
"""

import shutil
import subprocess
from pathlib import Path

from guide.speech.synthesis import NoVoice, synthesise

STRETCHED = (1.0, 1.12, 1.25)
"""How much slower each further try is spoken, as a person does who was not understood."""


class Sayings:
    """What has been spoken, each saying in a file of its own."""

    def __init__(self, folder: Path, voice: str = "rms") -> None:
        """Keep the files in `folder`; `voice` is one of flite's."""
        self._folder = folder
        self._voice = voice
        self._flite = shutil.which("flite")
        self._kept: dict[tuple[str, int], Path] = {}

    def wav(self, words: str, attempt: int = 0) -> Path:
        """The file of some words, spoken slower at a later attempt. Raises NoVoice."""
        attempt = min(attempt, len(STRETCHED) - 1)
        path = self._kept.get((words, attempt))
        if path is None:
            path = self._folder / f"{len(self._kept):04d}.wav"
            self._speak(words, STRETCHED[attempt], path)
            self._kept[words, attempt] = path
        return path

    def _speak(self, words: str, stretched: float, path: Path) -> None:
        if self._flite is None:
            path.write_bytes(synthesise(words, pace=1 / stretched))
            return
        stretch = f"duration_stretch={stretched}"
        call = [self._flite, "-voice", self._voice, "--setf", stretch, "-t", words, "-o", str(path)]
        made = subprocess.run(call, check=False, capture_output=True)
        if made.returncode != 0 or not path.is_file():
            raise NoVoice(f"flite cannot say “{words[:60]}”; look at its installation.")
