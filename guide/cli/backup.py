"""`hingeside backup FILE`"""

import argparse
import json
from dataclasses import asdict
from pathlib import Path

from guide.cli.messages import Usage, left_out
from guide.crew.backup import write_backup
from guide.run.session import utc_now

EXAMPLES = """\
  hingeside backup jobs.zip                 everything that is kept here
  hingeside backup jobs.zip --replace       the same, in the place of an older one
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "file", nargs="?", metavar="FILE", help="the file to write, such as jobs.zip"
    )
    parser.add_argument("--replace", action="store_true", help="replace a file that is there")
    parser.add_argument("--json", action="store_true", help="one JSON object")


def run(options: argparse.Namespace) -> int:
    """Write one file with everything that is kept on this device."""
    if options.file is None:
        raise Usage("Name the file to write: hingeside backup jobs.zip.")
    done = write_backup(Path(options.file), utc_now(), replace=options.replace)
    if options.json:
        print(json.dumps({"file": options.file, **asdict(done)}, ensure_ascii=False))
    else:
        several = "1 job" if done.runs == 1 else f"{done.runs} jobs"
        print(f"{options.file}: {several}, {done.files} files, {_size(done.size)} unpacked.")
    return left_out([f"Left out: {one}" for one in done.left])


def _size(size: int) -> str:
    return f"{size / 1_000_000:.1f} MB" if size >= 100_000 else f"{size / 1000:.1f} kB"
