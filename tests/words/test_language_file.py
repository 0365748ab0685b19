"""The language file: every unit and kind has its words, and a mistake in it is reported with its place."""

import re

import pytest

from guide.measures import KINDS, units_of
from guide.words.language import read_notation, references
from guide.words.nodes import Concatenation, Either, Maybe, Ref, Word
from guide.words.spoken import language, languages

ENGLISH = language("english")


def test_english_is_there() -> None:
    assert "english" in languages()


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_and_unit_has_words(kind: str) -> None:
    assert kind in ENGLISH.rules
    for unit in units_of(kind):
        words = ENGLISH.units[unit]
        assert words.one
        assert words.many
        assert words.number in ENGLISH.rules


def test_every_rule_is_used_and_every_reference_has_its_rule() -> None:
    named = {rule for node in ENGLISH.rules.values() for rule in references(node)}
    assert named <= set(ENGLISH.rules)
    asked_for = {*KINDS, "whole", "plain-number", "digit-by-digit", "one-by-one", "inches"}
    asked_for |= {words.number for words in ENGLISH.units.values()}
    ranges = {rule.partition(":")[0] for rule in named}
    listed = {"tens"}  # the slips name it
    assert set(ENGLISH.rules) - named - ranges - asked_for - listed == set()


def test_a_sequence_in_its_notation() -> None:
    node = read_notation("<whole> [and] (half | <quarter>)")
    assert isinstance(node, Concatenation)
    number, joint, part = node.items
    assert isinstance(number, Ref)
    assert number.rule == "whole"
    assert isinstance(joint, Maybe)
    assert isinstance(part, Either)
    assert [type(item) for item in part.items] == [Word, Ref]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("<whole> [and", "“<whole> [and” has a “[” that is not closed."),
        ("<whole> and)", "“<whole> and)” has a “)” too many."),
        ("(half | )", "“(half | )” has an empty place; write [ ] around what may be left out."),
        ("<whole and", "“<whole and” has a “<” that names no rule."),
        ("", "“” has an empty place; write [ ] around what may be left out."),
    ],
)
def test_a_slip_in_the_notation_is_told(text: str, message: str) -> None:
    with pytest.raises(ValueError, match=re.escape(message)):
        read_notation(text)
