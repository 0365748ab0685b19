"""The formula of a fact computed by arithmetic, as a file writes it: taken over, its kind found, its faults noted."""

import re
from collections.abc import Mapping

from guide import measures
from guide.files.source import Path_, Source
from guide.measures import MeasureError
from guide.measures.parsing import parse_signed
from guide.procedure import schema
from guide.procedure.arithmetic import read_factor, terms_of
from guide.procedure.facts import MEASURED, Fact, bare
from guide.text import meant, short

_NAME = re.compile(schema.FACT_PATTERN)


def take_formula(fact: Fact, operation: str, terms: list[str]) -> None:
    """Keep a formula in its fact."""
    fact.kind, fact.operation = "worked", operation
    fact.using = {
        str(place): term if _NAME.fullmatch(term) else f"= {term}"
        for place, term in enumerate(terms, 1)
    }


def settle_kinds(facts: Mapping[str, Fact]) -> None:
    """Give each formula the kind of its first fact; empty if that fact has no number, or is not declared."""
    for fact in facts.values():
        if fact.operation:
            fact.gives = _kind(fact, facts, set())


def _kind(fact: Fact, facts: Mapping[str, Fact], seen: set[str]) -> str:
    if not fact.operation:
        kind = fact.gives if fact.worked else fact.kind
        return kind if kind in MEASURED or kind == "count" else ""
    seen.add(fact.name)
    for name in fact.input_facts():
        if name in facts and name not in seen:
            return _kind(facts[name], facts, seen)
    return ""


def check_formula(source: Source, facts: Mapping[str, Fact], fact: Fact, path: Path_) -> None:
    """Note every term that is unknown, of another kind or without a unit."""
    operation = fact.operation
    terms = terms_of(fact)
    if all(term.startswith("=") for term in terms):
        message = (
            f"This {operation} has no fact in it; name at least one, or write its value itself."
        )
        source.fault((*path, operation), "arithmetic-wrong", message)
        return
    for place, term in enumerate(terms):
        spot = (*path, operation, place)
        if operation == "times" and place == 1:
            _check_factor(source, fact, term, spot)
        elif operation == "times" and term.startswith("="):
            message = "“times” needs a fact first and then a plain number; write [gap, 2]."
            source.fault(spot, "arithmetic-wrong", message)
        elif term.startswith("="):
            _check_constant(source, fact, term[1:].strip(), spot)
        elif term not in facts:
            hint = meant(term, facts, "declare it under facts.")
            source.fault(spot, "fact-unknown", f"There is no fact “{short(term)}”; {hint}")
        else:
            _check_term(source, fact, facts[term], spot)


def _check_term(source: Source, fact: Fact, term: Fact, spot: Path_) -> None:
    has = term.gives if term.worked else term.kind
    if not has:
        return  # what it comes from is noted there
    if has not in MEASURED and has != "count":
        message = f"“{term.name}” has no number; arithmetic takes measures and counts alone."
        source.fault(spot, "kinds-mixed", message)
    elif fact.gives and has != fact.gives:
        message = (
            f"“{term.name}” is of the kind {has} among terms of the kind {fact.gives}; "
            f"a {fact.operation} takes one kind."
        )
        source.fault(spot, "kinds-mixed", message)


def _check_constant(source: Source, fact: Fact, text: str, spot: Path_) -> None:
    kind = fact.gives
    if kind == "count":
        if not _whole(text):
            message = f"“{short(text)}” is not a whole number; a count is added to counts alone."
            source.fault(spot, "kinds-mixed", message)
        return
    if not kind:
        return
    if bare(text):
        inch, metric = (measures.home_unit(kind, system) for system in ("inch", "metric"))
        units = " or ".join(dict.fromkeys(f"“{short(text)} {unit}”" for unit in (inch, metric)))
        source.fault(spot, "unit-wrong", f"“{short(text)}” has no unit; write {units}.")
        return
    try:
        parse_signed(text, kind)
    except MeasureError as error:
        code = "kinds-mixed" if _other_kind(text) else "unit-wrong"
        source.fault(spot, code, str(error))


def _other_kind(text: str) -> bool:
    try:
        parse_signed(text, None)
    except MeasureError:
        return False
    return True


def _whole(text: str) -> bool:
    digits = text.removeprefix("-")
    return digits.isascii() and digits.isdigit() and len(digits) <= 9


def _check_factor(source: Source, fact: Fact, term: str, spot: Path_) -> None:
    text = term.removeprefix("=").strip()
    factor = read_factor(text) if term.startswith("=") else None
    if factor is None or factor <= 0:
        message = (
            f"“{short(text)}” is not a plain number above zero; write one such as 2, 0.5 or 1/3."
        )
        source.fault(spot, "arithmetic-wrong", message)
    elif fact.gives == "count" and factor.denominator != 1:
        message = f"A count is multiplied by a whole number only, not by “{short(text)}”."
        source.fault(spot, "arithmetic-wrong", message)
