"""The sets of cases against plain Python sets of tuples, over every operation."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.checker.diagram import EVERYTHING, NOTHING, Diagrams, SetsTooLarge

SIZES = (3, 2, 4, 2)
"""Leaf (timber, steel, glass), fire door, hinges 1 to 4, and whether it was read back."""
ALL = frozenset(product(*map(range, SIZES)))
LEVELS = st.integers(0, len(SIZES) - 1)

Plain = frozenset[tuple[int, ...]]
PLAIN = st.frozensets(st.sampled_from(sorted(ALL)))


def drawn(sets: Diagrams, plain: Plain) -> int:
    """A plain set as a diagram, case by case."""
    found = NOTHING
    for case in plain:
        one = EVERYTHING
        for level, value in enumerate(case):
            one = sets.both(one, sets.values(level, (value,)))
        found = sets.either(found, one)
    return found


def plain_of(sets: Diagrams, a: int) -> Plain:
    """A diagram's cases, asked one by one."""
    return frozenset(case for case in ALL if sets.holds(a, dict(enumerate(case))))


def without(case: tuple[int, ...], levels: set[int]) -> tuple[int, ...]:
    """What is left of a case."""
    return tuple(value for level, value in enumerate(case) if level not in levels)


@pytest.fixture(scope="module")
def sets() -> Diagrams:
    """One table for all examples, so that sets of one meet sets of another."""
    return Diagrams(SIZES, 10**6)


@given(plain=PLAIN)
def test_a_set_holds_what_was_put_into_it(sets: Diagrams, plain: Plain) -> None:
    assert plain_of(sets, drawn(sets, plain)) == plain


@given(a=PLAIN, b=PLAIN)
def test_both_either_and_less(sets: Diagrams, a: Plain, b: Plain) -> None:
    left, right = drawn(sets, a), drawn(sets, b)
    assert plain_of(sets, sets.both(left, right)) == a & b
    assert plain_of(sets, sets.either(left, right)) == a | b
    assert plain_of(sets, sets.less(left, right)) == a - b


@given(a=PLAIN, b=PLAIN)
def test_equal_sets_are_one_number(sets: Diagrams, a: Plain, b: Plain) -> None:
    left, right = drawn(sets, a), drawn(sets, b)
    assert (left == right) == (a == b)
    assert sets.less(sets.either(left, right), right) == drawn(sets, a - b)


@given(a=PLAIN, levels=st.sets(LEVELS))
def test_forgetting(sets: Diagrams, a: Plain, levels: set[int]) -> None:
    mask = sum(1 << level for level in levels)
    left = {without(case, levels) for case in a}
    wanted = {case for case in ALL if without(case, levels) in left}
    assert plain_of(sets, sets.forget(drawn(sets, a), mask)) == wanted


@given(a=PLAIN, level=LEVELS, data=st.data())
def test_values_and_giving_a_value(
    sets: Diagrams, a: Plain, level: int, data: st.DataObject
) -> None:
    values = data.draw(st.sets(st.integers(0, SIZES[level] - 1)))
    assert plain_of(sets, sets.values(level, values)) == {c for c in ALL if c[level] in values}
    wanted = {(*c[:level], v, *c[level + 1 :]) for c in a for v in values}
    assert plain_of(sets, sets.assign(drawn(sets, a), level, values)) == wanted


@given(a=PLAIN, level=LEVELS, data=st.data())
def test_counting_on(sets: Diagrams, a: Plain, level: int, data: st.DataObject) -> None:
    numbers = st.integers(0, SIZES[level] - 1)
    moves = data.draw(st.dictionaries(numbers, numbers))
    wanted = {(*c[:level], moves[c[level]], *c[level + 1 :]) for c in a if c[level] in moves}
    assert plain_of(sets, sets.moved(drawn(sets, a), level, moves)) == wanted


@given(a=PLAIN, case=st.dictionaries(LEVELS, st.integers(0, 1)))
def test_fixing_some_variables(sets: Diagrams, a: Plain, case: dict[int, int]) -> None:
    fixed = sets.fix(drawn(sets, a), case)
    wanted = {c for c in ALL if tuple(case.get(level, value) for level, value in enumerate(c)) in a}
    assert plain_of(sets, fixed) == wanted


@given(a=PLAIN, wanted=st.fixed_dictionaries({0: st.integers(0, 2), 2: st.integers(0, 3)}))
def test_one_case_of_a_set(sets: Diagrams, a: Plain, wanted: dict[int, int]) -> None:
    if not a:
        return
    case = sets.one(drawn(sets, a), wanted)
    agreeing = {c for c in ALL if all(c[level] == value for level, value in case.items())}
    assert agreeing
    assert agreeing <= a


def test_tidying_keeps_the_sets() -> None:
    sets = Diagrams(SIZES, 1_000)
    timber, rated = sets.values(0, (0,)), sets.values(1, (1,))
    before = sets.both(timber, rated)
    sets.tidy()
    assert sets.both(timber, rated) == before


def test_past_the_bound_it_stops() -> None:
    sets = Diagrams((2,) * 40, 30)
    for level in range(28):
        sets.values(level, (1,))
    with pytest.raises(SetsTooLarge):
        sets.values(28, (1,))
    assert len(sets.levels) == 30
