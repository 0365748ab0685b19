"""The options of a verb: read by argparse, with errors in one line."""

import argparse
import sys
from typing import NoReturn

from guide.errors import UNKNOWN


def parser_of(verb: str, about: str) -> argparse.ArgumentParser:
    """The parser of one verb, still without its options; a wrong option ends with the status UNKNOWN."""

    class Parser(argparse.ArgumentParser):
        def error(self, message: str) -> NoReturn:
            sys.stderr.write(f"hingeside: {message}; see “{self.prog} --help”.\n")
            raise SystemExit(UNKNOWN)

    return Parser(prog=f"hingeside {verb}", description=about, allow_abbrev=False)
