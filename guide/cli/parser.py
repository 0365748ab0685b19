"""The words behind a verb: read by argparse, with help as wide as the terminal and errors in one line."""

import argparse
import os
import sys
from typing import NoReturn

from guide.errors import UNKNOWN


def parser_of(verb: str, about: str) -> argparse.ArgumentParser:
    """The parser of one verb, still without its words; a word that is off ends with the status UNKNOWN."""

    class Parser(argparse.ArgumentParser):
        def error(self, message: str) -> NoReturn:
            sys.stderr.write(f"hingeside: {message}; see “{self.prog} --help”.\n")
            raise SystemExit(UNKNOWN)

    return Parser(
        prog=f"hingeside {verb}", description=about, allow_abbrev=False, formatter_class=_Help
    )


class _Help(argparse.HelpFormatter):
    """Help as wide as the terminal; argparse itself would import shutil for that at every start."""

    def __init__(self, prog: str) -> None:
        try:
            columns = int(os.environ.get("COLUMNS") or os.get_terminal_size().columns)
        except (OSError, ValueError):
            columns = 80
        super().__init__(prog, width=max(40, columns - 2))
