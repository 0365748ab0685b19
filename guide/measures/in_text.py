"""Measures written in braces in a text, and shown in the units of the person who reads it.

`{1/16 in}` is a measure: 1/16 in to one who works in inches, 1.5 mm to another. `{at most 5 lbf}` and
`{at least 78 in}` are limits of a rule: they are shown in their own unit, and for the other system with what they come
to in brackets, never rounded past the limit: "at most 5 lbf (22 N)".
"""

import re
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import NamedTuple

from guide.measures.parsing import parse
from guide.measures.quantity import Quantity, write
from guide.measures.showing import STEPS
from guide.measures.units import check_system, home_unit, unit_named
from guide.text import is_quantity

AT_MOST, AT_LEAST = "at most ", "at least "
_BRACED = re.compile(r"(?<!\{)\{([^{}]+)\}(?!\})")


class Written(NamedTuple):
    """A measure in braces."""

    bound: str
    """`AT_MOST` or `AT_LEAST` for a limit, else empty."""
    quantity: Quantity


@lru_cache(maxsize=512)
def read_written(inner: str) -> Written:
    """What stands between two braces, such as `at most 5 lbf`; MeasureError if it is not a measure with its unit."""
    small = inner[:1].lower() + inner[1:]
    bound = next((one for one in (AT_MOST, AT_LEAST) if small.startswith(one)), "")
    return Written(bound, parse(small.removeprefix(bound), None))


_FINE: dict[str, Fraction] = {**STEPS, "in": Fraction(1, 32), "mm": Fraction(1, 2)}
"""What can be told apart at a door. Our own choice, as are the coarser ones."""
_COARSER: dict[str, tuple[tuple[int, Fraction], ...]] = {
    "in": ((40, Fraction(1, 2)), (2, Fraction(1, 8))),
    "mm": ((1000, Fraction(10)), (10, Fraction(1))),
    "lbf": ((20, Fraction(1)), (10, Fraction(1, 2))),
    "kg": ((100, Fraction(5)),),
    "lb": ((100, Fraction(5)),),
}
"""From which size on a measure is spoken of in what steps, the largest first."""


WHOLE_FROM = 10
"""Millimetres; a longer limit is given to the whole one."""


def in_units(q: Quantity, system: str) -> str:
    """A measure for one who works in `system`; in another unit rounded to what people would say: 1/16 in is 1.5 mm,
    78 in is 1980 mm."""
    check_system(system)
    if system in unit_named(q.unit).systems:
        return write(q)
    home = home_unit(q.kind, system)
    exact = q.to(home).magnitude
    coarse = (step for size, step in _COARSER.get(home, ()) if abs(exact) >= size)
    step = next(coarse, _FINE[home])
    return (
        write(Quantity(round(exact / step) * step, home)) if exact else write(Quantity(exact, home))
    )


def bound_in_units(q: Quantity, bound: str, system: str) -> str:
    """A limit in its own unit; what it comes to in `system` follows in brackets: never more than `AT_MOST` allows, nor
    less than `AT_LEAST`."""
    there = converted_bound(q, bound, system)
    return write(q) if there is None else f"{write(q)} ({write(there)})"


def converted_bound(q: Quantity, bound: str, system: str) -> Quantity | None:
    """A limit in the home unit of another system, rounded to the safe side; None if its own unit is one of `system`."""
    check_system(system)
    if system in unit_named(q.unit).systems:
        return None
    home = home_unit(q.kind, system)
    exact = q.to(home).magnitude
    fine = Fraction(1) if home == "mm" and exact >= WHOLE_FROM else _FINE[home]
    rounded = {AT_MOST: floor, AT_LEAST: ceil}.get(bound, round)
    return Quantity(Fraction(rounded(exact / fine)) * fine, home)


def shown_in(inner: str, system: str) -> str:
    """What stands between two braces, for one who works in `system`."""
    bound, quantity = read_written(inner)
    if not bound:
        return in_units(quantity, system)
    return f"{inner[: len(bound)]}{bound_in_units(quantity, bound, system)}"


def with_quantities(text: str, system: str) -> str:
    """The text with every measure in braces shown for `system`; names in braces are left."""
    return _each(text, lambda inner: shown_in(inner, system))


def without_braces(text: str) -> str:
    """The text with every measure as it is written in the file, without its braces; names in braces are left."""
    return _each(text, lambda inner: inner)


def _each(text: str, show: Callable[[str], str]) -> str:
    if "{" not in text:
        return text
    return _BRACED.sub(
        lambda found: show(found[1]) if is_quantity(found[1]) else found[0],
        text,
    )
