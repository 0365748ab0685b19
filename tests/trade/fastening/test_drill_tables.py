"""Number and letter drills, every one of them, as two public drill tables after ASME B94.11M print them [in]."""

from guide.measures import parse
from guide.trade.fastening.drills import drill_typed

_NUMBERS = """
    .2280 .2210 .2130 .2090 .2055 .2040 .2010 .1990 .1960 .1935
    .1910 .1890 .1850 .1820 .1800 .1770 .1730 .1695 .1660 .1610
    .1590 .1570 .1540 .1520 .1495 .1470 .1440 .1405 .1360 .1285
    .1200 .1160 .1130 .1110 .1100 .1065 .1040 .1015 .0995 .0980
    .0960 .0935 .0890 .0860 .0820 .0810 .0785 .0760 .0730 .0700
    .0670 .0635 .0595 .0550 .0520 .0465 .0430 .0420 .0410 .0400
"""
"""No. 1 to 60."""
_LETTERS = """
    .234 .238 .242 .246 .250 .257 .261 .266 .272 .277 .281 .290 .295
    .302 .316 .323 .332 .339 .348 .358 .368 .377 .386 .397 .404 .413
"""
"""A to Z."""


def inches(typed: str) -> float:
    return float(parse(drill_typed(typed), "length").magnitude)


def test_the_number_drills() -> None:
    assert [inches(f"No. {number}") for number in range(1, 61)] == [
        float(one) for one in _NUMBERS.split()
    ]


def test_the_letter_drills() -> None:
    assert [inches(letter) for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"] == [
        float(one) for one in _LETTERS.split()
    ]
