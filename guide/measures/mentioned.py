"""Units of one system that a text names outside braces: measures such as 5 lbf, and words such as pounds."""

import re
from collections.abc import Iterator
from fractions import Fraction

from guide.measures.errors import MeasureError
from guide.measures.in_text import in_units
from guide.measures.parsing import SPELLINGS, parse
from guide.measures.quantity import Quantity, write
from guide.measures.showing import nearest
from guide.measures.units import UNITS, Unit, home_unit

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
# Patterns stay text until they are used: a start needs none, and `re` keeps what it has compiled.
_MEASURE = (
    rf"(?<![\w./-]){_NUMBER}[ -]?({'|'.join(map(re.escape, _LONGEST_FIRST))})\b"
    rf"(?!(?<=\bin) (?!(?:{_AFTER_INCHES})\b)[A-Za-z0-9])"
)
"""“90 in harder wood” is not 90 inches: after `in` only these words may follow."""
_SPELLED_OUT = rf"(?i)\b({'|'.join(one for one in _LONGEST_FIRST if len(one) > 3)})\b"


def outside_braces(text: str) -> str:
    """The text without what stands in braces."""
    return _BRACED.sub(" ", text)


def measures_named(text: str) -> Iterator[tuple[str, Unit]]:
    """Each measure in a unit of one system, as it is written, and its unit."""
    for match in re.finditer(_MEASURE, text):
        yield match[0], UNITS[_SYMBOLS[match[1]]]


def units_named(text: str) -> Iterator[tuple[str, Unit]]:
    """Each spelled-out unit of one system, as it is written, such as “Pounds”."""
    for match in re.finditer(_SPELLED_OUT, text):
        yield match[1], UNITS[_SYMBOLS[match[1].lower()]]


def with_conversions(text: str, system: str) -> str:
    """The text with each measure that only people of the other system understand followed by what it comes to.

    `32 in is required` is for one who works in metric `32 in (813 mm) is required`. A measure that stands beside one
    of its kind in `system` is left as it is, and so is what is bored: a drill of 9/64 in is not one of 3.6 mm.
    """

    def converted(match: re.Match[str]) -> str:
        unit = UNITS[_SYMBOLS[match[1]]]
        bored = unit.kind == "length" and re.search(_BORED, text) is not None
        if system in unit.systems or bored or _has_own(text, match, unit, system):
            return match[0]
        try:
            measure = parse(match[0].replace("-", " "), unit.kind)
        except MeasureError:
            return match[0]
        before = text[: match.start()]
        shown = _fine(measure, system)
        inside = before.count("(") > before.count(")")
        return f"{match[0]}, {shown}" if inside else f"{match[0]} ({shown})"

    return re.sub(_MEASURE, converted, text)


def _has_own(text: str, match: re.Match[str], unit: Unit, system: str) -> bool:
    """Whether a measure of the kind in `system` stands in brackets after it, or it stands in brackets after one."""
    after, before = text[match.end() :], text[: match.start()]
    near = [after[2:].partition(")")[0]] if after.startswith(" (") else []
    if before.endswith(" ("):
        near.append(before[:-2][-_BESIDE:])
    return any(
        other.kind == unit.kind and system in other.systems
        for part in near
        for _, other in measures_named(part)
    )


_SHORT = 10
"""Millimetres."""
_BESIDE = 24
"""Characters before a bracket in which the measure that it converts stands."""


_BORED = r"(?i)\b(drill|pilot|lead hole|a hole of|tap|screw|pitch|gauge)\b"


def _fine(measure: Quantity, system: str) -> str:
    """A measure converted as a rule's text prints it: a force to a tenth of a newton, a gap to a tenth of a mm."""
    home = home_unit(measure.kind, system)
    if home == "N" or (home == "mm" and measure.to("mm").magnitude < _SHORT):
        return write(nearest(measure, Quantity(Fraction(1, 10), home)))
    return in_units(measure, system)


def unit_asked_for(text: str, kind: str) -> tuple[str, Unit] | None:
    """The first unit of a kind, and of one system, that the words of a question name; pounds are of force and mass."""
    for said, unit in units_named(outside_braces(text)):
        if unit.kind == kind or (unit.kind, kind) == ("mass", "force"):
            return said, unit
    return None
