"""Messages on standard error, beside a verb's result, and the error of a call that is wrong."""

import sys
from collections.abc import Callable, Sequence

from guide.errors import DONE, FOUND, UNKNOWN, HingesideError
from guide.text import printable

LONGEST_LIST = 20
"""Lines of one kind that are printed; the rest are counted. `--json` has all."""


class Usage(HingesideError):
    """The call's words are wrong; the message says what to write."""

    status = UNKNOWN


def say(message: str) -> None:
    """A message to the person, beside the result."""
    sys.stderr.write("\n".join(printable(line) for line in message.split("\n")) + "\n")


def list_lines(lines: Sequence[str], show: Callable[[str], object] = print) -> None:
    """Show the first of these lines, and how many more there are."""
    for line in lines[:LONGEST_LIST]:
        show(line)
    if len(lines) > LONGEST_LIST:
        show(f"… and {len(lines) - LONGEST_LIST} more such lines; --json has all.")


def left_out(sentences: Sequence[str]) -> int:
    """Say what was left out of work whose result is printed; the exit status, FOUND where there is such.

    The work is done and its result stands on standard output all the same: what was left out is a finding.
    """
    list_lines([f"hingeside: {one}" for one in sentences], say)
    return FOUND if sentences else DONE
