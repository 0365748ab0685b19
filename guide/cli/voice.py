"""`hingeside voice`: what of voice works here, and how to get the rest."""

import argparse
import json

from guide.cli.main import DONE


def arguments(parser: argparse.ArgumentParser) -> None:
    """The verb's words."""
    parser.add_argument("--json", action="store_true", help="one JSON object")


def run(options: argparse.Namespace) -> int:
    """Try everything that voice needs, and tell."""
    from guide.speech.means import GET, means  # no sound library before it is asked for

    found = list(means())
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
