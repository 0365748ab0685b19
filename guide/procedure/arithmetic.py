"""Facts computed by arithmetic: a sum, a difference or a multiple of other facts of one kind.

Everything is exact. A formula is data: its terms are the names of facts and constants with their unit, kept in the
fact's `using` under the numbers of their places. The result is in the unit of the first fact.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from guide.measures import Quantity
from guide.measures.parsing import parse_signed
from guide.procedure.facts import NONE, UNSURE, Fact, writing

OPERATIONS = ("sum", "difference", "times")

_FACTOR = re.compile(
    r"[0-9]{1,6}(\.[0-9]{1,6})?|[0-9]{1,6}/[0-9]{1,6}|[0-9]{1,6} [0-9]{1,6}/[0-9]{1,6}"
)

Number = Quantity | int


def terms_of(fact: Fact) -> list[str]:
    """The fillers of a formula in their order: a fact's name, or `= ` and a constant."""
    return [fact.using[str(place + 1)] for place in range(len(fact.using))]


def read_factor(text: str) -> Fraction | None:
    """A plain number such as 2, 0.5, 1/3 or 1 1/2; None for anything else."""
    if not _FACTOR.fullmatch(text):
        return None
    try:
        return sum((Fraction(part) for part in text.split()), Fraction(0))
    except ZeroDivisionError:
        return None


def constant(fact: Fact, text: str) -> Number:
    """A constant of a sum or difference as its value."""
    return int(text) if fact.gives == "count" else parse_signed(text, fact.gives)


def weights(fact: Fact) -> tuple[dict[str, Fraction], Fraction]:
    """The formula as a weighted sum: fact -> its factor, and the constant that is added, in base units."""
    found: dict[str, Fraction] = {}
    added = Fraction(0)
    terms = terms_of(fact)
    if fact.operation == "times":
        return {terms[0]: read_factor(terms[1][1:].strip()) or Fraction(1)}, added
    for place, term in enumerate(terms):
        sign = -1 if fact.operation == "difference" and place else 1
        if term.startswith("="):
            value = constant(fact, term[1:].strip())
            added += sign * (value.base if isinstance(value, Quantity) else value)
        else:
            found[term] = found.get(term, Fraction(0)) + sign
    return found, added


def work_out_formula(fact: Fact, inputs: Mapping[str, str]) -> dict[str, Any]:
    """The result of a formula: the rest of the body of its `worked` event."""
    places = sorted(inputs, key=int)
    for place in places:
        if inputs[place] in (UNSURE, NONE):
            return {"value": NONE, "reason": f"{fact.using[place].replace('_', ' ')} is not known"}
    if fact.operation == "times":
        return _multiplied(fact, inputs["1"], inputs["2"])
    values = [constant(fact, inputs[place]) for place in places]
    sign = -1 if fact.operation == "difference" else 1
    first, rest = values[0], [_signed(value, sign) for value in values[1:]]
    total = sum((_base(value) for value in rest), _base(first))
    model = next(
        v for p, v in zip(places, values, strict=True) if not fact.using[p].startswith("=")
    )
    said = _said(first) + "".join(_joined(value) for value in rest)
    return _result(fact, total, model, said)


def _multiplied(fact: Fact, one: str, times: str) -> dict[str, Any]:
    value = constant(fact, one)
    factor = read_factor(times) or Fraction(1)
    return _result(fact, _base(value) * factor, value, f"{times} x {_said(value)}")


def _result(fact: Fact, total: Fraction, model: Number, said: str) -> dict[str, Any]:
    """The total in the unit of `model`, with its working; no answer where it cannot be written exactly."""
    found: Number = int(total)
    if isinstance(model, Quantity):
        found = Quantity(total / Quantity(Fraction(1), model.unit).base, model.unit)
    text = writing(found)
    try:
        constant(fact, text)
    except ValueError:
        return {"value": NONE, "reason": "the number has more figures than can be kept"}
    below = ", below zero" if total < 0 else ""
    return {"value": text, "working": [f"{said}: {text}{below}."], "cautions": []}


def _base(value: Number) -> Fraction:
    return value.base if isinstance(value, Quantity) else Fraction(value)


def _signed(value: Number, sign: int) -> Number:
    return (
        Quantity(sign * value.magnitude, value.unit)
        if isinstance(value, Quantity)
        else sign * value
    )


def _said(value: Number) -> str:
    return writing(value)


def _joined(value: Number) -> str:
    return f" less {_said(_signed(value, -1))}" if _base(value) < 0 else f" and {_said(value)}"
