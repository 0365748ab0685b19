"""Tapped holes: percentages, tap drills and the drills there are."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity
from guide.trade.answer import BadInput, OutOfDomain
from guide.trade.computation import Given
from guide.trade.door.sheet_steel import CLOSER_REINFORCEMENT, GAUGES
from guide.trade.fastening.drills import INCH, METRIC, drill_typed, nearest_drill
from guide.trade.fastening.threads import (
    ENOUGH_THREADS,
    THREADS,
    hole_for_percent,
    percent_of_thread,
    thread_named,
    thread_typed,
    threads_engaged,
)
from guide.trade.registry import find, read_inputs, run


def read(name: str, **texts: str) -> dict[str, Given]:
    return read_inputs(find(name), texts)


@given(st.sampled_from(THREADS), st.fractions(min_value=1, max_value=100))
def test_the_percentage_is_that_of_the_hole_drilled_for_it(name: str, percent: Fraction) -> None:
    thread = thread_named(name)
    assert percent_of_thread(thread, hole_for_percent(thread, percent)) == percent


@given(
    st.sampled_from(THREADS),
    st.fractions(min_value=1, max_value=100),
    st.fractions(min_value=1, max_value=100),
)
def test_a_larger_hole_leaves_less_thread(name: str, one: Fraction, other: Fraction) -> None:
    thread = thread_named(name)
    less, more = sorted((one, other))
    assert hole_for_percent(thread, less) >= hole_for_percent(thread, more)


@pytest.mark.parametrize("name", THREADS)
def test_every_thread_has_a_drill_near_75_percent(name: str) -> None:
    thread = thread_named(name)
    series = METRIC if thread.metric else INCH
    drill = nearest_drill(hole_for_percent(thread, Fraction(75)), series)
    assert 60 < percent_of_thread(thread, drill.size) < 90


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("1/4-20 UNC", "1/4-20"),
        ("#10-24", "10-24"),
        ("No. 8-32", "8-32"),
        ("M8", "M8x1.25"),
        ("m8 x 1.25", "M8x1.25"),
        ("M10×1.5", "M10x1.5"),
    ],
)
def test_threads_as_people_write_them(typed: str, meant: str) -> None:
    assert read("tap-drill", thread=typed) == {"thread": meant}
    assert thread_typed(typed) == meant


def test_a_thread_there_is_none_of_is_refused_with_the_nearest() -> None:
    with pytest.raises(BadInput, match=r"“1/4-21” is not one of the choices; did you mean 1/4-2"):
        read("tap-drill", thread="1/4-21")


@pytest.mark.parametrize(
    ("typed", "size"),
    # Two public drill tables after ASME B94.11M, number and letter drills.
    [
        *(("No. 1", "0.228 in"), ("No. 7", "0.201 in"), ("No. 10", "0.1935 in")),
        *(("No. 20", "0.161 in"), ("#29", "0.136 in"), ("No. 36", "0.1065 in")),
        *(("No. 43", "0.089 in"), ("No. 50", "0.07 in"), ("No. 60", "0.04 in")),
        *(("letter F", "0.257 in"), ("f", "0.257 in"), ("letter A", "0.234 in")),
        *(("letter I", "0.272 in"), ("letter Q", "0.332 in"), ("letter Z", "0.413 in")),
    ],
)
def test_a_hole_may_be_named_by_its_drill(typed: str, size: str) -> None:
    assert drill_typed(typed) == size


@pytest.mark.parametrize("typed", ["5/16 in", "6.8 mm", "0.201"])
def test_what_is_no_drills_name_is_left_as_typed(typed: str) -> None:
    assert drill_typed(typed) == typed


def test_a_number_there_is_no_drill_of_is_refused() -> None:
    with pytest.raises(BadInput, match=r"hole: drill No\. 99 does not exist"):
        read("thread-percent", thread="1/4-20", hole="No. 99")


def test_the_drills_of_each_kind_run_in_order_and_none_is_missing() -> None:
    sizes = {drill.name: drill.size for drill in INCH}
    numbers = [sizes[f"No. {number}"] for number in range(1, 61)]
    letters = [sizes[letter] for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
    assert numbers == sorted(numbers, reverse=True)
    assert letters == sorted(letters)
    assert numbers[0] < letters[0]
    assert len(set(METRIC)) == len(METRIC)


@pytest.mark.parametrize("hole", ["1/4 in", "0.18 in", "0.3 in"])
def test_a_hole_no_1_4_20_can_be_tapped_in_is_refused(hole: str) -> None:
    with pytest.raises(OutOfDomain, match=r"at least about 0\.185 in .* smaller than 0\.25 in"):
        run("thread-percent", read("thread-percent", thread="1/4-20", hole=hole))


def test_a_tight_hole_is_cautioned_and_a_wide_one_too() -> None:
    tight = run("thread-percent", read("thread-percent", thread="1/4-20", hole="3/16 in"))
    wide = run("thread-percent", read("thread-percent", thread="1/4-20", hole="7/32 in"))
    assert "larger drill" in tight.cautions[0]
    assert "smaller drill" in wide.cautions[0]


def test_14_gauge_holds_1_34_threads_of_1_4_20_exactly() -> None:
    # 0.067 in (public tables after ANSI/SDI A250.8) over a pitch of 1/20 in
    metal = Quantity(Fraction("0.067"), "in")
    assert threads_engaged(thread_named("1/4-20"), metal) == Fraction("1.34")


@pytest.mark.parametrize(
    ("name", "major"),
    # Public screw tables after ASME B1.1.
    [
        ("4-40", "0.112"),
        ("6-32", "0.138"),
        ("8-32", "0.164"),
        ("10-24", "0.190"),
        ("12-24", "0.216"),
    ],
)
def test_a_screw_number_has_the_diameter_of_the_tables(name: str, major: str) -> None:
    assert thread_named(name).major == Quantity(Fraction(major), "in")


def test_sheet_steel_wants_three_threads_and_18_gauge_gives_less_than_two() -> None:
    """Overview of ANSI/SDI A250.6."""
    assert ENOUGH_THREADS == 3
    assert threads_engaged(thread_named("1/4-20"), GAUGES[18]) < 2


def test_the_gauges_of_frames_and_of_a_closers_reinforcement() -> None:
    """Public hollow metal frame table after ANSI/SDI A250.8, and public details: 14 gauge behind surface hardware."""
    assert GAUGES[16] == Quantity(Fraction("0.053"), "in")
    assert GAUGES[14] == Quantity(Fraction("0.067"), "in")
    assert CLOSER_REINFORCEMENT == 14
