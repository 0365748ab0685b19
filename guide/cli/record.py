"""`hingeside record JOB --format F -o FILE`, and `hingeside record --verify FILE`.

The app and `hingeside run` use `record_text`. For the start-up time `guide.papers` is imported only when it is needed.
"""

import argparse
import sys
from pathlib import Path

from guide.cli.messages import Usage, say
from guide.errors import DONE, FOUND
from guide.run.events import Event
from guide.run.journal import Damaged
from guide.run.state import State
from guide.run.store import find_run, read_run


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    from guide.papers.record import FORMATS

    parser.add_argument("name", nargs="?", metavar="JOB", help="the name of a job, or its file")
    parser.add_argument("--format", choices=list(FORMATS), default="text")
    parser.add_argument(
        "-o",
        "--output",
        metavar="FILE",
        help="the file to write; if left out, the record is printed",
    )
    parser.add_argument("--verify", metavar="FILE", help="check that a record was not altered")


def run(options: argparse.Namespace) -> int:
    """Write the record of a job, or verify it."""
    from guide.papers.record import FORMATS

    if options.verify is not None:
        path = find_run(options.verify)
        try:
            _, events = read_run(path)
        except Damaged as error:
            say(f"{path.name}: NOT WHOLE. {error} {len(error.good)} events before it are sound.")
            return FOUND
        print(f"{path.name}: whole, {len(events)} events, last digest {events[-1].digest()}.")
        return DONE
    if options.name is None:
        raise Usage("Name a job, or --verify FILE.")
    state, events = read_run(find_run(options.name))
    text = FORMATS[options.format](state, events)
    if options.output is None:
        sys.stdout.write(text)
    else:
        Path(options.output).write_text(text, "utf-8")
    return DONE


def record_text(state: State, events: list[Event]) -> str:
    """The record of a job as text, for the front ends."""
    from guide.papers.record import record_text as written

    return written(state, events)
