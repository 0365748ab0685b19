"""Twist drills on sale: fractional inch, number, letter and metric sizes, and the nearest one.

Number and letter sizes: two public drill tables after ASME B94.11M. Which metric sizes are kept in
stock: common practice (0.05 mm steps to 3 mm, 0.1 mm to 14 mm, 0.25 mm to 16 mm, then 0.5 mm).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from guide.measures import Quantity
from guide.trade.answer import BadInput

_NUMBERS = (
    "0.2280 0.2210 0.2130 0.2090 0.2055 0.2040 0.2010 0.1990 0.1960 0.1935"
    " 0.1910 0.1890 0.1850 0.1820 0.1800 0.1770 0.1730 0.1695 0.1660 0.1610"
    " 0.1590 0.1570 0.1540 0.1520 0.1495 0.1470 0.1440 0.1405 0.1360 0.1285"
    " 0.1200 0.1160 0.1130 0.1110 0.1100 0.1065 0.1040 0.1015 0.0995 0.0980"
    " 0.0960 0.0935 0.0890 0.0860 0.0820 0.0810 0.0785 0.0760 0.0730 0.0700"
    " 0.0670 0.0635 0.0595 0.0550 0.0520 0.0465 0.0430 0.0420 0.0410 0.0400"
)
"""No. 1 first, to No. 60 [in]."""

_LETTERS = (
    "0.234 0.238 0.242 0.246 0.250 0.257 0.261 0.266 0.272 0.277 0.281 0.290 0.295"
    " 0.302 0.316 0.323 0.332 0.339 0.348 0.358 0.368 0.377 0.386 0.397 0.404 0.413"
)
"""A first, to Z [in]."""

_NUMBER_TYPED = re.compile(r"(?:no\.?|number|#) ?([0-9]{1,2})")
_LETTER_TYPED = re.compile(r"(?:letter )?([a-z])")


@dataclass(frozen=True, slots=True, eq=False)
class Drill:
    """One standard drill; each is there once, so that a series of them is found again in no time."""

    name: str
    """As on the box: "No. 7", "F", "5/16 in", "6.8 mm"."""
    size: Quantity
    """Its diameter [length]."""


def _fractional() -> Iterator[Drill]:
    for sixty_fourths in range(1, 65):
        size = Quantity(Fraction(sixty_fourths, 64), "in")
        yield Drill(str(size), size)


def _named() -> Iterator[Drill]:
    for number, inches in enumerate(_NUMBERS.split(), start=1):
        yield Drill(f"No. {number}", Quantity(Fraction(inches), "in"))
    for letter, inches in zip("ABCDEFGHIJKLMNOPQRSTUVWXYZ", _LETTERS.split(), strict=True):
        yield Drill(letter, Quantity(Fraction(inches), "in"))


def _metric() -> Iterator[Drill]:
    hundredths = (
        *range(50, 300, 5),
        *range(300, 1400, 10),
        *range(1400, 1600, 25),
        *range(1600, 2550, 50),
    )
    for one in hundredths:
        size = Quantity(Fraction(one, 100), "mm")
        yield Drill(str(size), size)


FRACTIONAL = tuple(_fractional())
"""1/64 in to 1 in by 1/64 in."""

INCH = (*FRACTIONAL, *_named())
"""Fractional, number (1 to 60) and letter drills."""

METRIC = tuple(_metric())
"""0.5 mm to 25 mm."""

_BY_NAME = {drill.name: drill for drill in INCH}


@lru_cache(maxsize=1024)
def nearest_drill(size: Quantity, series: tuple[Drill, ...]) -> Drill:
    """The drill of `series` nearest to `size` [length]; the smaller of two as near.

    A smaller hole can be drilled larger. Of two names for one size the fraction is given.
    """
    return min(series, key=lambda drill: (abs(drill.size.base - size.base), drill.size.base))


def drill_typed(text: str) -> str:
    """A drill's name as typed ("No. 7", "#7", "letter F") as its diameter ("0.201 in").

    Any other text is returned as it is: it may be a measure. BadInput for a number beyond 60.
    """
    word = " ".join(text.lower().split())
    number = _NUMBER_TYPED.fullmatch(word)
    letter = _LETTER_TYPED.fullmatch(word)
    name = f"No. {int(number[1])}" if number else letter[1].upper() if letter else ""
    if number and name not in _BY_NAME:
        raise BadInput(f"drill {name} does not exist; number drills run from No. 1 to No. 60.")
    return str(_BY_NAME[name].size) if name else text
