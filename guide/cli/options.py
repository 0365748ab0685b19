"""The options of a verb: read by argparse, with errors in one line."""

import argparse
import sys
from typing import NoReturn

from guide.errors import UNKNOWN


def parser_of(verb: str, about: str, examples: str = "") -> argparse.ArgumentParser:
    """The parser of one verb, still without its options; a wrong option ends with the status UNKNOWN.

    `examples` are lines of calls, each with what it does; they close the help.
    """

    class Parser(argparse.ArgumentParser):
        def error(self, message: str) -> NoReturn:
            sys.stderr.write(f"hingeside: {message}; see “{self.prog} --help”.\n")
            raise SystemExit(UNKNOWN)

    return Parser(
        prog=f"hingeside {verb}",
        description=f"{about[:1].upper()}{about[1:]}.".replace("….", "…"),
        epilog=f"examples:\n{examples}" if examples else None,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
