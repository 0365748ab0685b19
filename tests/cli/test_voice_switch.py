"""Voice as it is switched on and set up: by a word of the call, or by the settings."""

import json
import wave
from pathlib import Path

import pytest

from guide.cli.voice import LINE_BY_LINE, voice_wanted
from guide.run.settings import Settings, load_settings, save_settings
from tests.cli.program import hingeside


def test_voice_is_off_until_it_is_asked_for_or_set() -> None:
    assert load_settings() == Settings()
    assert voice_wanted(load_settings()) is None
    assert voice_wanted(load_settings(), asked=True) is not None
    save_settings(Settings(voice="on"))
    assert voice_wanted(load_settings()) is not None


def test_settings_from_before_there_was_a_voice_still_load(own_home: Path) -> None:
    (own_home / "settings.toml").write_text('units = "metric"\nname = "A. Fitter"\n')
    assert load_settings() == Settings(units="metric", name="A. Fitter")


def test_the_settings_of_the_voice_are_kept_and_shown() -> None:
    folder = "/srv/" + "deep/" * 40 + "model"
    changes = ("voice=on", "push_to_talk=yes", "engine=added", f"model={folder}", "headset=yes")
    assert hingeside("settings", *changes).status == 0
    shown = json.loads(hingeside("settings", "--json").out)
    found = [shown[key] for key in ("voice", "push_to_talk", "engine", "model", "headset")]
    assert found == ["on", "yes", "added", folder, "yes"]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ("voice=loud", "voice is one of off, on"),
        ("push_to_talk=maybe", "push_to_talk is one of no, yes"),
        ("engine=ears", "engine is one of auto, built-in, added"),
        ("headsets=yes", "did you mean “headset”?"),
        (f"model={'m' * 1001}", "model has at most 1000 plain characters"),
    ],
)
def test_what_cannot_be_set_is_told(change: str, told: str) -> None:
    done = hingeside("settings", change)
    assert done.status == 2
    assert told in done.err


def test_line_by_line_the_run_goes_on_by_typing_and_says_so() -> None:
    done = hingeside("run", "fit-surface-closer", "--plain", "--voice", lines=["1"])
    assert done.status == 0
    assert LINE_BY_LINE in done.err


def test_recordings_are_heard_by_the_engine_of_the_settings_unless_the_call_names_one(
    tmp_path: Path,
) -> None:
    quiet = tmp_path / "quiet.wav"
    with wave.open(str(quiet), "wb") as file:
        file.setparams((1, 2, 16000, 0, "NONE", ""))
        file.writeframes(bytes(32000))
    save_settings(Settings(engine="added", model=str(tmp_path / "no-model")))
    by_settings = hingeside("hear", str(quiet), "--for", "command")
    assert by_settings.status == 3
    assert (
        "no-model is not a folder" in by_settings.err or "vosk is not installed" in by_settings.err
    )
    named = hingeside("hear", str(quiet), "--for", "command", "--engine", "built-in")
    assert named.status == 0
