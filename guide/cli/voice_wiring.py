"""The voice of a run, made of ear, microphone and mouth where it is wanted; nothing of sound is imported before."""

from typing import TYPE_CHECKING

from guide.run.settings import Settings
from guide.words.language_file import LANGUAGES

if TYPE_CHECKING:
    from guide.screens.voice import OpenVoice, Voice

LINE_BY_LINE = "Voice works in the app only; line by line the run goes on by typing."


def voice_wanted(settings: Settings, *, asked: bool = False) -> "OpenVoice | None":
    """What makes the voice: asked for in the call, or switched on in the settings; None where it is not."""
    if not asked and settings.voice != "on":
        return None

    def open_voice() -> "Voice":
        from guide.speech.listener import EarApart
        from guide.speech.own.voice_file import own_means
        from guide.speech.run_voice import RunVoice

        # The built-in engine has an English model alone; other languages come as a folder of the added one.
        engine = settings.engine if settings.language == "en" else "added"
        own, amiss = own_means(settings.own_voice)
        return RunVoice(
            lambda: EarApart(engine, settings.model, own),
            headset=settings.headset == "yes",
            language=LANGUAGES[settings.language],
            amiss=amiss,
        )

    return open_voice
