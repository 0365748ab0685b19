"""Messages on standard error, beside a verb's result, and the error of a call that is wrong."""

import sys

from guide.errors import UNKNOWN, HingesideError
from guide.text import printable


class Usage(HingesideError):
    """The call's words are wrong; the message says what to write."""

    status = UNKNOWN


def say(message: str) -> None:
    """A message to the person, beside the result."""
    sys.stderr.write("\n".join(printable(line) for line in message.split("\n")) + "\n")
