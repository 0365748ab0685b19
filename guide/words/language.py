"""A language, built from its file: a context-free grammar of its numbers and measures, with semantic actions.

In this order: the actions (`meant` and its inverse `parted`), the notation of the file's sequences, and the
language itself with the words of its units and its usual mishearings.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from guide.measures import KINDS, Quantity, units_of
from guide.words.language_file import written
from guide.words.nodes import (
    Concatenation,
    Either,
    Lexicon,
    LexiconEntry,
    Maybe,
    Meant,
    Node,
    Ref,
    Value,
    Word,
)

# Semantic actions. Each operation has both directions side by side, so that what is understood and what is said
# cannot disagree: `meant` makes one value of several, and `parted` gives the values that would make it.

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
    """The one value that these mean together; None if they mean nothing.

    `home` is the unit of a bare number; None if the unit must be said.
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
    raise ValueError(f"“{node.operation}” is not an operation; there are {', '.join(OPERATIONS)}.")


def parted(
    node: Meant, value: Fraction, lasts: tuple[Fraction, ...]
) -> Iterator[tuple[Value, ...]]:
    """The values that mean `value` together, the likeliest first; empty if none are known.

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


# The notation of sequences in a language file: `<whole> and <fraction>`, `[optional]`, `(this | that)`.
# `<ones:2-7>` is the part of a list of words with values from 2 to 7. Read by recursive descent:
#
#     either   = sequence { "|" sequence }
#     sequence = item { item }
#     item     = word | "<" rule ">" | "[" either "]" | "(" either ")"

_TOKEN = re.compile(r"<[^<>\s]+>|[\[\]()|]|[^\s\[\]()|<>]+|\S")
_CLOSING = {"[": "]", "(": ")"}


def read_notation(text: str) -> Node:
    """The syntax tree of a sequence; ValueError, with the text, if it is not well formed."""
    tokens = _TOKEN.findall(text)
    node, rest = _either(tokens, text)
    if rest:
        raise ValueError(f"“{text}” has a “{rest[0]}” too many.")
    return node


def _either(tokens: list[str], text: str) -> tuple[Node, list[str]]:
    found = []
    while True:
        node, tokens = _sequence(tokens, text)
        found.append(node)
        if not tokens or tokens[0] != "|":
            return (found[0] if len(found) == 1 else Either(tuple(found))), tokens
        tokens = tokens[1:]


def _sequence(tokens: list[str], text: str) -> tuple[Node, list[str]]:
    items: list[Node] = []
    while tokens and tokens[0] not in "])|":
        token, tokens = tokens[0], tokens[1:]
        if token in _CLOSING:
            inner, tokens = _either(tokens, text)
            if not tokens or tokens[0] != _CLOSING[token]:
                raise ValueError(f"“{text}” has a “{token}” that is not closed.")
            tokens = tokens[1:]
            items.append(Maybe(inner) if token == "[" else inner)
        elif token.startswith("<") and len(token) > 2:
            items.append(Ref(token[1:-1]))
        elif token in "<>":
            raise ValueError(f"“{text}” has a “{token}” that names no rule.")
        else:
            items.append(Word(token))
    if not items:
        raise ValueError(f"“{text}” has an empty place; write [ ] around what may be left out.")
    return (items[0] if len(items) == 1 else Concatenation(tuple(items))), tokens


@dataclass(frozen=True, slots=True)
class UnitWords:
    """How a unit is said."""

    one: str
    many: str
    also: tuple[str, ...]
    """Understood, not spoken."""
    part: tuple[str, ...]
    """After a fraction: “of an inch”."""
    number: str
    """The rule that says the numbers before it."""


@dataclass(frozen=True, slots=True, eq=False)
class Language:
    """Everything that is said in one language."""

    name: str
    rules: Mapping[str, Node]
    """By name. The rule for measures of a kind has the name of the kind."""
    begins: Mapping[str, frozenset[str]]
    """The FIRST set of each rule: the words it can begin with."""
    units: Mapping[str, UnitWords]
    picking: Node
    """With a reference `picked` to the numbers there are."""
    swapped: tuple[tuple[str, str], ...]
    """Words that are misheard for each other, both ways."""
    tail_after: frozenset[str]
    """Words after which `tail` is heard but was not said, or was said but is not heard."""
    tail: str
    slipped_in: tuple[tuple[str, str], ...]
    """A word that is heard before another but was not said."""
    blurred: tuple[frozenset[str], ...]
    """Groups of words that noise turns into each other, apart from those in `swapped`."""
    settled: tuple[tuple[str, str, float], ...]
    """Words that a recogniser finds with its grammar, the words that were said if those fit the sound alone better,
    and how much worse those may fit [1/100 of a natural logarithm]. Measured on synthetic voices that said the
    one and the other, halfway between the two."""
    pronunciations: Mapping[str, str]


@lru_cache(maxsize=8)
def language(name: str = "english") -> Language:
    """The language of this name; ValueError, with the place, if its file is not well formed."""
    file = written(name)
    units = {symbol: _unit(words) for symbol, words in file["units"].items()}
    rules = {rule: _rule(rule, body) for rule, body in file["rules"].items()}
    for kind in KINDS:
        rules |= _measure(kind, file["measures"], units)
    _add_ranges(rules)
    slips = file["slips"]
    after = rules[slips["tails"]["after"]]
    assert isinstance(after, Lexicon)
    return Language(
        name,
        rules,
        {rule: _begins(node, rules) for rule, node in rules.items()},
        units,
        read_notation(file["picking"]),
        tuple((one, other) for one, other in slips["swapped"]),
        frozenset(" ".join(entry.words) for entry in after.entries),
        slips["tails"]["word"],
        tuple((word, before) for word, before in slips["slipped in"]),
        tuple(frozenset(group) for group in slips["blurred"]),
        tuple((heard, said, lead) for heard, said, lead in slips["settled"]),
        file["pronunciations"],
    )


def lexicon(values: Mapping[str, str | int]) -> Lexicon:
    """Words with their values; a text such as "1/8" is a number, any other a name."""
    return Lexicon(
        tuple(LexiconEntry(tuple(said.split()), _value(value)) for said, value in values.items())
    )


def _value(value: str | int) -> Fraction | str:
    if isinstance(value, int) or value[:1].isdigit():
        return Fraction(value)
    return value


def _unit(words: Mapping[str, Any]) -> UnitWords:
    return UnitWords(
        words["one"],
        words["many"],
        tuple(words.get("also", ())),
        tuple(words.get("part", ())),
        words["number"],
    )


def _rule(name: str, body: Any) -> Node:
    if isinstance(body, dict):
        return lexicon(body)
    found = tuple(_alternative(name, one) for one in body)
    return found[0] if len(found) == 1 else Either(found)


def _alternative(rule: str, body: Any) -> Node:
    if isinstance(body, str):
        return read_notation(body)
    operation = next((key for key in body if key in OPERATIONS), None)
    if operation is None:
        raise ValueError(f"The rule “{rule}” names none of {', '.join(OPERATIONS)} in {body}.")
    return Meant(
        operation,
        read_notation(body[operation]),
        Fraction(body.get("by", 1)),
        body.get("into", ""),
    )


def _measure(
    kind: str, measures: Mapping[str, Any], units: Mapping[str, UnitWords]
) -> dict[str, Node]:
    """The rule of a kind of measure, and those of its units."""
    places = {
        "<NUMBER>": f"<{measures['number'][kind]}>",
        "<FRACTION>": f"<{measures['fraction'][kind]}>",
        "<SHARE>": f"<{measures.get('share', measures['number'])[kind]}>",
        "<UNIT>": f"<unit-{kind}>",
        "<ONE>": f"<one-{kind}>",
        "<PART>": f"<part-{kind}>",
    }

    def filled(body: dict[str, Any]) -> dict[str, Any]:
        for key in set(body) & set(OPERATIONS):
            for place, rule in places.items():
                body = body | {key: body[key].replace(place, rule)}
        return body

    alternatives = [*measures["every"], *measures["more"].get(kind, ())]
    words: dict[str, str] = {}
    parts: dict[str, str] = {}
    for symbol in units_of(kind):
        said = units[symbol]
        words |= dict.fromkeys((said.one, said.many, *said.also), symbol)
        parts |= dict.fromkeys(said.part, symbol)
    return {
        kind: _rule(kind, [filled(body) for body in alternatives]),
        f"unit-{kind}": lexicon(words),
        f"one-{kind}": lexicon({units[symbol].one: symbol for symbol in units_of(kind)}),
        f"part-{kind}": lexicon(parts),
    }


def _add_ranges(rules: dict[str, Node]) -> None:
    """Add the rules for references such as `<ones:2-7>`; ValueError for one to no rule."""
    for rule, node in list(rules.items()):
        for name in references(node):
            if name in rules:
                continue
            base, _, ends = name.partition(":")
            whole = rules.get(base)
            low, dash, high = ends.partition("-")
            if not isinstance(whole, Lexicon) or not (dash and low.isdigit() and high.isdigit()):
                raise ValueError(
                    f"The rule “{rule}” uses <{name}>, and there is no such list of words."
                )
            rules[name] = Lexicon(
                tuple(
                    entry
                    for entry in whole.entries
                    if isinstance(entry.value, Fraction) and int(low) <= entry.value <= int(high)
                )
            )


def references(node: Node) -> tuple[str, ...]:
    """The rules a node names itself, in order."""
    match node:
        case Ref(rule):
            return (rule,)
        case Concatenation(items) | Either(items):
            return tuple(rule for item in items for rule in references(item))
        case Meant(of=inner):
            return references(inner)
    inside = getattr(node, "of", None)
    return references(inside) if inside is not None else ()


def _begins(node: Node, rules: Mapping[str, Node]) -> frozenset[str]:
    """The FIRST set of a node: the words it can begin with. ValueError if it may be empty."""
    match node:
        case Word(text):
            return frozenset((text,))
        case Lexicon():
            return frozenset(node.by_first)
        case Ref(rule):
            return _begins(rules[rule], rules)
        case Either(items):
            return frozenset[str]().union(*(_begins(item, rules) for item in items))
        case Meant(of=inner):
            return _begins(inner, rules)
        case Concatenation(items):
            skipped = frozenset[str]()
            for item in items:
                if not isinstance(item, Maybe):
                    return skipped | _begins(item, rules)
                skipped |= _begins(item.of, rules)
    raise ValueError("A rule cannot be all left out; write [ ] where it is used.")
