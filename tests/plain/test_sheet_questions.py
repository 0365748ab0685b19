"""Every field of a sheet has its words, in the order of a paper."""

from typing import Any

import pytest

from guide.plain.sheet_questions import WORDS, asked
from guide.trade.sheet.codec import fields_of
from guide.trade.sheet.kinds import Measure, OneOf, Span
from guide.trade.sheet.parts import SheetMount
from guide.trade.sheet.sheet import Sheet


def classes(owner: type[Any] = Sheet) -> set[type[Any]]:
    """A class of the sheet with those of its parts."""
    parts = [field.part for field in fields_of(owner) if field.part is not None]
    return {owner}.union(*(classes(part) for part in parts))


def test_every_class_and_field_has_words_and_no_other() -> None:
    assert set(WORDS) == classes()
    for owner, words in WORDS.items():
        assert set(words) == {field.key for field in fields_of(owner)}, owner


@pytest.mark.parametrize("owner", list(WORDS))
def test_an_example_is_an_answer_and_a_length_has_one_in_both_units(owner: type[Any]) -> None:
    for field, words in asked(owner):
        assert words.where.endswith((".", ":")), field.key
        assert bool(words.entry) == (field.kind is None), field.key
        if field.kind is None or isinstance(field.kind, OneOf):
            continue
        for example in filter(None, (words.inch, words.metric)):
            field.kind.check(field.key, field.kind.read(field.key, example))
        lengths = isinstance(field.kind, Span) or (
            isinstance(field.kind, Measure) and field.kind.kind == "length"
        )
        assert ("in" in words.inch.split(), "mm" in words.metric.split()) == (lengths, lengths)


def test_a_sheet_is_asked_in_the_order_of_the_paper() -> None:
    assert [field.key for field, _ in asked(Sheet)][5:12] == [
        "body",
        "shoe",
        "mounts",
        "turns_per_size",
        "factory_size",
        "spring_settings",
        "chart",
    ]
    assert [field.key for field, _ in asked(SheetMount)][-2:] == ["ranges", "arm"]
