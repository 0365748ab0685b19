"""The ways people write each unit, in small letters, words parted by one space."""

import re

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
    # "h2o" is read as "water" before the number is looked for (see tidying)
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
"""Unit symbol to its spellings."""

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
    symbol = _SYMBOL_OF.get(" ".join(part for part in _PARTED.split(text) if part))
    return "lbf" if symbol == "lb" and kind == "force" else symbol
