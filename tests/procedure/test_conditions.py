"""Conditions: what they hold for, exactly, and that they come back from JSON as they were."""

import json
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.measures import Quantity, parse, units_of
from guide.procedure.conditions import (
    Against,
    All,
    AnyOf,
    Between,
    Compare,
    Condition,
    Is,
    IsKnown,
    Not,
    UnknownFact,
    facts_of,
    from_json,
    holds,
    read_condition,
    read_limit,
    said,
    to_json,
)
from guide.procedure.facts import Fact, Option, Value

FACTS = {
    "hand": Fact("hand", "choice", options={k: Option(k, k, k) for k in ("lh", "rh")}, unsure=True),
    "fire": Fact("fire", "yesno", options={k: Option(k, k, k) for k in ("yes", "no")}),
    "width": Fact("width", "length", unsure=True),
    "frame": Fact("frame", "length"),
    "hinges": Fact("hinges", "count"),
    "sweep": Fact("sweep", "time"),
    "size": Fact("size", "worked", computation="spring-size", gives="count"),
    "hanging": Fact(
        "hanging", "worked", computation="hand", gives="choice", gives_labels=("LH", "RH")
    ),
}


def inches(text: str) -> Quantity:
    return parse(text, "length")


@pytest.mark.parametrize(
    ("written", "env", "expected"),
    [
        ({"hand": "lh"}, {"hand": "lh"}, True),
        ({"hand": "lh"}, {"hand": "rh"}, False),
        ({"hand": "lh"}, {"hand": "unsure"}, False),
        ({"hand": ["rh", "unsure"]}, {"hand": "unsure"}, True),
        ({"hand": ["rh", "unsure"]}, {"hand": "lh"}, False),
        ({"fire": "yes"}, {"fire": "yes"}, True),
        # A leaf exactly on a limit: the comparison says which side it is on.
        ({"width": "> 36 in"}, {"width": inches("36 in")}, False),
        ({"width": ">= 36 in"}, {"width": inches("36 in")}, True),
        ({"width": "< 36 in"}, {"width": inches("36 in")}, False),
        ({"width": "<= 36 in"}, {"width": inches("36 in")}, True),
        ({"width": "= 36 in"}, {"width": inches("36 in")}, True),
        ({"width": "> 36 in"}, {"width": inches("36 1/64 in")}, True),
        # One inch is 25.4 mm exactly (NIST SP 811, appendix B), so 36 in is 914.4 mm and no less.
        ({"width": "= 36 in"}, {"width": inches("914.4 mm")}, True),
        ({"width": "> 36 in"}, {"width": inches("914.4 mm")}, False),
        ({"width": ">= 914.4 mm"}, {"width": inches("3 ft")}, True),
        ({"width": "> 914.4 mm"}, {"width": inches("3 ft")}, False),
        ({"width": "> 914 mm"}, {"width": inches("36 in")}, True),
        ({"width": "< 915 mm"}, {"width": inches("36 in")}, True),
        ({"width": "30 in to 36 in"}, {"width": inches("30 in")}, True),
        ({"width": "30 in to 36 in"}, {"width": inches("36 in")}, True),
        ({"width": "30 in to 36 in"}, {"width": inches("29 63/64 in")}, False),
        ({"width": "30 to 36 in"}, {"width": inches("33 in")}, True),
        ({"width": "762 mm to 3 ft"}, {"width": inches("30 in")}, True),
        ({"hinges": "3"}, {"hinges": 3}, None),
        ({"hinges": "= 3"}, {"hinges": 3}, True),
        ({"hinges": "> 3"}, {"hinges": 3}, False),
        ({"hinges": "2 to 3"}, {"hinges": 3}, True),
        ({"hinges": "2 to 3"}, {"hinges": 4}, False),
        # What is not known is neither above nor below a measure, and never equal to one.
        ({"width": "> 36 in"}, {"width": "unsure"}, False),
        ({"width": "<= 36 in"}, {"width": "unsure"}, False),
        ({"width": "0 in to 99 ft"}, {"width": "unsure"}, False),
        ({"width": "unsure"}, {"width": "unsure"}, True),
        ({"size": ">= 1"}, {"size": "none"}, False),
        ({"size": "< 9"}, {"size": "none"}, False),
        ({"size": "none"}, {"size": "none"}, True),
        ({"size": "none"}, {"size": 4}, False),
        ({"hanging": ["LH", "none"]}, {"hanging": "none"}, True),
        ({"hand": "lh", "fire": "no"}, {"hand": "lh", "fire": "no"}, True),
        ({"hand": "lh", "fire": "no"}, {"hand": "lh", "fire": "yes"}, False),
        ({"any": [{"hand": "lh"}, {"fire": "yes"}]}, {"hand": "rh", "fire": "yes"}, True),
        ({"any": [{"hand": "lh"}, {"fire": "yes"}]}, {"hand": "rh", "fire": "no"}, False),
        ({"all": [{"hand": "lh"}, {"fire": "yes"}]}, {"hand": "lh", "fire": "no"}, False),
        ({"not": {"hand": "lh"}}, {"hand": "unsure"}, True),
        ({"not": {"width": "> 36 in"}}, {"width": "unsure"}, True),
        ({"known": "hand"}, {"hand": "unsure"}, True),
        ({"known": "hand"}, {}, False),
        ({"not": {"known": "hand"}}, {}, True),
    ],
)
def test_a_condition_holds(
    written: dict[str, object], env: dict[str, Value], expected: bool | None
) -> None:
    if expected is None:
        with pytest.raises(ValueError, match="does not compare"):
            read_condition(written, FACTS)
        return
    condition = read_condition(written, FACTS)
    assert holds(condition, env) is expected
    again = from_json(json.loads(json.dumps(to_json(condition))))
    assert again == condition
    assert holds(again, env) is expected


def test_a_fact_that_is_not_known_is_named() -> None:
    with pytest.raises(UnknownFact, match="width"):
        holds(read_condition({"width": "> 36 in"}, FACTS), {})
    with pytest.raises(UnknownFact, match="frame"):
        holds(Against("width", "<=", "frame"), {"width": inches("36 in")})


@pytest.mark.parametrize(
    ("limit", "env", "expected"),
    [
        ("<= frame", {"width": inches("36 in"), "frame": inches("914.4 mm")}, True),
        ("< frame", {"width": inches("36 in"), "frame": inches("914.4 mm")}, False),
        ("<= frame", {"width": "unsure", "frame": inches("36 in")}, False),
        ("<= 3 ft", {"width": inches("36 in")}, True),
        ("30 in to 3 ft", {"width": inches("36 1/16 in")}, False),
    ],
)
def test_a_limit_may_be_another_fact(limit: str, env: dict[str, Value], expected: bool) -> None:
    assert holds(read_limit(FACTS["width"], limit, FACTS), env) is expected


def test_a_limit_of_a_yes_or_no_fact_is_an_answer() -> None:
    assert read_limit(FACTS["fire"], "no", FACTS) == Is("fire", ("no",))
    assert read_limit(FACTS["hand"], ["lh", "rh"], FACTS) == Is("hand", ("lh", "rh"))


def test_every_fact_of_a_condition_is_found_known_ones_too() -> None:
    written = {"any": [{"hand": "lh"}, {"not": {"width": "> 3 ft", "known": "sweep"}}]}
    assert list(facts_of(read_condition(written, FACTS))) == ["hand", "width", "sweep"]
    assert list(facts_of(Against("width", "<", "frame"))) == ["width", "frame"]


def test_a_condition_is_said_in_words() -> None:
    written = {"all": [{"hand": ["lh", "rh"]}, {"any": [{"width": "> 3 ft"}, {"known": "fire"}]}]}
    assert said(read_condition(written, FACTS), FACTS) == (
        "hand is lh or rh and (width > 3 ft or fire is known)"
    )


names = st.sampled_from(sorted(FACTS))
operators = st.sampled_from([">", ">=", "<", "<=", "="])
units = [
    unit
    for kind in ("length", "time", "angle", "force", "mass", "pressure")
    for unit in units_of(kind)
]
magnitudes = st.builds(
    Fraction, st.integers(0, 10**6), st.sampled_from([1, 2, 3, 7, 10, 16, 64, 127, 1000])
)
constants = st.builds(Quantity, magnitudes, st.sampled_from(units)) | st.integers(0, 10**9)
tests = st.one_of(
    st.builds(Is, names, st.lists(st.text(min_size=1), min_size=1).map(tuple)),
    st.builds(Compare, names, operators, constants),
    st.builds(Between, names, constants, constants),
    st.builds(Against, names, operators, names),
    st.builds(IsKnown, names),
)
trees = st.recursive(
    tests,
    lambda inner: (
        st.builds(Not, inner)
        | st.builds(All, st.lists(inner, min_size=1).map(tuple))
        | st.builds(AnyOf, st.lists(inner, min_size=1).map(tuple))
    ),
    max_leaves=12,
)


@settings(max_examples=30)
@given(trees)
def test_any_condition_comes_back_from_json(condition: Condition) -> None:
    assert from_json(json.loads(json.dumps(to_json(condition)))) == condition


@given(magnitudes, st.sampled_from(units_of("length")), st.sampled_from(units_of("length")))
def test_a_measure_never_stands_on_both_sides_of_itself(
    magnitude: Fraction, one: str, other: str
) -> None:
    here = Quantity(magnitude, one)
    same = here.to(other)
    env: dict[str, Value] = {"width": same}
    assert holds(Compare("width", "=", here), env)
    assert holds(Between("width", here, here), env)
    assert not holds(Compare("width", ">", here), env)
    assert not holds(Compare("width", "<", here), env)
