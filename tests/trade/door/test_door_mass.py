"""The mass of a leaf before anyone has weighed it. Densities: common practice."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, parse
from guide.trade.answer import Answer, OutOfDomain
from guide.trade.door.door_mass import CONSTRUCTIONS, leaf_mass
from guide.trade.registry import find, read_inputs, run


def worked(**texts: str) -> Answer:
    return run("door-mass", read_inputs(find("door-mass"), texts))


@pytest.mark.parametrize(
    ("built", "lightest_lb", "heaviest_lb"),
    # A leaf 36 by 84 in, 1 3/4 in thick: what such leaves weigh, common practice.
    [
        ("particleboard", 95, 125),
        ("mineral-core", 95, 125),
        ("hollow-core", 30, 50),
        ("softwood", 85, 110),
        ("hardwood", 120, 145),
        ("steel-18-honeycomb", 74, 95),
        ("steel-16-honeycomb", 94, 120),
        ("steel-18-mineral", 105, 130),
        ("steel-16-stiffened", 150, 185),
        ("aluminium-glass", 75, 110),
    ],
)
def test_an_ordinary_leaf(built: str, lightest_lb: int, heaviest_lb: int) -> None:
    mass = worked(width="36 in", height="84 in", thickness="1 3/4 in", construction=built).value
    assert isinstance(mass, Quantity)
    assert mass.unit == "lb"
    assert lightest_lb <= mass.magnitude <= heaviest_lb


def test_a_square_metre_of_softwood_by_hand() -> None:
    """1 m x 2 m x 50 mm is 0.1 m3, at 500 kg/m3 50 kg; hardware on top, whole kilograms."""
    texts = {"width": "1 m", "height": "2 m", "thickness": "50 mm", "construction": "softwood"}
    assert worked(**texts).value == parse("50 kg")
    assert worked(**texts, hardware="4.2 kg").value == parse("55 kg")


def test_a_mass_can_be_handed_to_the_choice_of_size() -> None:
    mass = worked(
        width="36 in", height="84 in", thickness="1 3/4 in", construction="particleboard"
    ).value
    assert isinstance(mass, Quantity)
    size = run("spring-size", {"width": parse("36 in"), "mass": mass})
    assert size.value == 3


@given(st.sampled_from(list(CONSTRUCTIONS)), st.integers(25, 50), st.integers(25, 50))
def test_a_larger_leaf_is_no_lighter(built: str, one: int, other: int) -> None:
    small, large = sorted((one, other))
    door = parse("84 in"), parse("1 3/4 in")
    assert leaf_mass(parse(f"{small} in"), *door, built) <= leaf_mass(
        parse(f"{large} in"), *door, built
    )


def test_thicker_steel_is_heavier() -> None:
    door = parse("36 in"), parse("84 in"), parse("1 3/4 in")
    masses = [leaf_mass(*door, f"steel-{gauge}-honeycomb") for gauge in (20, 18, 16, 14)]
    assert masses == sorted(masses)


def test_a_leaf_as_thick_as_a_wall_is_refused() -> None:
    with pytest.raises(OutOfDomain, match=r"thickness 17 in .* 1 in to 3 in"):
        worked(width="36 in", height="84 in", thickness="17 in", construction="hardwood")
