"""What follows from a condition by its form alone: whether it brings another one with it, or shuts it out.

Both answers are safe: what is not seen by the form counts as not so.
"""

from guide.procedure.conditions import (
    All,
    AnyOf,
    Between,
    Compare,
    Condition,
    Is,
    IsKnown,
    Not,
    compare,
)


def implies(one: Condition, other: Condition) -> bool:
    """Whether the second condition holds wherever the first one does."""
    if one == other:
        return True
    if isinstance(other, All):
        return all(implies(one, part) for part in other.parts)
    if isinstance(one, AnyOf):
        return all(implies(part, other) for part in one.parts)
    if isinstance(other, Not):
        return excludes(one, other.part)
    if isinstance(other, AnyOf) and any(implies(one, part) for part in other.parts):
        return True
    if isinstance(one, All):
        return any(implies(part, other) for part in one.parts)
    if isinstance(one, Is) and isinstance(other, Is):
        return one.fact == other.fact and set(one.labels) <= set(other.labels)
    if isinstance(other, IsKnown):
        return isinstance(one, Is | Compare | Between) and one.fact == other.fact
    return isinstance(one, Compare) and isinstance(other, Compare) and _within(one, other)


def excludes(one: Condition, other: Condition) -> bool:
    """Whether the two conditions never hold together."""
    if isinstance(one, Not) and implies(other, one.part):
        return True
    if isinstance(other, Not) and implies(one, other.part):
        return True
    for condition, against in ((one, other), (other, one)):
        if isinstance(condition, AnyOf):
            return all(excludes(part, against) for part in condition.parts)
    for condition, against in ((one, other), (other, one)):
        if isinstance(condition, All):
            return any(excludes(part, against) for part in condition.parts)
    if isinstance(one, Is) and isinstance(other, Is):
        return one.fact == other.fact and not set(one.labels) & set(other.labels)
    return isinstance(one, Compare) and isinstance(other, Compare) and _apart(one, other)


def _within(one: Compare, other: Compare) -> bool:
    """Whether every number that fits the first comparison fits the second."""
    if one.fact != other.fact or type(one.value) is not type(other.value):
        return False
    if one.operator == "=":
        return compare(one.value, other.operator, other.value)
    if one.operator[0] != other.operator[0]:
        return False
    strict = other.operator in (">", "<") and one.operator not in (">", "<")
    return compare(one.value, other.operator[0] if strict else f"{other.operator[0]}=", other.value)


def _apart(one: Compare, other: Compare) -> bool:
    """Whether no number fits both comparisons."""
    if one.fact != other.fact or type(one.value) is not type(other.value):
        return False
    if one.operator == "=":
        return not compare(one.value, other.operator, other.value)
    if other.operator == "=":
        return not compare(other.value, one.operator, one.value)
    if one.operator[0] == other.operator[0]:
        return False
    high, low = (one, other) if one.operator[0] == "<" else (other, one)
    strict = "=" not in high.operator or "=" not in low.operator
    return compare(high.value, "<=" if strict else "<", low.value)
