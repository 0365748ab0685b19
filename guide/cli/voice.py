"""`hingeside voice`: which voice features work here, and speech recognition adapted to one speaker.

`--teach [NAME] [--from FOLDER]` learns a voice, `--forget [NAME]` deletes it. The app and `hingeside run` get the
voice of a job from `voice_wanted`. Nothing of sound is imported before it is used.
"""

import argparse
import json
from datetime import UTC, datetime
from importlib import util
from pathlib import Path
from typing import TYPE_CHECKING

from guide.cli.messages import Usage, say
from guide.cli.progress import Progress
from guide.errors import DONE, FOUND, NO_DEVICE, UNKNOWN
from guide.run.settings import Settings, load_settings, save_settings
from guide.words.language_file import LANGUAGES

if TYPE_CHECKING:
    from guide.screens.voice import OpenVoice, Voice
    from guide.speech.own.model import Model
    from guide.speech.own.teacher import Rounds

MINE = "mine"
"""The name of a voice taught without one."""

EXAMPLES = """\
  hingeside voice                                       what works here
  hingeside voice --teach                               adapt recognition to you, in two minutes
  hingeside voice --forget                              delete your voice
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument("--json", action="store_true", help="one JSON object")
    parser.add_argument(
        "--teach",
        nargs="?",
        const=MINE,
        metavar="NAME",
        help="adapt speech recognition to your voice, in two minutes",
    )
    parser.add_argument(
        "--from",
        dest="folder",
        metavar="FOLDER",
        help="learn from sound files (WAV), each named for its words",
    )
    parser.add_argument(
        "--forget", nargs="?", const=MINE, metavar="NAME", help="delete a taught voice"
    )


def run(options: argparse.Namespace) -> int:
    """Try each voice feature and print whether it works; or learn a voice, or delete one."""
    if options.folder and not options.teach:
        raise Usage("--from names the recordings of a voice to be taught; add --teach.")
    if options.teach or options.forget:
        return teach(options.teach, options.folder) if options.teach else forget(options.forget)
    from guide.speech.what_works import (
        GET,
        means,
        own_voice,
    )

    found = [*means(), *own_voice(load_settings().own_voice)]
    if options.json:
        data = {
            "means": [{"name": m.name, "works": m.works, "told": m.told} for m in found],
            "get": GET,
        }
        print(json.dumps(data, ensure_ascii=False))
        return DONE
    for one in found:
        print(f"{'works' if one.works else 'no':<6} {one.name}: {one.told}")
    if all(one.works for one in found):
        return DONE
    print(
        "\nWhat is missing comes with one command, in the folder of Hingeside; a device has to be plugged in."
    )
    for system, command in GET.items():
        print(f"  {system:<8} {command}")
    print("Without it, everything works by keys.")
    return DONE


FEWEST_TRIED = 10
"""Phrases of the second round; fewer would not show whether recognition improved."""
BEFORE = (
    "Say each line as it is shown, as you would at a door, in a quiet place: about two minutes.\n"
    "Ctrl-C ends it, and nothing is kept."
)

NO_NUMPY = (
    "The library that a voice is learned with (numpy) is not installed; "
    "“hingeside voice” says how to get it."
)


def teach(name: str, folder: str | None) -> int:
    """Hear the lesson, adapt to it, and keep the voice if recognition improves; status 1 if it does not."""
    if util.find_spec("numpy") is None:
        say(f"hingeside: {NO_NUMPY}")
        return NO_DEVICE
    from guide.speech.own.model import read_model
    from guide.speech.own.voice_file import keep, model_folder, voice_folder

    settings = load_settings()
    if settings.language != "en" or settings.engine == "added":
        raise Usage("Only the built-in recognizer of English can learn a voice, not an added one.")
    voice_folder(name)  # before two minutes are spent
    model = read_model(model_folder())
    rounds = _rounds(folder)
    means, before, after = _learn(model, rounds)
    tried = len(rounds[1])
    print(f"Of {tried} phrases of the second round, {before} were understood; now {after} are.")
    if after < before:
        print("That did not improve, so nothing is kept, and speech is heard as before.")
        return FOUND
    made = datetime.now(UTC).isoformat(timespec="seconds")
    about = {"made": made, "tried": tried, "understood_before": before, "understood": after}
    kept = keep(name, means, model.mark, about)
    save_settings(settings._replace(own_voice=name))
    print(f"The voice “{name}” is kept in {kept} and used from now on.")
    return DONE


def forget(name: str) -> int:
    """Delete a voice, and use it no longer."""
    from guide.speech.own.voice_file import forget as take_away

    settings = load_settings()
    there = take_away(name)
    if settings.own_voice == name:
        save_settings(settings._replace(own_voice=""))
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
            f"Only {len(rounds[1])} phrases were said a second time, and {FEWEST_TRIED} are needed; "
            "say each of them twice."
        )
    return rounds


def _learn(model: "Model", rounds: "Rounds") -> tuple[bytes, int, int]:
    """Means adapted to all phrases, and how many of the second round are understood without and with the first."""
    import tempfile  # for its start-up time

    from guide.speech.engines import load_engine
    from guide.speech.own.adapt import learned, understood

    first, second = rounds
    print("Learning; this takes half a minute.", flush=True)
    with (
        tempfile.TemporaryDirectory(prefix="hingeside-voice-") as made,
        Progress("learning, part") as progress,
    ):
        path = Path(made) / "means"
        before = understood(load_engine("built-in"), second)
        progress.count(2, 4)
        learned(model, first, path)
        progress.count(3, 4)
        after = understood(load_engine("built-in", own=str(path)), second)
        progress.count(4, 4)
        return learned(model, [*first, *second], path), before, after


LINE_BY_LINE = "Voice works in the app only; line by line you type."


def voice_wanted(settings: Settings, *, asked: bool = False) -> "OpenVoice | None":
    """What opens the voice, if the call or the settings want it; else None."""
    if not asked and settings.voice != "on":
        return None

    def open_voice() -> "Voice":
        from guide.speech.listener import EarApart
        from guide.speech.own.voice_file import own_means
        from guide.speech.run_voice import RunVoice

        # The built-in engine has an English model alone; other languages come as a folder of the added one.
        engine = settings.engine if settings.language == "en" else "added"
        own, fault = own_means(settings.own_voice)
        return RunVoice(
            lambda: EarApart(engine, settings.model, own),
            headset=settings.headset == "yes",
            language=LANGUAGES[settings.language],
            fault=fault,
        )

    return open_voice
