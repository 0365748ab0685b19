"""The error raised for a measure that cannot be understood: what was wrong, and what to write instead."""

import re
from collections.abc import Callable

from guide.errors import UNKNOWN, HingesideError
from guide.text import printable


class MeasureError(HingesideError, ValueError):
    """A measure that was refused. `str` is one sentence for the person who wrote it."""

    status = UNKNOWN

    suggestions: tuple[str, ...]
    """Writings that would be understood in its place, likeliest first; may be empty."""

    why: str
    """The sentence without what to write instead, for a caller that knows better what is accepted."""
    meant: tuple[str, ...]
    """The suggestions that keep what was typed; empty if only an example is given."""

    def __init__(
        self,
        sentence: str,
        suggestions: tuple[str, ...] = (),
        *,
        why: str = "",
        meant: tuple[str, ...] = (),
    ) -> None:
        super().__init__(sentence)
        self.suggestions = suggestions
        self.why = why or sentence.removesuffix(".")
        self.meant = meant


_LONGEST_QUOTE = 40

_EXAMPLES: dict[tuple[str, str], str] = {
    ("length", "inch"): "35 7/8 in",
    ("length", "metric"): "911 mm",
    ("angle", "inch"): "90 deg",
    ("angle", "metric"): "90 deg",
    ("force", "inch"): "5 lbf",
    ("force", "metric"): "22 N",
    ("time", "inch"): "5.5 s",
    ("time", "metric"): "5.5 s",
    ("mass", "inch"): "110 lb",
    ("mass", "metric"): "50 kg",
    ("pressure", "inch"): "0.05 inH2O",
    ("pressure", "metric"): "12 Pa",
    ("moment", "inch"): "18 lbf ft",
    ("moment", "metric"): "24 N m",
}


class RefusedError(Exception):
    """Raised within this package while parsing; `parse` turns it into a MeasureError.

    `why` continues the sentence after the quoted text. `ideas` are writings that may be meant;
    the ones that cannot themselves be read are dropped later, so they need no checking.
    """

    def __init__(self, why: str, *ideas: str) -> None:
        super().__init__(why)
        self.why = why
        self.ideas = ideas


def example(kind: str | None, system: str) -> str:
    """A measure of this kind as it might be written; a length when the kind is None."""
    return _EXAMPLES[kind or "length", system]


def refusal(
    text: str, refused: RefusedError, readable: Callable[[str], bool], otherwise: str
) -> MeasureError:
    """The error for `text`: suggests the readable ideas, or `otherwise` if there are none."""
    ideas = dict.fromkeys(_with_signs(idea) for idea in refused.ideas if idea.isprintable())
    usable = tuple(idea for idea in ideas if readable(idea))
    why = f"{quoted(text)} {refused.why}"
    if usable:
        return MeasureError(f"{why}; write {' or '.join(usable)}.", usable, why=why, meant=usable)
    return MeasureError(f"{why}; write a measure such as {otherwise}.", (otherwise,), why=why)


_SIGNS: dict[str, str] = {"pa": "Pa", "n": "N", "n m": "N m", "nm": "N m", "inwater": "inH2O"}
_SMALL_SIGN = re.compile(r"(?<=\d) ?(pa|n m|nm|n|inwater)\Z")
"""Signs of units as they are after the text was brought to small letters."""


def _with_signs(idea: str) -> str:
    return _SMALL_SIGN.sub(lambda found: f" {_SIGNS[found[1]]}", idea)


def quoted(text: str) -> str:
    """The text as typed, in quotation marks, shortened and without control characters."""
    line = " ".join(text[: 2 * _LONGEST_QUOTE].split())
    clean = printable(line)
    short = len(clean) <= _LONGEST_QUOTE and len(text) <= 2 * _LONGEST_QUOTE
    return f"“{clean}”" if short else f"“{clean[:_LONGEST_QUOTE]}…”"
