"""Units of one system that a text names outside braces: measures such as 5 lbf, and words such as pounds."""

import re
from collections.abc import Iterator

from guide.measures.parsing import SPELLINGS
from guide.measures.units import UNITS, Unit

_BRACED = re.compile(r"\{[^{}]*\}")
_MARKS = ('"', "'")


def _symbols() -> dict[str, str]:
    """Every writing of a unit that one system alone uses, with its symbol; of a sign its letters as they are."""
    found = {}
    for symbol, spelled in SPELLINGS.items():
        if len(UNITS[symbol].systems) == 1:
            found[symbol] = symbol
            found |= {one: symbol for one in spelled if one not in _MARKS and len(one) > 1}
    return found


_SYMBOLS = _symbols()
_LONGEST_FIRST = sorted(_SYMBOLS, key=len, reverse=True)
_NUMBER = r"\d+(?:\.\d+)?(?: \d+/\d+|/\d+)?"
_AFTER_INCHES = (
    "above|across|along|and|apart|are|at|away|below|beside|between|by|clear|deep|down|for|from|further|give|high|in|is|"
    "less|long|more|of|off|on|only|or|out|over|per|short|thick|to|toward|under|up|where|wide|with"
)
_MEASURE = re.compile(
    rf"(?<![\w./-]){_NUMBER}[ -]?({'|'.join(map(re.escape, _LONGEST_FIRST))})\b"
    rf"(?!(?<=\bin) (?!(?:{_AFTER_INCHES})\b)[A-Za-z0-9])"
)
"""“90 in harder wood” is not 90 inches: after `in` only these words may follow."""
_SPELLED_OUT = re.compile(
    rf"\b({'|'.join(one for one in _LONGEST_FIRST if len(one) > 3)})\b", re.IGNORECASE
)


def outside_braces(text: str) -> str:
    """The text without what stands in braces."""
    return _BRACED.sub(" ", text)


def measures_named(text: str) -> Iterator[tuple[str, Unit]]:
    """Each measure in a unit of one system, as it is written, and its unit."""
    for match in _MEASURE.finditer(text):
        yield match[0], UNITS[_SYMBOLS[match[1]]]


def units_named(text: str) -> Iterator[tuple[str, Unit]]:
    """Each spelled-out unit of one system, as it is written, such as “Pounds”."""
    for match in _SPELLED_OUT.finditer(text):
        yield match[1], UNITS[_SYMBOLS[match[1].lower()]]


def unit_asked_for(text: str, kind: str) -> tuple[str, Unit] | None:
    """The first unit of a kind, and of one system, that the words of a question name; pounds are of force and mass."""
    for said, unit in units_named(outside_braces(text)):
        if unit.kind == kind or (unit.kind, kind) == ("mass", "force"):
            return said, unit
    return None
