"""What `merge`, `restore` and `crew pull` say of what they took in."""

import argparse
import json
from dataclasses import asdict
from pathlib import Path

from guide.cli.messages import left_out, list_lines
from guide.crew.sources import RUNS
from guide.crew.taking_in import Outcome
from guide.run.catalogue import summary_of
from guide.run.log.reading import ENDING
from guide.run.run_list import in_order


def tell(outcome: Outcome, folder: Path, options: argparse.Namespace) -> int:
    """Print what was taken in; give the exit status of `left_out`."""
    doors = _worked_twice(outcome, folder)
    if options.json:
        print(json.dumps({**asdict(outcome), "worked_twice": doors}, ensure_ascii=False))
    else:
        _print(outcome, doors)
    return left_out(outcome.left)


def _print(outcome: Outcome, doors: list[tuple[str, ...]]) -> None:
    print(
        f"Jobs: {len(outcome.added)} new, {len(outcome.continued)} continued elsewhere, "
        f"{len(outcome.diverged)} diverged, {outcome.known} here already."
    )
    if outcome.files or outcome.both or outcome.renewed:
        renewed = f"{len(outcome.renewed)} renewed, " if outcome.renewed else ""
        print(f"Other files: {len(outcome.files)} new, {renewed}{len(outcome.both)} differ.")
    list_lines(
        [
            f"Diverged: {one} and {two} are one job that was continued in two ways. Both are kept; ask who did what."
            for one, two in outcome.diverged
        ]
    )
    list_lines(
        [
            f"Two devices: {one} and {two} are two jobs at the door {door}."
            for door, one, two in doors
        ]
    )
    list_lines(
        [f"Differs: {one} stays as it is here; the other is {two}." for one, two in outcome.both]
    )


def _worked_twice(outcome: Outcome, folder: Path) -> list[tuple[str, ...]]:
    """The doors at which two devices each have a job, where one of the two came now: the door, and the two jobs."""
    new = {*outcome.added}
    if not new:
        return []
    listed = in_order([summary_of(path) for path in (folder / RUNS).glob(f"*{ENDING}")])
    pairs = {
        frozenset((run.name, run.elsewhere)): run.door
        for run in listed
        if run.elsewhere and run.name in new
    }
    return sorted((door, *sorted(pair)) for pair, door in pairs.items())
