"""What the values of a sequence mean together, and how a value is parted to be said.

Each operation has both directions side by side, so that the ear and the mouth cannot disagree:
`meant` makes one value of several, and `parted` gives the values that would make it.
"""

from collections.abc import Iterator
from fractions import Fraction

from guide.measures import Quantity
from guide.words.nodes import Meant, Value

MOST_DECIMALS = 6
"""Digits after the point that are said: enough for 1/64 in, 0.015625."""

JOINED = "and"
"""The value of the word between a whole number and its fraction."""

_PARTED = ("ft", "min")
"""Units with a smaller one said after them: “three foot and a half” is not clear, so it is refused."""

OPERATIONS = (
    "sum",
    "mixed",
    "product",
    "digits",
    "decimals",
    "measure",
    "part",
    "unit and part",
    "compound",
)


def meant(node: Meant, values: tuple[Value, ...], home: str | None) -> Value | None:
    """The one value that these mean together; None where they mean nothing.

    `home` is the unit of a bare number, where one is understood.
    """
    numbers = [value for value in values if isinstance(value, Fraction)]
    units = [value for value in values if isinstance(value, str)]
    match node.operation:
        case "sum":
            return _sum(node, numbers)
        case "mixed":
            return _mixed(numbers, joined=bool(units))
        case "product":
            return numbers[0] * numbers[1]
        case "digits":
            return Fraction(_run_of(numbers))
        case "decimals":
            return Fraction(int(_run_of(numbers)), 10 ** len(numbers))
        case "measure":
            unit = units[0] if units else home
            return Quantity(numbers[0], unit) if unit is not None else None
        case "part":
            return Quantity(numbers[0], units[0]) if numbers[0].denominator > 1 else None
        case "unit and part":
            return _unit_and_part(numbers, units[0])
        case "compound":
            return _compound(node, numbers, units[0])
    raise ValueError(f"“{node.operation}” is no operation; there are {', '.join(OPERATIONS)}.")


def parted(
    node: Meant, value: Fraction, lasts: tuple[Fraction, ...]
) -> Iterator[tuple[Value, ...]]:
    """The values that mean `value` together, the likeliest first; nothing where none are known.

    `lasts` are the values that the last part of a product can have.
    """
    match node.operation:
        case "sum":
            right = value % node.by
            left = value - right
            yield left, right
        case "mixed" if value.denominator > 1:
            yield value // 1 * Fraction(1), JOINED, value % 1
        case "product":
            for last in lasts:
                yield value / last, last
        case "digits" if value.denominator == 1:
            yield tuple(Fraction(int(digit)) for digit in str(value))
        case "decimals" if 0 < value < 1 and 10**MOST_DECIMALS % value.denominator == 0:
            written = f"{int(value * 10**MOST_DECIMALS):0{MOST_DECIMALS}d}".rstrip("0")
            yield tuple(Fraction(int(digit)) for digit in written)


def _run_of(digits: list[Fraction]) -> str:
    return "".join(str(digit) for digit in digits)


def _sum(node: Meant, numbers: list[Fraction]) -> Fraction | None:
    left, right = numbers
    return left + right if left % node.by == 0 and 0 <= right < node.by else None


def _mixed(numbers: list[Fraction], *, joined: bool) -> Fraction | None:
    """Without its "and", thirty five eighths may be 35/8 or 30 5/8, so it is refused."""
    whole, part = numbers
    return whole + part if joined or whole % 10 else None


def _unit_and_part(numbers: list[Fraction], unit: str) -> Quantity | None:
    number, part = numbers
    if number.denominator > 1 or (unit in _PARTED and number != 1):
        return None
    return Quantity(number + part, unit)


def _compound(node: Meant, numbers: list[Fraction], unit: str) -> Quantity | None:
    large, small = numbers
    whole = Quantity(large, unit).to(node.into).magnitude
    if (
        large.denominator > 1
        or not 0 <= small < Quantity(Fraction(1), unit).to(node.into).magnitude
    ):
        return None
    return Quantity(whole + small, node.into)
