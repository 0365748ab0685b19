"""Measures kept whole where running text is broken into lines: 1 at the end of one line and 1/2 in on the next is
read as another measure.

`held` before the text is broken at its spaces, `freed` for each line after it.
"""

import re

_SPACE = "\u00a0"
"""Stands for the spaces inside a measure; one column wide, as a space is."""

_INSIDE = re.compile(
    r"(?<=\d) (?=\d+/\d+)|(?<=\d) (?=(?:in|ft|mm|cm|m|deg|degrees|lbf|lb|N|kg|s)\b)"
)


def held(text: str) -> str:
    """The text with each measure as one word: `1 1/2 in` is not broken, nor `5 s`."""
    return _INSIDE.sub(_SPACE, text)


def freed(line: str) -> str:
    """The line with plain spaces again."""
    return line.replace(_SPACE, " ")
