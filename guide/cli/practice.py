"""`hingeside practice [DOOR] [--seed N] [--plain]`, `practice --list [--json]` and `practice --results [-o FILE]`"""

import argparse
import json
import time
from pathlib import Path
from typing import TYPE_CHECKING

from guide.cli.messages import Usage
from guide.cli.terminal import app_can_open, person_types
from guide.errors import DONE
from guide.run.settings import load_settings

if TYPE_CHECKING:
    from guide.practice.practice import Practice

MOST_SEED = 10**9

EXAMPLES = """\
  hingeside practice 1                                  the easiest of twelve doors
  hingeside practice --list                             all of them
  hingeside practice --seed 41                          the same random door for a class
  hingeside practice 3 --plain                          line by line
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "door",
        nargs="?",
        metavar="DOOR",
        help="its number, its name or a path; if left out, a random door",
    )
    parser.add_argument(
        "--seed", type=_seed, metavar="N", help="the same number gives a class the same door"
    )
    parser.add_argument("--plain", action="store_true", help="line by line, without the app")
    parser.add_argument("--list", action="store_true", help="list the doors")
    parser.add_argument(
        "--results", action="store_true", help="every result kept here, as CSV for a spreadsheet"
    )
    parser.add_argument(
        "-o",
        "--output",
        metavar="FILE",
        help="with --results: the file; if left out, it is printed",
    )
    parser.add_argument("--json", action="store_true", help="the list as one JSON object")


def _seed(text: str) -> int:
    if not (text.isdecimal() and int(text) <= MOST_SEED):
        raise argparse.ArgumentTypeError(
            f"A seed is a whole number from 0 to {MOST_SEED}, not “{text}”"
        )
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Open a practice door, or list them."""
    if options.results or options.output is not None:
        if options.door is not None or options.list or options.json or not options.results:
            raise Usage("--results goes with -o FILE alone; leave the rest out.")
        _results(options.output)
        return DONE
    if options.list or options.json:
        if options.door is not None:
            raise Usage("--list shows all doors; to practise at one, leave out --list and --json.")
        _list(as_json=options.json)
        return DONE
    practice, seed = _practice(options.door, options.seed)
    load_settings()  # wrong settings are reported before the door is tuned, not after
    if options.plain or not app_can_open():
        _plain(practice, seed, in_person=person_types())
        return DONE
    from guide.screens.app import run_app

    return run_app(None, load_settings(), practice=practice)


def _practice(name: str | None, seed: int | None) -> "tuple[Practice, int]":
    from guide.practice.practice import Practice
    from guide.practice.random_door import any_seed, random_door

    if name is None:
        seed = any_seed() if seed is None else seed
        return Practice(random_door(seed)), seed
    from guide.procedure.practice_file import find_practice, load_practice

    return Practice(load_practice(find_practice(name))), seed or 0


def _plain(practice: "Practice", seed: int, *, in_person: bool) -> None:
    from guide.cli.lines import TypedLines
    from guide.cli.run import only_ascii
    from guide.plain.practice import in_real_time, practise_plain, seeded_watch
    from guide.run.practice_results import keep

    watch = in_real_time(time.sleep) if in_person else seeded_watch(f"{practice.at.name} {seed}")
    with TypedLines("At the door: ") as lines:
        practise_plain(practice, lines.read, print, watch, keep, ascii_only=only_ascii())


def _results(output: str | None) -> None:
    from guide.files.writing import write_beside
    from guide.run.practice_results import results_csv

    if output is None:
        print(results_csv(), end="")
    else:
        write_beside(Path(output), results_csv().encode("utf-8-sig"))


def _list(*, as_json: bool) -> None:
    from guide.files.library import catalogue
    from guide.procedure.practice_file import PRACTICE, load_practice
    from guide.run.practice_results import best_of

    doors = [(entry.name, load_practice(entry.path)) for entry in catalogue(PRACTICE)]
    if as_json:
        rows = [
            {"name": name, "title": door.title, "grade": door.grade, "about": door.about}
            for name, door in doors
        ]
        print(json.dumps({"doors": rows}, ensure_ascii=False))
        return
    reached = best_of()
    for name, door in doors:
        before = f"  ({reached[door.name]})" if door.name in reached else ""
        print(f"{name:<22} grade {door.grade}  {door.title}{before}")
