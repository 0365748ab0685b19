"""`hingeside merge SOURCE... [-o FOLDER]`"""

import argparse
from collections.abc import Sequence
from pathlib import Path

from guide.cli.messages import Usage
from guide.cli.progress import Progress
from guide.cli.taken_in import tell
from guide.crew.backup import BackupSource, is_backup
from guide.crew.sources import UNITED, FileSource, FolderSource, NotASource, Source
from guide.crew.taking_in import DataFolder
from guide.files.library import user_folder
from guide.text import printable

EXAMPLES = """\
  hingeside merge tablet                    add the jobs of another device to yours
  hingeside merge tablet phone -o both      unite two data folders in a new one
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "sources",
        nargs="*",
        metavar="SOURCE",
        help="a data folder of another device, a backup, or a run file",
    )
    parser.add_argument(
        "-o",
        "--output",
        metavar="FOLDER",
        help="unite them in this folder; if left out, in your own jobs",
    )
    parser.add_argument("--json", action="store_true", help="one JSON object")


def run(options: argparse.Namespace) -> int:
    """Unite the jobs of several devices."""
    if not options.sources:
        raise Usage("Name what to unite: data folders, backups or run files.")
    own = options.output is None
    folder = user_folder() if own else _output(Path(options.output))
    sources = opened(options.sources)
    into = DataFolder(folder, own=own)
    with Progress("looking at file") as shown:
        for source in sources:
            into.unite(source, shown.count)
    return tell(into.outcome, folder, options)


def opened(names: Sequence[str]) -> list[Source]:
    """What is named, each looked at before anything is written. Raises NotASource or BadBackup."""
    return [_source(Path(name)) for name in names]


def _source(path: Path) -> Source:
    if path.is_dir():
        return FolderSource(path)
    if not path.is_file():
        raise NotASource(f"There is no folder or file {printable(str(path)[:200])}.")
    return BackupSource(path) if is_backup(path) else FileSource(path)


def _output(folder: Path) -> Path:
    """The folder to unite in: a new one, an empty one, or one that holds jobs already."""
    if folder.is_dir():
        if any((folder / one).is_dir() for one in UNITED) or not any(folder.iterdir()):
            return folder
        raise NotASource(f"{printable(str(folder))} holds other files; name a new folder.")
    if folder.exists():
        raise NotASource(f"{printable(str(folder))} is a file; name a new folder.")
    return folder
