"""The voice features that work on this machine, and the one command that installs the rest."""

import platform
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import util

from guide.speech.audio import samples
from guide.speech.engine import NoEngine
from guide.speech.listener import FAINT
from guide.speech.microphone import Microphone, NoMicrophone
from guide.speech.suppressor import Name, suppressor_here

PACKAGES = ".venv/bin/pip install '.[voice]'"
"""To be called in the folder of this program, where its environment lies as the README puts it."""

GET = {
    "Debian": f"sudo apt install libasound2 libpulse0 && {PACKAGES}",
    "Fedora": f"sudo dnf install alsa-lib pulseaudio-libs && {PACKAGES}",
    "macOS": PACKAGES,
    "Windows": '.venv\\Scripts\\pip install ".[voice]"',
}
"""The packages carry the recogniser, its English model and the voice; only the way to the sound card is the
system's."""


_LINUX, _ARM_LINUX = "linux x86_64", "linux aarch64"
_MACS = ("darwin arm64", "darwin x86_64")
_WINDOWS = "win32 AMD64"
_USUAL = (_LINUX, *_MACS, _WINDOWS)
NEWEST_THAT_HEARS = (3, 13)
"""The newest Python that the recogniser is built for."""


@dataclass(frozen=True, slots=True)
class Part:
    """A library that voice needs, and the machines that its makers build it for (as the package index had them in
    November 2026)."""

    package: str
    module: str
    does: str
    """What it does, after “the library that”."""
    machines: tuple[str, ...] | None
    """Systems and processors; None for any."""
    pythons: tuple[tuple[int, int], ...] | None = None
    """Versions of Python; None for any."""

    def why_not(self, python: tuple[int, int], machine: str) -> str:
        """Why there is no build for this Python and machine, as the rest of a sentence; empty if there is one."""
        if self.pythons is not None and python not in self.pythons:
            newest = ".".join(map(str, NEWEST_THAT_HEARS))
            return f"is not built for Python {python[0]}.{python[1]}; install Hingeside with Python {newest}."
        if self.machines is not None and machine not in self.machines:
            return f"is not built for this kind of machine ({machine}); use the keys."
        return ""


PARTS = (
    Part("pocketsphinx", "pocketsphinx", "recognises words", _USUAL, ((3, 11), (3, 12), (3, 13))),
    Part("miniaudio", "miniaudio", "records, decodes and plays sound", _USUAL),
    Part("espeakng-loader", "espeakng_loader", "speaks", (*_USUAL, _ARM_LINUX)),
    Part("numpy", "numpy", "a voice is learned with", None),
)


NOISE: dict[Name, str] = {
    "rnnoise": "RNNoise reduces it.",
    "webrtc": "WebRTC's suppressor reduces it; with RNNoise, if its package can be installed, more is understood.",
    "none": "Nothing reduces it here: speak close to the microphone, and use the keys if it is loud.",
}


@dataclass(frozen=True, slots=True)
class Means:
    """One voice feature, and whether it works."""

    name: str
    works: bool
    told: str
    """One sentence."""


def means(*, seconds: float = 1.0) -> Iterator[Means]:
    """Try each in turn, and listen to the microphone for `seconds`."""
    yield from missing()
    yield _engine()
    yield Means("noise around", suppressor_here() != "none", NOISE[suppressor_here()])
    yield _microphone(seconds)
    yield from _voice()


def missing() -> Iterator[Means]:
    """The libraries that are not here, each with the reason."""
    python, machine = sys.version_info[:2], f"{sys.platform} {platform.machine()}"
    for part in PARTS:
        if util.find_spec(part.module) is None:
            why = part.why_not(python, machine) or "is not installed; one command brings it."
            yield Means(part.package, False, f"The library that {part.does} ({part.package}) {why}")


def own_voice(name: str) -> Iterator[Means]:
    """Whether the voice that the settings name holds; nothing if they name none."""
    from guide.speech.own.voice_file import own_means

    if name:
        _, amiss = own_means(name)
        yield Means(
            "your own voice",
            not amiss,
            amiss or f"“{name}” is the voice that speech recognition listens for.",
        )


def _engine() -> Means:
    from guide.speech.pocketsphinx_engine import PocketSphinx

    try:
        PocketSphinx()
    except NoEngine as error:
        return Means("hearing words", False, str(error))
    return Means("hearing words", True, "PocketSphinx with its English model.")


def _microphone(seconds: float) -> Means:
    name = "microphone"
    peak, taken = 0, 0.0
    try:
        with Microphone() as microphone:
            for frame in microphone.frames():
                peak = max(peak, *map(abs, samples(frame)))
                taken += 0.03
                if taken >= seconds:
                    break
    except NoMicrophone as error:
        return Means(name, False, str(error))
    if peak < FAINT:
        return Means(
            name, False, "It opens, and nothing comes from it; is it muted or not plugged in?"
        )
    return Means(name, True, "It opens, and sound comes from it.")


def _voice() -> Iterator[Means]:
    from guide.speech.mouth import Mouth
    from guide.speech.speaker import open_voice
    from guide.speech.synthesis import NoVoice, Synthesiser

    try:
        voice = open_voice()
        voice.speak("Ready.")
    except NoVoice as error:
        yield Means("voice", False, str(error))
        return
    carried = isinstance(voice, Synthesiser)
    yield Means("voice", True, "eSpeak NG." if carried else "The voice of the system.")
    mouth = Mouth()
    mouth.say("Ready.")
    mouth.wait(10)
    mouth.close()
    yield Means("loudspeaker", not mouth.trouble, mouth.trouble or "It opens.")
