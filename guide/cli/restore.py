"""`hingeside restore FILE`"""

import argparse
from pathlib import Path

from guide.cli.messages import Usage
from guide.cli.progress import Progress
from guide.cli.taken_in import tell
from guide.crew.backup import DATA, SETTINGS, BackupSource
from guide.crew.sources import NotASource
from guide.crew.taking_in import DataFolder
from guide.files.library import own_folder, user_folder
from guide.text import printable

EXAMPLES = """\
  hingeside restore tablet.zip              add what the backup holds
  hingeside restore tablet.zip --json       the same, with what became of each file as JSON
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument("file", nargs="?", metavar="FILE", help="a backup")
    parser.add_argument("--json", action="store_true", help="one JSON object")


def run(options: argparse.Namespace) -> int:
    """Take in what a backup holds. Nothing that is here is replaced, except a job by its own longer copy."""
    if options.file is None:
        raise Usage("Name the backup: hingeside restore jobs.zip.")
    path = Path(options.file)
    if not path.is_file():
        raise NotASource(f"There is no file {printable(str(path)[:200])}.")
    data = BackupSource(path, DATA)
    into = DataFolder(user_folder(), own=True, all_of_it=True)
    with Progress("restoring file") as shown:
        into.unite(data, shown.count)
    settings = DataFolder(own_folder("config"), own=False, all_of_it=True)
    settings.outcome = into.outcome
    settings.unite(data.of(SETTINGS))
    return tell(into.outcome, user_folder(), options)
