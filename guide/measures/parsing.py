"""Parse one measure as a person types it.

The grammar: a number and its unit, feet and inches, or minutes and seconds. A text that can be read in
more than one way is refused, never guessed, because a hole is drilled by it. A suggestion keeps every
figure that was typed.
"""

import re
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from guide.measures.errors import RefusedError, example, quoted, refusal
from guide.measures.quantity import Quantity, number
from guide.measures.typed_numbers import (
    NUMBER,
    Number,
    foreign_digits,
    in_plain_digits,
    number_typed,
    tidy,
    with_points,
)
from guide.measures.units import check_kind, check_system, home_unit, unit_named, units_of
from guide.text import nearest

SPELLINGS: dict[str, tuple[str, ...]] = {
    "in": ("in", "ins", "inch", "inches", '"'),
    "ft": ("ft", "foot", "feet", "'"),
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "deg": ("deg", "degs", "degree", "degrees", "°"),
    "lbf": ("lbf", "lbsf", "lb f", "lbs f", "pound force", "pounds force"),
    "N": ("n", "newton", "newtons"),
    "s": ("s", "sec", "secs", "second", "seconds"),
    "min": ("min", "mins", "minute", "minutes"),
    "lb": ("lb", "lbs", "pound", "pounds"),
    "kg": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
    # "h2o" is read as "water" before the number is looked for (see `typed_numbers.tidy`)
    "inH2O": tuple(
        f"{inch}{of}"
        for inch in ("in", "inch", "inches", '"')
        for of in (
            "water",
            " water",
            " of water",
            " water gauge",
            " water column",
            "wg",
            " wg",
            " w g",
            "wc",
            " wc",
            " w c",
        )
    ),
    "Pa": ("pa", "pascal", "pascals"),
    "lbf ft": (
        "lbf ft",
        "ft lbf",
        "lb ft",
        "ft lb",
        "lbs ft",
        "ft lbs",
        "foot pound",
        "foot pounds",
        "pound foot",
        "pound feet",
    ),
    "N m": (
        "n m",
        "nm",
        "newton metre",
        "newton metres",
        "newton meter",
        "newton meters",
    ),
}
"""Unit symbol to its spellings: small letters, words separated by one space."""

_SYMBOL_OF = {spelling: symbol for symbol, known in SPELLINGS.items() for spelling in known}

_WORD = r"[a-z°'\"]+"
_BETWEEN = r"(?:\. ?| ?[-·⋅*] ?| )"
_UNIT_TEXT = re.compile(rf"[ -]?{_WORD}(?:{_BETWEEN}{_WORD})*\.?")
_PARTED = re.compile(r"[ .·⋅*-]+")


def unit_spelled(text: str, kind: str | None) -> str | None:
    """The symbol of the unit written after a number, or None when it is not known.

    `text` is tidied. A pound is a force where a force is expected (`kind` "force"), else a mass.
    """
    if not _UNIT_TEXT.fullmatch(text):
        return None
    symbol = _SYMBOL_OF.get(_parted_words(text))
    return "lbf" if symbol == "lb" and kind == "force" else symbol


def _parted_words(text: str) -> str:
    return " ".join(part for part in _PARTED.split(text) if part)


_LONGEST = 120
"""Characters; a measure needs fewer, and so does its exact writing."""

_SMALLER: dict[str, tuple[str, int]] = {"ft": ("in", 12), "min": ("s", 60)}
"""Units written with a smaller one after them, and how many of it they hold."""


class ParsedMeasure(NamedTuple):
    """An exact number, and its unit unless it was left out."""

    magnitude: Fraction
    unit: str | None


class _Piece(NamedTuple):
    number: Number
    after: str
    """The text between this number and the next, or the end."""


@lru_cache(maxsize=1024)
def read(text: str, kind: str | None, system: str) -> ParsedMeasure:
    """Parse one measure of `kind` (of any kind when None); RefusedError if it is unclear."""
    if len(text) > _LONGEST:
        raise RefusedError(f"is longer than {_LONGEST} characters")
    plain = tidy(text)
    if not plain:
        raise RefusedError("is empty")
    if foreign_digits(plain):
        raise RefusedError("has figures other than 0 to 9", in_plain_digits(plain))
    if plain.startswith(("-", "−")):
        raise RefusedError("is below zero, and a measure here cannot be")
    parts = _parts(with_points(plain, system), kind, system)
    if len(parts) == 1:
        unit = _unit(parts[0], kind, system, alone=True) if parts[0].after else None
        return ParsedMeasure(parts[0].number.value, unit)
    return _compound(parts, kind, system)


def _parts(text: str, kind: str | None, system: str) -> list[_Piece]:
    found = list(NUMBER.finditer(text))
    if not found:
        raise RefusedError("has no number written in figures")
    starts = [match.start() for match in found[1:]] + [len(text)]
    parts = [
        _Piece(number_typed(match), text[match.end() : start])
        for match, start in zip(found, starts, strict=True)
    ]
    lead = text[: found[0].start()]
    if lead:
        raise RefusedError(f"has {quoted(lead)} before its number", text[len(lead) :])
    if any("/" in part.after for part in parts):
        joined = text.replace(" /", "/").replace("/ ", "/")
        raise RefusedError("has a fraction that is not clear", joined)
    if any(not part.after.strip(" -") for part in parts[:-1]):
        raise RefusedError("can be read in more than one way", *_one_number(parts, kind, system))
    return parts


def _unit(part: _Piece, kind: str | None, system: str, *, alone: bool) -> str:
    """The unit written after a number, of the kind wanted; `alone` when nothing else was."""
    unit = unit_spelled(part.after, kind)
    if unit is None:
        raise _not_a_unit(part, kind, system, alone=alone)
    found = unit_named(unit).kind
    if kind is not None and found != kind:
        # 5 m for five minutes is the commonest slip. Any other number is not the same one of another kind:
        # a spring scale that reads 9 kg does not read 9 lbf.
        minutes = (kind, unit) == ("time", "m")
        raise RefusedError(
            f"is a measure of {found}, and one of {kind} is wanted",
            f"{part.number.text} min" if alone and minutes else "",
        )
    return unit


def _not_a_unit(part: _Piece, kind: str | None, system: str, *, alone: bool) -> RefusedError:
    """Why what is written after a number is not understood as a unit.

    What another unit comes to is said, and offered. The same number in a unit that was not written is never offered,
    unless only the spelling of the unit was wrong.
    """
    from guide.measures.foreign_units import about_written, converted, foreign_unit

    word = _parted_words(part.after)
    foreign = foreign_unit(word)
    if foreign is not None and foreign.kind == (kind or foreign.kind):
        near = converted(part.number.value, foreign, system) if alone else None
        if near is None:
            return RefusedError("has a unit that is not used here")
        shown = about_written(near[0], exactly=near[1])
        return RefusedError(f"has a unit that is not used here, and is {shown}", str(near[0]))
    if foreign is not None:
        return RefusedError(f"is a measure of {foreign.kind}, and one of {kind} is wanted")
    known = ", ".join(units_of(kind or "length"))
    nothing = not any(character.isalpha() for character in word)
    spelled = _home(kind, system) if nothing else _misspelled(word, kind)
    return RefusedError(
        f"has {quoted(part.after)} where a unit such as {known} belongs",
        f"{part.number.text} {spelled}" if spelled and alone else "",
    )


SHORTEST_GUESSED = 4
"""Letters. A unit's sign of fewer is never taken for another one: kN is not a slip for N."""


def _misspelled(word: str, kind: str | None) -> str:
    """The spelled-out unit of the kind that a word is a typing error of; empty if none is near."""
    if len(word) < SHORTEST_GUESSED:
        return ""
    symbols = units_of(kind) if kind else tuple(SPELLINGS)
    known = [one for s in symbols for one in SPELLINGS[s] if len(one) >= SHORTEST_GUESSED]
    near = nearest(word, [one for one in known if one[0] == word[0]])
    return near if abs(len(near) - len(word)) <= 1 else ""


def _compound(parts: list[_Piece], kind: str | None, system: str) -> ParsedMeasure:
    """Feet then inches, or minutes then seconds; the smaller unit may be left out."""
    large, small = parts[0].number, parts[-1].number
    after = parts[0].after.rstrip(" -")
    unit = _unit(_Piece(large, after), kind, system, alone=False)
    if len(parts) > 2 or unit not in _SMALLER:
        raise RefusedError(f"has more after its {unit}")
    smaller, count = _SMALLER[unit]
    plainly = f"{large.text} {unit} {small.text} {smaller}"
    if parts[-1].after and _unit(parts[-1], kind, system, alone=False) != smaller:
        raise RefusedError(f"has a unit other than {smaller} after its {unit}", plainly)
    if not parts[-1].after and small.lone_fraction:
        raise RefusedError(
            "can be read in more than one way", plainly, f"{large.text} {small.text} {unit}"
        )
    # 2'-11 and 2' - 11 are how drawings have it; 2' -11 may be a slip
    if parts[0].after.removeprefix(after) not in ("", " ", "-", " - "):
        raise RefusedError("can be read in more than one way", plainly)
    if not large.whole:
        raise RefusedError(f"has a number of {unit} that is not whole before its {smaller}")
    if small.value >= count:
        more, left = divmod(small.value, count)
        raise RefusedError(
            f"has {count} {smaller} or more after its {unit}",
            f"{large.value + more} {unit} {number(left, inches=smaller == 'in')} {smaller}",
        )
    return ParsedMeasure(large.value * count + small.value, smaller)


def _one_number(parts: list[_Piece], kind: str | None, system: str) -> list[str]:
    """What numbers side by side may mean, likeliest first."""
    tail = _tail(parts[-1], kind, system)
    texts = [part.number.text for part in parts]
    wholes = [part.number.whole for part in parts]
    feet = f"{texts[0]} ft {texts[1]} in"
    in_inches = kind in (None, "length") and tail in ("", " in")
    if wholes == [True, False] and in_inches and not parts[1].number.lone_fraction:
        return [feet]
    if wholes == [True, True, True]:
        return [f"{texts[0]} {texts[1]}/{texts[2]}{tail}", f"{texts[0]}.{texts[1]}{texts[2]}{tail}"]
    if wholes != [True, True]:
        return []
    if len(texts[1]) == 3:
        return [f"{texts[0]}{texts[1]}{tail}", f"{texts[0]}.{texts[1]}{tail}"]
    above = int(texts[1])
    if above > 64:
        return [f"{texts[0]}.{texts[1]}{tail}"]
    if above % 2:
        below = max(8, 1 << above.bit_length())
        return [f"{texts[0]} {above}/{below}{tail}", f"{texts[0]}.{texts[1]}{tail}"]
    return [f"{texts[0]}.{texts[1]}{tail}", feet if in_inches else ""]


def _tail(last: _Piece, kind: str | None, system: str) -> str:
    """The unit to suggest after a number: the one written, or one where it must be written."""
    unit = unit_spelled(last.after, kind) or (_home(kind, system) if kind is None else None)
    return f" {unit}" if unit else ""


def _home(kind: str | None, system: str) -> str:
    return home_unit(kind or "length", system)


def parse(text: str, kind: str | None = None, system: str = "inch") -> Quantity:
    """The measure a person wrote, exactly, in the unit they wrote it in.

    `kind` is one of KINDS: a number without a unit then has the home unit of `system` ("inch" or
    "metric"). With None a unit must be written, and "lb" is a mass. Feet and inches come back in
    inches, minutes and seconds in seconds. MeasureError when the text is unclear, below zero or
    of another kind; ValueError when `kind` or `system` is not known.
    """
    check_asked(kind, system)
    try:
        return with_home_unit(read(text, kind, system), text, kind, system)
    except RefusedError as refused:
        raise refusal(
            text, refused, lambda idea: _readable(idea, kind, system), example(kind, system)
        ) from None


def check_asked(kind: str | None, system: str) -> None:
    """ValueError unless the kind (or None) and the system are known."""
    if kind is not None:
        check_kind(kind)
    check_system(system)


def with_home_unit(parsed: ParsedMeasure, text: str, kind: str | None, system: str) -> Quantity:
    """The measure that `text` was parsed to; a unit left out is the home unit of the kind.

    RefusedError when it was left out and the kind is None.
    """
    if parsed.unit is not None:
        return Quantity(parsed.magnitude, parsed.unit)
    if kind is None:
        bare = " ".join(text.split())
        raise RefusedError("has no unit", f"{bare} in", f"{bare} mm")
    return Quantity(parsed.magnitude, home_unit(kind, system))


def _readable(text: str, kind: str | None, system: str) -> bool:
    try:
        with_home_unit(read(text, kind, system), text, kind, system)
    except RefusedError:
        return False
    return True


_MINUS = ("-", "−", "minus ")


def parse_signed(text: str, kind: str | None, system: str = "inch") -> Quantity:
    """A measure that may lie on either side of its datum line: `-2 3/4 in` is behind it.

    A minus sign or the word "minus" comes first. `parse` refuses one, because a minus before a door's
    width is a slip; only inputs declared `signed`, such as a pivot's offset from the door edge, use this.

    `kind`, `system` and errors as for `parse`. The sign belongs to the whole number: -2 3/4 in is
    two and three quarters below zero.
    """
    bare = text.strip()
    for sign in _MINUS:
        if bare.lower().startswith(sign):
            size = parse(bare[len(sign) :], kind, system)
            return Quantity(-size.magnitude, size.unit)
    return parse(bare, kind, system)
