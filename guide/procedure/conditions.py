"""Conditions as data: read from a file, compared exactly, never evaluated as code."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from guide import measures
from guide.measures import MeasureError, Quantity, home_unit
from guide.measures.parsing import parse_signed
from guide.procedure.facts import MEASURED, NONE, UNSURE, Fact, Value, bare
from guide.procedure.odd_signs import TURNED, plain_signs
from guide.text import meant, short

RESERVED = ("all", "any", "not", "known")
OPERATORS = (">=", "<=", ">", "<", "=")


class UnknownFact(LookupError):
    """A condition or text asked for a fact that is not known at this point."""

    def __init__(self, fact: str) -> None:
        self.fact = fact
        super().__init__(f"“{fact}” is not known at this point")


@dataclass(frozen=True, slots=True)
class Is:
    """The fact has one of these labels."""

    fact: str
    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Compare:
    """A comparison of the fact with a constant, by one of these operators."""

    fact: str
    operator: str
    value: Quantity | int


@dataclass(frozen=True, slots=True)
class Between:
    """The fact lies between two constants, both included."""

    fact: str
    low: Quantity | int
    high: Quantity | int


@dataclass(frozen=True, slots=True)
class Against:
    """The fact stands in this order to another fact of its kind, perhaps with something added to that."""

    fact: str
    operator: str
    other: str
    offset: Quantity | int | None = None
    """What is added to the other fact; below zero where it is taken off."""


@dataclass(frozen=True, slots=True)
class IsKnown:
    """The fact has a value here, `unsure` included."""

    fact: str


@dataclass(frozen=True, slots=True)
class All:
    """Every part holds."""

    parts: tuple["Condition", ...]


@dataclass(frozen=True, slots=True)
class AnyOf:
    """At least one part holds."""

    parts: tuple["Condition", ...]


@dataclass(frozen=True, slots=True)
class Not:
    """The part does not hold."""

    part: "Condition"


Condition = Is | Compare | Between | Against | IsKnown | All | AnyOf | Not


def holds(condition: Condition, env: Mapping[str, Value]) -> bool:
    """Whether the condition holds for these facts. Raises UnknownFact for one that is not known."""
    if isinstance(condition, All):
        return all(holds(part, env) for part in condition.parts)
    if isinstance(condition, AnyOf):
        return any(holds(part, env) for part in condition.parts)
    if isinstance(condition, Not):
        return not holds(condition.part, env)
    if isinstance(condition, IsKnown):
        try:
            return condition.fact in env
        except UnknownFact:
            return False
    try:
        value = env[condition.fact]
    except KeyError as error:
        raise UnknownFact(condition.fact) from error
    if isinstance(condition, Is):
        return value in condition.labels
    if isinstance(condition, Against):
        other = env.get(condition.other)
        if other is None:
            raise UnknownFact(condition.other)
        if isinstance(value, str) or isinstance(other, str):
            return False
        return compare(value, condition.operator, moved(other, condition.offset))
    if isinstance(value, str):
        return False  # `unsure` and `none` are labels: no measure is above or below them
    if isinstance(condition, Between):
        return condition.low <= value <= condition.high  # type: ignore[operator]
    return compare(value, condition.operator, condition.value)


def moved(value: Quantity | int, offset: Quantity | int | None) -> Quantity | int:
    """The value with the offset added, in the value's own unit; exact."""
    if offset is None:
        return value
    if isinstance(value, Quantity) and isinstance(offset, Quantity):
        return Quantity(value.magnitude + offset.to(value.unit).magnitude, value.unit)
    return value + offset  # type: ignore[operator]


def compare(value: Quantity | int, operator: str, limit: Quantity | int) -> bool:
    """`value operator limit`, exactly."""
    if operator == "=":
        return value == limit
    if operator == ">":
        return value > limit  # type: ignore[operator]
    if operator == ">=":
        return value >= limit  # type: ignore[operator]
    if operator == "<":
        return value < limit  # type: ignore[operator]
    return value <= limit  # type: ignore[operator]


def facts_of(condition: Condition) -> Iterator[str]:
    """Every fact the condition reads, `known` ones too."""
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from facts_of(part)
    elif isinstance(condition, Not):
        yield from facts_of(condition.part)
    elif isinstance(condition, Against):
        yield condition.fact
        yield condition.other
    else:
        yield condition.fact


def to_json(condition: Condition) -> list[Any]:
    """The condition as the compiled graph stores it."""
    if isinstance(condition, Is):
        return ["is", condition.fact, list(condition.labels)]
    if isinstance(condition, Compare):
        return ["compare", condition.fact, condition.operator, str(condition.value)]
    if isinstance(condition, Between):
        return ["between", condition.fact, str(condition.low), str(condition.high)]
    if isinstance(condition, Against):
        parts = ["against", condition.fact, condition.operator, condition.other]
        return parts if condition.offset is None else [*parts, str(condition.offset)]
    if isinstance(condition, IsKnown):
        return ["known", condition.fact]
    if isinstance(condition, Not):
        return ["not", to_json(condition.part)]
    name = "all" if isinstance(condition, All) else "any"
    return [name, [to_json(part) for part in condition.parts]]


def from_json(data: list[Any]) -> Condition:
    """Read back what `to_json` wrote."""
    kind = data[0]
    if kind == "is":
        return Is(data[1], tuple(data[2]))
    if kind == "compare":
        return Compare(data[1], data[2], _constant(data[3]))
    if kind == "between":
        return Between(data[1], _constant(data[2]), _constant(data[3]))
    if kind == "against":
        return Against(data[1], data[2], data[3], _constant(data[4]) if len(data) > 4 else None)
    if kind == "known":
        return IsKnown(data[1])
    if kind == "not":
        return Not(from_json(data[1]))
    parts = tuple(from_json(part) for part in data[1])
    return All(parts) if kind == "all" else AnyOf(parts)


def _constant(text: str) -> Quantity | int:
    return int(text) if text.removeprefix("-").isdigit() else parse_signed(text, None)


def said(condition: Condition, facts: Mapping[str, Fact]) -> str:
    """The condition in words, for charts and findings."""
    if isinstance(condition, Is):
        return f"{condition.fact} is {' or '.join(condition.labels)}"
    if isinstance(condition, Compare):
        return f"{condition.fact} {condition.operator} {condition.value}"
    if isinstance(condition, Between):
        return f"{condition.fact} {condition.low} to {condition.high}"
    if isinstance(condition, Against):
        return f"{condition.fact} {condition.operator} {condition.other}{said_offset(condition.offset)}"
    if isinstance(condition, IsKnown):
        return f"{condition.fact} is known"
    if isinstance(condition, Not):
        return f"not ({said(condition.part, facts)})"
    word = " and " if isinstance(condition, All) else " or "
    return word.join(
        f"({said(part, facts)})" if isinstance(part, All | AnyOf) else said(part, facts)
        for part in condition.parts
    )


def said_offset(offset: Quantity | int | None) -> str:
    """An offset behind the name of a fact: ` - 1/16 in`; empty for none."""
    if offset is None:
        return ""
    text = str(offset)
    return f" - {text[1:]}" if text.startswith("-") else f" + {text}"


class WrongCondition(ValueError):
    """A condition that cannot be read: a code for the finding, a sentence, and the place within it."""

    def __init__(self, code: str, message: str, path: tuple[str | int, ...]) -> None:
        self.code = code
        self.path = path
        super().__init__(message)


def read_condition(
    data: Any, facts: Mapping[str, Fact], path: tuple[str | int, ...] = ()
) -> Condition:
    """A condition from plain text and mappings. Raises WrongCondition at the first fault; `faults_in`
    gives them all.
    """
    if not isinstance(data, dict) or not data:
        raise WrongCondition(
            "condition-wrong",
            "A condition is a mapping such as {hand: LH} or {width: > 36 in}.",
            path,
        )
    parts = [_read_entry(key, value, facts, (*path, key)) for key, value in data.items()]
    return parts[0] if len(parts) == 1 else All(tuple(parts))


def faults_in(
    data: Any, facts: Mapping[str, Fact], path: tuple[str | int, ...] = ()
) -> Iterator[WrongCondition]:
    """Every fault of a condition, in reading order."""
    entries = list(data.items()) if isinstance(data, dict) else []
    if len(entries) > 1:
        for key, value in entries:
            yield from faults_in({key: value}, facts, path)
        return
    key, value = entries[0] if entries else ("", None)
    if key in ("all", "any") and isinstance(value, list) and value:
        for place, part in enumerate(value):
            yield from faults_in(part, facts, (*path, key, place))
        return
    try:
        read_condition(data, facts, path)
    except WrongCondition as error:
        yield error


def _read_entry(
    key: str, value: Any, facts: Mapping[str, Fact], path: tuple[str | int, ...]
) -> Condition:
    if key in ("all", "any"):
        if not isinstance(value, list) or not value:
            raise WrongCondition("condition-wrong", f"“{key}” needs a list of conditions.", path)
        parts = tuple(read_condition(v, facts, (*path, i)) for i, v in enumerate(value))
        return All(parts) if key == "all" else AnyOf(parts)
    if key == "not":
        return Not(read_condition(value, facts, path))
    if key == "known":
        if not isinstance(value, str):
            raise WrongCondition("condition-wrong", "“known” needs the name of one fact.", path)
        fact_named(value, facts, path)
        return IsKnown(value)
    return read_test(key, value, facts, path)


def fact_named(name: str, facts: Mapping[str, Fact], path: tuple[str | int, ...]) -> Fact:
    """The fact of this name; raises WrongCondition with the nearest spelling where there is none."""
    if name in facts:
        return facts[name]
    hint = meant(name, facts, "declare it under facts.")
    raise WrongCondition("fact-unknown", f"There is no fact “{short(name)}”; {hint}", path)


def read_test(
    name: str, value: Any, facts: Mapping[str, Fact], path: tuple[str | int, ...]
) -> Condition:
    """One fact against a label, labels, a comparison or a range; also the form a `check` limit takes."""
    fact = fact_named(name, facts, path)
    if not value_kind(fact):
        return IsKnown(name)  # its computation is unknown; its declaration has the finding
    if isinstance(value, list):
        for place, item in enumerate(value):
            if not isinstance(item, str):
                raise WrongCondition("condition-wrong", "A label is one word.", (*path, place))
            _need_label(fact, item, (*path, place))
        if not value:
            raise WrongCondition("condition-wrong", "The list of labels is empty.", path)
        return Is(name, tuple(value))
    if not isinstance(value, str):
        raise WrongCondition(
            "condition-wrong", f"“{name}” needs a label, a list of labels or a comparison.", path
        )
    text = value.strip()
    if text in labels_of(fact):
        return Is(name, (text,))
    for operator in OPERATORS if TURNED.match(text) is None else ():
        if text.startswith(operator):
            rest = text[len(operator) :].strip()
            named = _AGAINST.fullmatch(rest) if _numeric(fact) else None
            if named is not None:
                return _read_against(fact, operator, named, facts, path)
            return Compare(name, operator, _read_constant(fact, rest, path))
    if " to " in text:
        return _read_between(fact, text, path)
    if value_kind(fact) in ("choice", "yesno"):
        _need_label(fact, text, path)
    raise WrongCondition(
        "comparison-wrong",
        f"“{short(text)}” does not compare “{name}” with anything; "
        f"write {plain_signs(text) or example_test(fact)}.",
        path,
    )


_AGAINST = re.compile(
    r"(?P<open>\{)?(?P<other>[a-z][a-z0-9_]*)\}?( *(?P<sign>[+-]) *(?P<offset>[^ +-].*))?"
)
"""What a fact may be compared with beside a constant: another fact, and something added or taken off."""


def _numeric(fact: Fact) -> bool:
    return value_kind(fact) in MEASURED or value_kind(fact) == "count"


def _read_against(
    fact: Fact,
    operator: str,
    match: re.Match[str],
    facts: Mapping[str, Fact],
    path: tuple[str | int, ...],
) -> Condition:
    other = fact_named(match["other"], facts, path)
    if match["open"]:
        message = (
            f"Braces show a fact in a text; here write “{operator} {other.name}” without them."
        )
        raise WrongCondition("comparison-wrong", message, path)
    if other.name == fact.name:
        message = f"“{fact.name}” is compared with itself; name another fact, or a number."
        raise WrongCondition("comparison-wrong", message, path)
    if value_kind(other) != value_kind(fact):
        message = (
            f"“{fact.name}” is a {value_kind(fact)} and “{other.name}” a "
            f"{value_kind(other) or 'fact that cannot be read'}, so they cannot be compared."
        )
        raise WrongCondition("unit-wrong", message, path)
    if not match["offset"]:
        return Against(fact.name, operator, other.name)
    size = _read_constant(fact, match["offset"].strip(), path)
    if match["sign"] == "-":
        size = Quantity(-size.magnitude, size.unit) if isinstance(size, Quantity) else -size
    return Against(fact.name, operator, other.name, size)


def value_kind(fact: Fact) -> str:
    """The kind of value the fact takes; for a worked fact what its computation gives."""
    return fact.gives if fact.worked else fact.kind


def labels_of(fact: Fact) -> tuple[str, ...]:
    """Every label a condition may name for this fact."""
    if fact.worked:
        return (*fact.gives_labels, NONE)
    return (*fact.options, UNSURE) if fact.unsure else tuple(fact.options)


def example_test(fact: Fact) -> str:
    """A condition on this fact that would be understood."""
    kind = value_kind(fact)
    if kind in MEASURED:
        unit = measures.home_unit(kind, "inch")
        return f"“> 5 {unit}” or “2 {unit} to 5 {unit}”"
    if kind == "count":
        return "“> 2” or “1 to 3”"
    labels = labels_of(fact)
    return f"one of {', '.join(labels)}" if labels else "“known”"


def _need_label(fact: Fact, label: str, path: tuple[str | int, ...]) -> None:
    labels = labels_of(fact)
    if label in labels:
        return
    if not labels:
        raise WrongCondition(
            "comparison-wrong", f"“{fact.name}” has no labels; write {example_test(fact)}.", path
        )
    hint = meant(label, labels, f"its answers are {', '.join(labels)}.")
    raise WrongCondition(
        "label-unknown", f"“{short(label)}” is not an answer of “{fact.name}”; {hint}", path
    )


def _read_between(fact: Fact, text: str, path: tuple[str | int, ...]) -> Condition:
    kind = value_kind(fact)
    if kind in MEASURED:
        _need_unit(fact, text.rpartition(" to ")[2], path)
        try:
            low, high = _parsed_range(fact, text, kind)
        except MeasureError as error:
            raise WrongCondition("unit-wrong", str(error), path) from error
        return Between(fact.name, low, high)
    first, _, second = text.partition(" to ")
    low_n = _read_constant(fact, first.strip(), path)
    high_n = _read_constant(fact, second.strip(), path)
    if low_n > high_n:  # type: ignore[operator]
        raise WrongCondition(
            "comparison-wrong", f"“{text}” runs backwards; put the smaller number first.", path
        )
    return Between(fact.name, low_n, high_n)


def _parsed_range(fact: Fact, text: str, kind: str) -> tuple[Quantity, Quantity]:
    """Two measures, either of which may be below zero where the fact itself may."""
    first, _, second = text.partition(" to ")
    if not fact.operation or not (first + second).count("-"):
        return measures.parse_range(text, kind)
    low, high = parse_signed(first, kind), parse_signed(second, kind)
    if low > high:
        raise MeasureError(f"“{text}” runs backwards; put the smaller number first.")
    return low, high


def _read_constant(fact: Fact, text: str, path: tuple[str | int, ...]) -> Quantity | int:
    kind = value_kind(fact)
    if kind in MEASURED:
        _need_unit(fact, text, path)
        try:
            return parse_signed(text, kind) if fact.operation else measures.parse(text, kind)
        except MeasureError as error:
            raise WrongCondition("unit-wrong", str(error), path) from error
    if kind == "count" and fact.operation and text.startswith("-"):
        return -_read_constant(fact, text[1:], path)  # type: ignore[operator]
    if kind == "count" and text.isascii() and text.isdigit() and len(text) <= 9:
        return int(text)
    raise WrongCondition(
        "comparison-wrong",
        f"“{fact.name}” cannot be compared with “{short(text)}”; write {example_test(fact)}.",
        path,
    )


def _need_unit(fact: Fact, text: str, path: tuple[str | int, ...]) -> None:
    if text and bare(text):
        number, kind = short(text), value_kind(fact)
        written = dict.fromkeys(
            f"“{number} {home_unit(kind, system)}”" for system in ("inch", "metric")
        )
        message = f"“{number}” has no unit; write {' or '.join(written)}."
        raise WrongCondition("unit-wrong", message, path)


def read_limit(fact: Fact, value: Any, facts: Mapping[str, Fact]) -> Condition:
    """The limit of a `check`: a test of its fact."""
    return read_test(fact.name, value, facts, ())
