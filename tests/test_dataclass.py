"""Every expectation here holds for `guide.dataclass` and for the standard library's own alike."""

import copy
import dataclasses
import math
import pickle
from typing import Any

import pytest

import guide.dataclass
from guide.trade.spring import spring_of

Kit = Any
"""Either module: its `dataclass`, `field` and `replace`."""


@pytest.fixture(params=[guide.dataclass, dataclasses], ids=["ours", "standard"])
def kit(request: pytest.FixtureRequest) -> Kit:
    return request.param


def screw_class(kit: Kit) -> Any:
    @kit.dataclass(frozen=True, slots=True)
    class Screw:
        """One adjusting screw."""

        name: str
        turns: float
        stop: bool | None = None

        def __post_init__(self) -> None:
            if self.turns < 0:
                raise ValueError(f"{self.name} cannot be turned {self.turns} times.")

        @property
        def degrees(self) -> float:
            return 360 * self.turns

    return Screw


def bench_class(kit: Kit) -> Any:
    @kit.dataclass(slots=True)
    class Bench:
        width: float
        tests: list[str] = kit.field(default_factory=list)
        area: float = kit.field(init=False)

        def __post_init__(self) -> None:
            self.area = 84 * self.width

    return Bench


def test_fields_are_given_in_order_or_by_name_and_the_rest_is_as_declared(kit: Kit) -> None:
    screw = screw_class(kit)
    sweep = screw("sweep", turns=1.5)
    assert (sweep.name, sweep.turns, sweep.stop, sweep.degrees) == ("sweep", 1.5, None, 540)
    assert (screw.__name__, screw.__doc__) == ("Screw", "One adjusting screw.")
    assert (screw.__slots__, screw.__match_args__) == (("name", "turns", "stop"),) * 2
    assert repr(sweep).endswith("Screw(name='sweep', turns=1.5, stop=None)")


@pytest.mark.parametrize(
    ("given", "named"),
    [(("sweep",), {}), (("sweep", 1, None, 2), {}), (("sweep", 1), {"colour": "red"}), ((), {})],
)
def test_too_few_too_many_and_unknown_fields_are_refused(
    kit: Kit, given: tuple[object, ...], named: dict[str, object]
) -> None:
    with pytest.raises(TypeError, match=r"__init__\(\)"):
        screw_class(kit)(*given, **named)


def test_a_class_checks_what_it_was_given_each_time(kit: Kit) -> None:
    screw = screw_class(kit)
    for _ in range(2):
        with pytest.raises(ValueError, match="latch cannot be turned -1 times"):
            screw("latch", -1)


def test_equal_by_what_they_hold_and_only_within_a_class(kit: Kit) -> None:
    screw, other = screw_class(kit), screw_class(kit)
    assert screw("latch", 1) == screw("latch", 1.0)
    assert screw("latch", 1) != screw("latch", 2)
    assert screw("latch", 1) != other("latch", 1)
    assert screw("latch", math.nan) == screw("latch", math.nan)  # the same object
    assert len({screw("latch", 1), screw("latch", 1.0), screw("latch", 2)}) == 2


def test_what_is_frozen_stays_as_it_was(kit: Kit) -> None:
    sweep = screw_class(kit)("sweep", 1)
    with pytest.raises(AttributeError):
        sweep.turns = 2
    with pytest.raises((AttributeError, TypeError)):  # the standard one stumbles over this
        sweep.colour = "red"
    with pytest.raises(AttributeError):
        del sweep.turns
    assert sweep.turns == 1


def test_another_is_made_with_something_replaced_and_checked(kit: Kit) -> None:
    sweep = screw_class(kit)("sweep", 1)
    assert kit.replace(sweep, turns=2, stop=True) == type(sweep)("sweep", 2, True)
    assert sweep.turns == 1
    with pytest.raises(ValueError, match="cannot be turned"):
        kit.replace(sweep, turns=-1)
    with pytest.raises(TypeError):
        kit.replace(sweep, colour="red")


def test_what_is_not_frozen_changes_and_has_lists_of_its_own(kit: Kit) -> None:
    bench = bench_class(kit)
    here, there = bench(36), bench(36)
    here.tests.append("slammed")
    assert (here.tests, there.tests, there.area) == (["slammed"], [], 3024)
    assert here != there
    assert bench(36, ["slammed"]) == here
    assert bench.__match_args__ == ("width", "tests")
    with pytest.raises(TypeError, match="unhashable"):
        hash(here)
    with pytest.raises(AttributeError):
        here.colour = "red"


def test_comparing_is_left_to_the_class_where_it_says_so(kit: Kit) -> None:
    made: Kit = kit.dataclass

    @made(frozen=True, slots=True, eq=False)
    class Length:
        inches: float

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Length) and round(self.inches) == round(other.inches)

        def __hash__(self) -> int:
            return round(self.inches)

    length: Kit = Length
    assert length(36) == length(36.25)
    assert len({length(36), length(36.25), length(37)}) == 2


def test_copied_and_pickled_what_is_frozen_comes_back_the_same() -> None:
    spring = spring_of(3)
    assert pickle.loads(pickle.dumps(spring)) == spring
    assert copy.deepcopy(spring) == spring


def test_ours_refuses_what_it_would_make_otherwise() -> None:
    made: Kit = guide.dataclass.dataclass
    with pytest.raises(TypeError, match="Leaf needs slots=True here, no base"):

        @made(slots=True)
        class Leaf(Exception):
            width: float

    with pytest.raises(TypeError, match="one way to compare"):

        @made(slots=True)
        class Length:  # noqa: PLW1641
            inches: float

            def __eq__(self, other: object) -> bool:
                return False

    with pytest.raises(TypeError, match="Bench would share a default"):

        @made(slots=True)
        class Bench:
            tests: list[str] = []  # noqa: RUF012 - the fault

    with pytest.raises(TypeError, match="order"):
        made(slots=True, order=True)
