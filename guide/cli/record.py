"""`hingeside record JOB --format F -o FILE`, and `hingeside record --verify FILE [--digest HEX]`."""

import argparse
import re
import sys
from pathlib import Path

from guide.cli.messages import Usage, say
from guide.errors import DONE, FOUND
from guide.files.writing import write_beside
from guide.papers.record import FORMATS, repairs
from guide.run.catalogue import missing_lines
from guide.run.journal import Damaged
from guide.run.log.reading import Reading, read_log
from guide.run.run_list import with_others
from guide.run.store import find_run, fitting, read_run, state_of
from guide.text import printable

UNSEEN = "lines cut from the end or a file rewritten throughout cannot be seen from the file alone: compare"
"""What stands before the last digest."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument("name", nargs="?", metavar="JOB", help="the name of a job, or its file")
    parser.add_argument("--format", choices=list(FORMATS), default="text")
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="the file to write; if left out, it is printed"
    )
    parser.add_argument(
        "--digest", metavar="HEX", help="with --verify: the last digest, as its record shows it"
    )
    parser.add_argument("--verify", metavar="FILE", help="check that a record was not altered")


def run(options: argparse.Namespace) -> int:
    """Write the record of a job, or verify it."""
    if options.digest is not None and options.verify is None:
        raise Usage("--digest goes with --verify FILE.")
    if options.verify is not None:
        return _verify(find_run(options.verify), options.digest)
    if options.name is None:
        raise Usage("Name a job, or --verify FILE.")
    path = find_run(options.name)
    state, events = read_run(path)
    state = with_others(state, path)
    text = fitting(path, lambda: FORMATS[options.format](state, events))
    if options.output is None:
        sys.stdout.write(text)
    else:
        write_beside(Path(options.output), text.encode("utf-8"))
    return DONE


def _verify(path: Path, digest: str | None) -> int:
    """Say whether a run is unbroken. What is broken is said beside, and nothing of it is vouched for."""
    if digest is not None and not re.fullmatch("[0-9a-f]{64}", digest.strip().lower()):
        raise Usage("A digest has 64 signs, 0 to 9 and a to f, as the record shows it.")
    found = read_log(path)
    name = printable(path.name)
    try:
        ended = bool(state_of(found).ended)
    except Damaged as error:
        say(f"{name}: BROKEN. {error} Nothing after that counts.")
        return FOUND
    missing = missing_lines(found)
    if missing:
        say(f"{name}: BROKEN. {missing[0].upper()}{missing[1:]}.")
        return FOUND
    if digest is not None and digest.strip().lower() not in found.digests:
        say(f"{name}: BROKEN. No line of it has that digest; it is not the run that was recorded.")
        return FOUND
    for line in _verified(found, name, ended, digest):
        print(line)
    return DONE


def _verified(found: Reading, name: str, ended: bool, digest: str | None) -> list[str]:
    """What is said of an unbroken run."""
    lines = [f"{name}: REPAIRED. {printable(one['said'])}." for one in repairs(found.events)]
    said = f"{name}: unbroken, {len(found.events)} events in {len(found.digests)} lines"
    said += ", ended" if ended else ", not ended"
    said += ", a further line is being written" if found.torn else ""
    if digest is None:
        return [*lines, f"{said}; {UNSEEN} {found.digest}"]
    after = len(found.digests) - 1 - found.digests.index(digest.strip().lower())
    since = f"; {after} lines were added since, the last with {found.digest}" if after else ""
    return [*lines, f"{said}; it holds the line of that digest{since}"]
