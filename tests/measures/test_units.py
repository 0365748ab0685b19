"""Sizes of units, and how measures compare.

Source of the sizes: NIST SP 811, Guide for the Use of the International System of Units (SI),
appendix B.8, where an exact factor is in bold; a rounded one is held here to its last figure.
The inch of water and the millimetre of water were checked in copies of that table; the other
figures are from memory.
"""

import subprocess
import sys
from fractions import Fraction

import pytest

from guide.measures import KINDS, MeasureError, Quantity, home_unit, units_of


def q(magnitude: str, unit: str) -> Quantity:
    return Quantity(Fraction(magnitude), unit)


@pytest.mark.parametrize(
    ("one", "exactly"),
    [
        # SP 811 B.8: inch, 2.54 E+00 cm, exact
        (q("1", "in"), q("25.4", "mm")),
        # SP 811 B.8: foot, 3.048 E-01 m, exact
        (q("1", "ft"), q("0.3048", "m")),
        # SP 811 B.8 gives the avoirdupois pound rounded; its note gives 0.453 592 37 kg, exact
        (q("1", "lb"), q("0.45359237", "kg")),
        # SP 811 B.8 note: 4.448 221 615 260 5 N, exact: the pound under 9.806 65 m/s2
        (q("1", "lbf"), q("4.4482216152605", "N")),
        # the two above, by 0.3048 m
        (q("1", "lbf ft"), q("1.3558179483314004", "N m")),
        # 25.4 mm of conventional water, each 9.806 65 Pa (SP 811 B.8, exact)
        (q("1", "inH2O"), q("249.08891", "Pa")),
        # SP 811 B.8: minute, 6.0 E+01 s, exact
        (q("1", "min"), q("60", "s")),
    ],
)
def test_exact_sizes(one: Quantity, exactly: Quantity) -> None:
    """Each unit is exactly the size its definition gives."""
    assert one == exactly
    assert one.to(exactly.unit).magnitude == exactly.magnitude


@pytest.mark.parametrize(
    ("one", "unit", "printed", "last_figure"),
    [
        (q("1", "lb"), "kg", "0.4535924", "0.0000001"),  # SP 811 B.8: 4.535 924 E-01
        (q("1", "lbf"), "N", "4.448222", "0.000001"),  # SP 811 B.8: 4.448 222 E+00
        (q("1", "lbf ft"), "N m", "1.355818", "0.000001"),  # SP 811 B.8: 1.355 818 E+00
        (q("1", "inH2O"), "Pa", "249.0889", "0.0001"),  # SP 811 B.8: 2.490 889 E+02
    ],
)
def test_agrees_with_the_printed_table(
    one: Quantity, unit: str, printed: str, last_figure: str
) -> None:
    """Rounded to the figures printed, the exact sizes are those of the table."""
    assert abs(one.to(unit).magnitude - Fraction(printed)) <= Fraction(last_figure) / 2


def test_a_three_foot_leaf_is_one_length_however_written() -> None:
    """Equal measures are equal, and hash alike, in any unit."""
    leaf = {q("36", "in"), q("3", "ft"), q("914.4", "mm"), q("91.44", "cm"), q("0.9144", "m")}
    assert len(leaf) == 1
    assert q("36", "in") == q("914.4", "mm")


def test_order_is_exact() -> None:
    """The limit of 5 lbf (22.2 N) is not the same as 22.2 N: 22.2 N is just under it."""
    limit = q("5", "lbf")
    assert q("22.2", "N") < limit
    assert q("22.3", "N") > limit
    assert limit <= q("5", "lbf")
    assert limit >= q("22.2", "N")


def test_kinds_are_kept_apart() -> None:
    """Five pounds of door is no five pounds of push: never equal, never in order."""
    push, leaf = q("5", "lbf"), q("5", "lb")
    assert push != leaf
    with pytest.raises(TypeError, match="5 lbf is a measure of force and 5 lb one of mass"):
        _ = push < leaf
    with pytest.raises(TypeError, match="cannot be turned into kg"):
        push.to("kg")


def test_a_measure_is_exact_and_in_a_known_unit() -> None:
    """A float or a stray unit is caught where it is made."""
    with pytest.raises(TypeError, match="exact Fraction, not the float"):
        Quantity(35.875, "in")  # type: ignore[arg-type]
    with pytest.raises(MeasureError, match="“furlong” is not a unit known here"):
        q("1", "furlong")
    assert Quantity(36, "in").magnitude == Fraction(36)  # type: ignore[arg-type]


def test_home_units() -> None:
    """The unit of a bare number, for each kind and system."""
    assert [home_unit(kind, "inch") for kind in KINDS] == [
        "in", "deg", "lbf", "s", "lb", "inH2O", "lbf ft",
    ]  # fmt: skip
    assert [home_unit(kind, "metric") for kind in KINDS] == [
        "mm", "deg", "N", "s", "kg", "Pa", "N m",
    ]  # fmt: skip
    assert units_of("length") == ("in", "ft", "mm", "cm", "m")


def test_imports_the_standard_library_only() -> None:
    """In a fresh process, nothing is loaded but the standard library and this part."""
    program = (
        "import sys; before = set(sys.modules); import guide.measures; "
        "print(*{name.partition('.')[0] for name in set(sys.modules) - before})"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert set(ran.stdout.split()) - sys.stdlib_module_names == {"guide"}
