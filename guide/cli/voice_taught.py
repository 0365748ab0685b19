"""`hingeside voice --teach [NAME] [--from FOLDER]` and `--forget [NAME]`: the ear learns how one person speaks."""

import tempfile
from dataclasses import replace
from datetime import UTC, datetime
from importlib import util
from pathlib import Path
from typing import TYPE_CHECKING

from guide.cli.messages import Usage, say
from guide.errors import DONE, FOUND, NO_DEVICE, UNKNOWN
from guide.run.settings import load_settings, save_settings

if TYPE_CHECKING:
    from guide.speech.own.model import Model
    from guide.speech.own.teacher import Rounds

FEWEST_TRIED = 10
"""Sayings of the second round; fewer would not tell whether anything was gained."""
BEFORE = (
    "Say each line as it is shown, as you would at a door, in a quiet place: about two minutes.\n"
    "Ctrl-C ends it, and nothing is kept."
)

NO_NUMPY = (
    "The library that a voice is learned with (numpy) is not installed; "
    "“hingeside voice” says how to get it."
)


def teach(name: str, folder: str | None) -> int:
    """Hear the lesson, learn from it, and keep the voice where it helps; 1 where it does not."""
    if util.find_spec("numpy") is None:
        say(f"hingeside: {NO_NUMPY}")
        return NO_DEVICE
    from guide.speech.own.model import read_model
    from guide.speech.own.voice_file import keep, model_folder, voice_folder

    settings = load_settings()
    if settings.language != "en" or settings.engine == "added":
        raise Usage(
            "Only the built-in recogniser of English can be taught a voice, not an added one."
        )
    voice_folder(name)  # before two minutes are spent
    model = read_model(model_folder())
    rounds = _rounds(folder)
    means, before, after = _learn(model, rounds)
    tried = len(rounds[1])
    print(f"Of {tried} sayings of the second round, {before} were understood; now {after} are.")
    if after < before:
        print("That did not improve, so nothing is kept, and speech is heard as before.")
        return FOUND
    made = datetime.now(UTC).isoformat(timespec="seconds")
    about = {"made": made, "tried": tried, "understood_before": before, "understood": after}
    kept = keep(name, means, model.mark, about)
    save_settings(replace(settings, own_voice=name))
    print(f"The voice “{name}” is kept in {kept}, and the ear uses it from now on.")
    return DONE


def forget(name: str) -> int:
    """Forget a voice, and use it no longer."""
    from guide.speech.own.voice_file import forget as take_away

    settings = load_settings()
    there = take_away(name)
    if settings.own_voice == name:
        save_settings(replace(settings, own_voice=""))
    if not there:
        say(f"hingeside: No voice “{name}” is kept here.")
        return UNKNOWN
    print(f"The voice “{name}” is forgotten.")
    return DONE


def _rounds(folder: str | None) -> "Rounds":
    from guide.speech.engines import load_engine
    from guide.speech.microphone import Microphone
    from guide.speech.own.adapt import TooFew
    from guide.speech.own.teacher import Teacher, hear_lesson, read_lesson

    teacher = Teacher(load_engine("built-in"))

    def tell(line: str) -> None:
        print(line, flush=True)

    if folder:
        rounds = read_lesson(Path(folder), teacher, tell)
    else:
        print(BEFORE)
        with Microphone() as microphone:
            rounds = hear_lesson(microphone.frames(), teacher, tell)
    if len(rounds[1]) < FEWEST_TRIED:
        raise TooFew(
            f"Only {len(rounds[1])} sayings were said a second time, and {FEWEST_TRIED} are needed; "
            "say each of them twice."
        )
    return rounds


def _learn(model: "Model", rounds: "Rounds") -> tuple[bytes, int, int]:
    """Means from all sayings, and how many of the second round are understood without and with the first."""
    from guide.speech.engines import load_engine
    from guide.speech.own.adapt import learned, understood

    first, second = rounds
    print("Learning; this takes half a minute.", flush=True)
    with tempfile.TemporaryDirectory(prefix="hingeside-voice-") as made:
        path = Path(made) / "means"
        before = understood(load_engine("built-in"), second)
        learned(model, first, path)
        after = understood(load_engine("built-in", own=str(path)), second)
        return learned(model, [*first, *second], path), before, after
