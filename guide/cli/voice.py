"""`hingeside voice`: what of voice works here, and how to get the rest."""

import argparse
import json

from guide.cli.messages import Usage
from guide.errors import DONE
from guide.run.settings import load_settings

MINE = "mine"
"""What a voice is called that was given no name."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """The verb's words."""
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
    """Try everything that voice needs, and tell; or teach the ear a voice, or have it forgotten."""
    if options.folder and not options.teach:
        raise Usage("--from names the recordings of a voice to be taught; add --teach.")
    if options.teach or options.forget:
        from guide.cli.voice_taught import forget, teach

        return teach(options.teach, options.folder) if options.teach else forget(options.forget)
    from guide.speech.what_works import (  # no sound library before it is asked for
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
