"""The grammar of a typed measure: a number and its unit, feet and inches, minutes and seconds.

What can be read in more than one way is refused, never guessed: a hole is drilled by it.
A suggestion keeps every figure that was typed.
"""

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from guide.measures.numerals import number
from guide.measures.refusing import RefusedError, quoted
from guide.measures.spellings import unit_spelled
from guide.measures.tidying import foreign_digits, in_plain_digits, tidy
from guide.measures.typed_numbers import NUMBER, Number, number_typed, with_points
from guide.measures.units import home_unit, unit_named, units_of

_LONGEST = 120
"""Characters; a measure takes fewer, and an exact writing of one too."""

_SMALLER: dict[str, tuple[str, int]] = {"ft": ("in", 12), "min": ("s", 60)}
"""Units written with a smaller one after them, and how many of it they hold."""


class Reading(NamedTuple):
    """What a text says: an exact number, and its unit unless it was left out."""

    magnitude: Fraction
    unit: str | None


class _Part(NamedTuple):
    number: Number
    after: str
    """The text between this number and the next, or the end."""


@lru_cache(maxsize=1024)
def read(text: str, kind: str | None, system: str) -> Reading:
    """Read one measure of `kind` (of any kind when None); RefusedError when it is not clear."""
    if len(text) > _LONGEST:
        raise RefusedError(f"is longer than {_LONGEST} characters")
    plain = tidy(text)
    if not plain:
        raise RefusedError("is empty")
    if foreign_digits(plain):
        raise RefusedError("has figures other than 0 to 9", in_plain_digits(plain))
    if plain.startswith(("-", "−")):
        raise RefusedError("is below zero, and a measure here cannot be", plain[1:].strip())
    parts = _parts(with_points(plain, system), kind, system)
    if len(parts) == 1:
        unit = _unit(parts[0], kind, system, alone=True) if parts[0].after else None
        return Reading(parts[0].number.value, unit)
    return _compound(parts, kind, system)


def _parts(text: str, kind: str | None, system: str) -> list[_Part]:
    found = list(NUMBER.finditer(text))
    if not found:
        raise RefusedError("has no number written in figures")
    starts = [match.start() for match in found[1:]] + [len(text)]
    parts = [
        _Part(number_typed(match), text[match.end() : start])
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


def _unit(part: _Part, kind: str | None, system: str, *, alone: bool) -> str:
    """The unit written after a number, of the kind wanted; `alone` when nothing else was."""
    unit = unit_spelled(part.after, kind)
    wanted = _home(kind, system)
    if unit is None:
        known = ", ".join(units_of(kind or "length"))
        raise RefusedError(
            f"has {quoted(part.after)} where a unit such as {known} would stand",
            f"{part.number.text} {wanted}" if alone else "",
        )
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


def _compound(parts: list[_Part], kind: str | None, system: str) -> Reading:
    """Feet then inches, or minutes then seconds; the smaller unit may be left out."""
    large, small = parts[0].number, parts[-1].number
    after = parts[0].after.rstrip(" -")
    unit = _unit(_Part(large, after), kind, system, alone=False)
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
    return Reading(large.value * count + small.value, smaller)


def _one_number(parts: list[_Part], kind: str | None, system: str) -> list[str]:
    """What numbers side by side may have been meant as, likeliest first."""
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


def _tail(last: _Part, kind: str | None, system: str) -> str:
    """The unit to suggest after a number: the one written, or one where it must be written."""
    unit = unit_spelled(last.after, kind) or (_home(kind, system) if kind is None else None)
    return f" {unit}" if unit else ""


def _home(kind: str | None, system: str) -> str:
    return home_unit(kind or "length", system)
