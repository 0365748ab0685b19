"""Generate the words of a number or a measure, from the same grammar that parses them."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from guide.errors import FOUND, HingesideError
from guide.measures import Quantity, write
from guide.words.language import Language, parted
from guide.words.nodes import Concatenation, Either, Lexicon, Maybe, Meant, Node, Ref, Value, Word

Spoken = Quantity | Fraction | int


class Unsayable(HingesideError, ValueError):
    """A value that has no exact words; `str` is one sentence."""

    status = FOUND


def say(value: Spoken, language: Language, *, feet: bool = False) -> str:
    """The words of a number, or of a measure with its unit: “thirty five and seven eighths inches”.

    With `feet`, a length in inches of a foot or more is said in feet and inches. Raises Unsayable for what is below
    zero, too great, or neither a halving of the inch nor a decimal of at most six places.
    """
    if not isinstance(value, Quantity):
        return _number(Fraction(value), "plain-number", language, str(value))
    if feet and value.unit == "in" and value.base >= 12:
        return _in_feet(value, language)
    words = language.units[value.unit]
    number = _number(value.magnitude, words.number, language, write(value))
    of_a_rule = 0 < value.magnitude < 1 and 64 % value.magnitude.denominator == 0
    one = value.magnitude == 1 or (of_a_rule and words.number == "inch-number")
    return f"{number} {words.one if one else words.many}"


def read_back(value: Spoken, language: Language) -> str:
    """The words of a value for a person to compare with what was meant.

    A whole number that is easily misheard for another, such as fifty for fifteen, is followed by its digits:
    “fifty, five zero, and seven eighths inches”. The unit is always said.
    """
    said = say(value, language)
    magnitude = value.magnitude if isinstance(value, Quantity) else Fraction(value)
    count = magnitude // 1
    if not count:
        return said
    number = say(count, language)
    taken_for_another = {word for pair in language.swapped for word in pair}
    if not taken_for_another & {number.split()[-1]}:
        return said
    rest = said.removeprefix(number).strip()
    digits = spelled(count, language)
    unit_alone = isinstance(value, Quantity) and magnitude == count
    return f"{number}, {digits}{' ' if unit_alone else ', '}{rest}".rstrip(", ")


def spelled(value: Spoken, language: Language) -> str:
    """A value digit by digit, such as “three five point eight seven five inches”.

    Raises Unsayable if it is not a decimal of at most six places, or has more than four digits before the point.
    """
    if not isinstance(value, Quantity):
        return _number(Fraction(value), "digit-by-digit", language, str(value))
    words = language.units[value.unit]
    number = _number(value.magnitude, "digit-by-digit", language, write(value))
    return f"{number} {words.one if value.magnitude == 1 else words.many}"


def _in_feet(value: Quantity, language: Language) -> str:
    whole, inches = divmod(value.base, 12)
    said = say(Quantity(Fraction(whole), "ft"), language)
    if not inches:
        return said
    words = language.units["in"]
    number = _number(inches, "inches", language, write(value))
    return f"{said} {number} {words.one if inches == 1 else words.many}"


def _number(value: Fraction, rule: str, language: Language, text: str) -> str:
    said = _of_rule(rule, value, language) if value >= 0 else None
    if said is None:
        raise Unsayable(
            f"{text} cannot be said exactly; round it to a step of the rule or the scale."
        )
    return " ".join(said)


@lru_cache(maxsize=1 << 14)
def _of_rule(rule: str, value: Value, language: Language) -> tuple[str, ...] | None:
    """The likeliest words of one value by a rule; None if the rule has none."""
    said = next(_said(language.rules[rule], (value,), language), None)
    return None if said is None else tuple(said[0])


_Said = tuple[list[str], tuple[Value, ...]]
"""Words, and the values that are still to be said."""


def _said(node: Node, values: tuple[Value, ...], language: Language) -> Iterator[_Said]:
    """Each way to say all of the values by a node, the likeliest first."""
    for words, left in _begun(node, values, language):
        if not left:
            yield words, left


def _begun(node: Node, values: tuple[Value, ...], language: Language) -> Iterator[_Said]:
    """Each way a node says the first of the values; optional nodes are left out if possible."""
    match node:
        case Word(text):
            yield [text], values
        case Lexicon():
            entry = node.by_value.get(values[0]) if values else None
            if entry is not None:
                yield list(entry.words), values[1:]
        case Ref(rule):
            said = _of_rule(rule, values[0], language) if values else None
            if said is not None:
                yield list(said), values[1:]
        case Maybe(inner):
            yield [], values
            yield from _begun(inner, values, language)
        case Concatenation(items):
            yield from _in_order(items, values, language)
        case Either(items):
            for item in items:
                yield from _begun(item, values, language)
        case Meant(of=inner):
            if not values or not isinstance(values[0], Fraction):
                return
            for parts in parted(node, values[0], _lasts(inner, language)):
                for words, _ in _said(inner, parts, language):
                    yield words, values[1:]


def _in_order(
    items: tuple[Node, ...], values: tuple[Value, ...], language: Language
) -> Iterator[_Said]:
    if not items:
        yield [], values
        return
    for words, left in _begun(items[0], values, language):
        for more, rest in _in_order(items[1:], left, language):
            yield [*words, *more], rest


@lru_cache(maxsize=1 << 10)
def _lasts(node: Node, language: Language) -> tuple[Fraction, ...]:
    """The values that the last part of a sequence can have, if it is a list of words."""
    last = node.items[-1] if isinstance(node, Concatenation) else node
    listed = language.rules[last.rule] if isinstance(last, Ref) else last
    if not isinstance(listed, Lexicon):
        return ()
    found = (entry.value for entry in listed.entries)
    return tuple(dict.fromkeys(value for value in found if isinstance(value, Fraction)))
