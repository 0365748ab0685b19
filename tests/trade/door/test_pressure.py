"""Air pressure on a leaf: IBC 909.6.2, equation 9-1, both ways round, and the load at the latch."""

from collections.abc import Mapping
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, parse
from guide.trade.answer import Answer, NoAnswer, OutOfDomain
from guide.trade.door.pressure import PressedLeaf
from guide.trade.door.pressure_force import opening_force
from guide.trade.door.pressure_limit import pressure_allowed
from guide.trade.registry import find, read_inputs, run


def worked(name: str, **texts: str) -> Answer:
    return run(name, read_inputs(find(name), texts))


def lengths(low: int, high: int) -> st.SearchStrategy[Quantity]:
    inches = st.integers(low * 16, high * 16).map(lambda n: Quantity(Fraction(n, 16), "in"))
    millimetres = st.integers(low * 25, high * 25).map(lambda n: Quantity(Fraction(n), "mm"))
    return inches | millimetres


leaves = st.builds(PressedLeaf, lengths(24, 48), lengths(80, 120), lengths(1, 6))
forces = st.integers(0, 60).map(lambda n: Quantity(Fraction(n, 2), "lbf")) | st.integers(
    0, 120
).map(lambda n: Quantity(Fraction(n), "N"))
pressures = st.integers(0, 100).map(lambda n: Quantity(Fraction(n, 100), "inH2O")) | st.integers(
    0, 200
).map(lambda n: Quantity(Fraction(n), "Pa"))


@given(forces, leaves, pressures)
def test_the_pressure_allowed_is_the_one_that_took_the_force(
    closer: Quantity, leaf: PressedLeaf, pressure: Quantity
) -> None:
    total = opening_force(closer, leaf, pressure)
    assert total.unit == closer.unit
    back = pressure_allowed(total, closer, leaf)
    assert back.unit == ("inH2O" if closer.unit == "lbf" else "Pa")
    assert back == pressure


@given(forces, leaves, pressures, pressures)
def test_more_pressure_takes_more_force(
    closer: Quantity, leaf: PressedLeaf, one: Quantity, other: Quantity
) -> None:
    less, more = sorted((one, other))
    assert opening_force(closer, leaf, less) <= opening_force(closer, leaf, more)


@given(leaves, pressures)
def test_the_two_systems_differ_by_the_rounding_of_k_alone(
    leaf: PressedLeaf, pressure: Quantity
) -> None:
    # K = 5.2 stands for 5.202: the inch answer is 0.05 percent low
    inch = opening_force(parse("0 lbf"), leaf, pressure)
    metric = opening_force(parse("0 N"), leaf, pressure)
    assert float(inch.base) == pytest.approx(float(metric.base), rel=6e-4)


def test_the_closer_alone_may_take_all_there_is() -> None:
    texts = {"width": "36 in", "height": "7 ft", "handle": "3 in", "closer_force": "15 lbf"}
    assert worked("pressure-limit", total_force="15 lbf", **texts).value == parse("0 inH2O")
    with pytest.raises(NoAnswer, match="set the closer weaker"):
        worked("pressure-limit", total_force="14 lbf", **texts)


def test_a_handle_measured_from_the_hinge_edge_is_caught() -> None:
    with pytest.raises(OutOfDomain, match=r"0 to 18 in .* not the hinge"):
        worked(
            "pressure-force",
            closer_force="6 lbf",
            width="36 in",
            height="7 ft",
            handle="33 in",
            pressure="0.1 in wg",
        )


def test_a_pressure_no_door_sees_is_refused() -> None:
    with pytest.raises(OutOfDomain, match="0 Pa to 4 inH2O"):
        worked(
            "pressure-force",
            closer_force="6 lbf",
            width="36 in",
            height="7 ft",
            handle="3 in",
            pressure="10 inH2O",
        )


@pytest.mark.parametrize(
    ("closer", "caution"),
    # 5 lbf: 2010 ADA Standards, 404.2.9. 30 lbf: IBC 1010.1.3, editions of 2009 to 2021.
    [("5 lbf", None), ("5.1 lbf", "404.2.9"), ("30 lbf", "404.2.9"), ("30.1 lbf", "foreman")],
)
def test_a_force_over_a_limit_is_said(closer: str, caution: str | None) -> None:
    answer = worked(
        "pressure-force",
        closer_force=closer,
        width="36 in",
        height="7 ft",
        handle="3 in",
        pressure="0 Pa",
    )
    if caution is None:
        assert len(answer.cautions) == 1
    else:
        assert caution in answer.cautions[0]


def test_the_american_limit_is_no_caution_elsewhere() -> None:
    door = {"width": "36 in", "height": "7 ft", "handle": "3 in", "pressure": "0 Pa"}
    answer = worked("pressure-force", closer_force="29 lbf", rules="uk", **door)
    assert len(answer.cautions) == 1


def test_the_load_at_the_latch_is_the_sum_of_what_resists() -> None:
    """8 Pa that push 1 m by 2 m open are 8 N m; 12 N at 1 m is 12 N m; a seal of 1 N m on top."""
    answer = worked(
        "latch-load",
        width="1 m",
        height="2 m",
        pressure="-8 Pa",
        latch_force="12 N",
        seal="1 N m",
        closing="26 N m",
    )
    assert answer.value == parse("21 N m")
    assert answer.working[-1] == "The closer gives 26 N m: 5 N m spare."


def test_a_closer_too_weak_for_the_latch_is_said_first() -> None:
    # EN 1154 size 3 gives 18 N m at least near closed (public French choice table)
    answer = worked(
        "latch-load",
        width="914 mm",
        height="2134 mm",
        pressure="-8 Pa",
        latch_force="12 N",
        seal="1 N m",
        closing="18 N m",
    )
    assert answer.value == parse("19.1 N m")
    assert answer.cautions[0].startswith("The door will not latch by the closer alone")


def test_a_leaf_in_inches_has_its_load_in_pound_feet() -> None:
    load = worked("latch-load", width="36 in", height="84 in", latch_force="2 lbf").value
    assert load == parse("6 lbf ft")


def test_pressure_has_one_sign_everywhere() -> None:
    """Air that holds the leaf shut makes it heavier to open and easier to latch, and air that pushes it open the
    other way round, in every computation that takes a pressure."""
    leaf = {"width": "36 in", "height": "84 in"}
    swing = {**leaf, "mass": "110 lb", "mount": "regular", "size": "3", "sweep": "1", "latch": "1"}

    def force(pressure: str) -> object:
        value = worked("swing", **swing, pressure=pressure).value
        assert isinstance(value, Mapping)
        return value["open_force"]

    still, shut, opens = (force(one) for one in ("0 Pa", "8 Pa", "-8 Pa"))
    assert isinstance(still, Quantity)
    assert isinstance(shut, Quantity)
    assert isinstance(opens, Quantity)
    assert opens < still < shut
    seal = {**leaf, "seal": "5 lbf ft"}
    loads = [worked("latch-load", **seal, pressure=one).value for one in ("8 Pa", "0 Pa", "-8 Pa")]
    assert loads == sorted(loads, key=lambda one: one.base if isinstance(one, Quantity) else 0)
    handle = {**leaf, "closer_force": "5 lbf", "handle": "3 in"}
    assert worked("pressure-force", **handle, pressure="8 Pa").value != parse("5 lbf")


def test_air_that_holds_the_leaf_shut_never_makes_a_load_below_none() -> None:
    answer = worked("latch-load", width="36 in", height="84 in", pressure="30 Pa")
    assert answer.value == parse("0 lbf ft")
