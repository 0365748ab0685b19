"""A language put together from its file: the rules of its grammar, the words of its units, its slips."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from guide.measures import KINDS, units_of
from guide.words.language_file import written
from guide.words.meaning import OPERATIONS
from guide.words.nodes import Either, Entry, Lexicon, Maybe, Meant, Node, Ref, Seq, Word
from guide.words.notation import read_notation


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
    """A measure of a kind has the kind's name."""
    begins: Mapping[str, frozenset[str]]
    """The words that a saying of each rule can begin with."""
    units: Mapping[str, UnitWords]
    picking: Node
    """With a reference `picked` to the numbers there are."""
    swapped: tuple[tuple[str, str], ...]
    """Words taken for each other, both ways."""
    tail_after: frozenset[str]
    """Words after which `tail` is heard though it was not said, or the other way round."""
    tail: str
    slipped_in: tuple[tuple[str, str], ...]
    """A word that is heard before another, though it was not said."""
    blurred: tuple[frozenset[str], ...]
    """Words of which noise makes each other, apart from those in `swapped`."""
    settled: tuple[tuple[str, str, float], ...]
    """Words that a recogniser hears in its grammar, what was said instead if it fits the sound alone better, and by
    how much, in hundredths of a logarithm, it may fit worse: measured on synthetic voices saying the one and the
    other, halfway between the two."""
    pronunciations: Mapping[str, str]


@lru_cache(maxsize=8)
def language(name: str = "english") -> Language:
    """The language of this name; ValueError, with the place, where its file is not well formed."""
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
        tuple(Entry(tuple(said.split()), _value(value)) for said, value in values.items())
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
    """The rules a node names, in order, without those that these name."""
    match node:
        case Ref(rule):
            return (rule,)
        case Seq(items) | Either(items):
            return tuple(rule for item in items for rule in references(item))
        case Meant(of=inner):
            return references(inner)
    inside = getattr(node, "of", None)
    return references(inside) if inside is not None else ()


def _begins(node: Node, rules: Mapping[str, Node]) -> frozenset[str]:
    """The words a saying of a node can begin with; ValueError where it may be no word at all."""
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
        case Seq(items):
            skipped = frozenset[str]()
            for item in items:
                if not isinstance(item, Maybe):
                    return skipped | _begins(item, rules)
                skipped |= _begins(item.of, rules)
    raise ValueError("A rule cannot be all left out; write [ ] where it is used.")
