"""What follows from the form of two conditions: one brings the other with it, or shuts it out."""

import pytest

from guide.checker.implication import excludes, implies
from guide.measures import parse
from guide.procedure.conditions import All, AnyOf, Compare, Condition, Is, IsKnown, Not

STEEL, WOOD = Is("leaf", ("steel",)), Is("leaf", ("wood",))
METAL = Is("leaf", ("steel", "aluminium"))
FIRE = Is("fire", ("yes",))


def wide(operator: str, inches: str) -> Condition:
    return Compare("width", operator, parse(f"{inches} in", "length"))


@pytest.mark.parametrize(
    ("one", "other", "follows"),
    [
        (STEEL, METAL, True),
        (METAL, STEEL, False),
        (STEEL, Is("frame", ("steel",)), False),
        (All((FIRE, STEEL)), METAL, True),
        (STEEL, All((FIRE, METAL)), False),
        (AnyOf((STEEL, METAL)), METAL, True),
        (AnyOf((STEEL, WOOD)), METAL, False),
        (STEEL, AnyOf((WOOD, METAL)), True),
        (STEEL, Not(WOOD), True),
        (METAL, Not(STEEL), False),
        (STEEL, IsKnown("leaf"), True),
        (wide(">", "48"), wide(">=", "48"), True),
        (wide(">=", "48"), wide(">", "48"), False),
        (wide(">=", "49"), wide(">", "48"), True),
        (wide("=", "36"), wide("<", "48"), True),
        (wide("<", "36"), wide(">", "30"), False),
    ],
)
def test_a_condition_brings_another_with_it(
    one: Condition, other: Condition, follows: bool
) -> None:
    assert implies(one, other) is follows


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        (STEEL, WOOD, True),
        (STEEL, METAL, False),
        (STEEL, FIRE, False),
        (All((FIRE, STEEL)), WOOD, True),
        (AnyOf((STEEL, METAL)), WOOD, True),
        (AnyOf((STEEL, WOOD)), WOOD, False),
        (STEEL, Not(METAL), True),
        (Not(STEEL), METAL, False),
        (wide("<", "36"), wide(">=", "36"), True),
        (wide("<=", "36"), wide(">=", "36"), False),
        (wide("=", "36"), wide(">", "36"), True),
        (wide("<", "48"), wide("=", "36"), False),
    ],
)
def test_two_conditions_never_hold_together(one: Condition, other: Condition, apart: bool) -> None:
    assert excludes(one, other) is apart
    assert excludes(other, one) is apart
