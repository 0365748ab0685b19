"""Typed text into checked inputs. Every problem is reported at once, a sentence each."""

import re
from collections.abc import Callable, Mapping
from math import isfinite
from typing import TYPE_CHECKING, TypeAlias

from guide.measures import KINDS, MeasureError, Quantity, misread, parse, write
from guide.measures.parsing import parse_signed
from guide.text import either, unknown
from guide.trade.answer import BadInput, OutOfDomain
from guide.trade.computation import Computation, Given, Input, Limit

if TYPE_CHECKING:
    from guide.trade.sheet.sheet import Sheet

SheetOpener: TypeAlias = "Callable[[str], Sheet]"
"""Finds a sheet by its name or path; raises BadInput with a sentence if there is no such sheet."""

DECIMAL = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,6})?|\.[0-9]{1,6}")
"""A number without a unit, as it is typed or written in a file."""

_YES = ("yes", "y", "true")
_NO = ("no", "n", "false")


def read_inputs(
    computation: Computation,
    texts: Mapping[str, str],
    system: str = "inch",
    open_sheet: "SheetOpener | None" = None,
) -> dict[str, Given]:
    """Read `texts` (input name to typed text) as the computation's inputs.

    A bare number has the home unit of `system` ("inch" or "metric"). Sheets are opened with
    `open_sheet`, since this part reads no files. Limits are not checked here but in
    `registry.run`. Raises BadInput naming every key that is unknown, missing or unreadable.
    """
    values: dict[str, Given] = {}
    problems = name_problems(computation, texts)
    for name, text in texts.items():
        wanted = computation.input(name)
        if wanted is None:
            continue
        try:
            values[name] = _read(wanted, text, system, open_sheet)
        except (BadInput, MeasureError) as problem:
            problems.append(f"{name}: {problem}")
    if problems:
        raise BadInput(" ".join(problems))
    return values


def name_problems(computation: Computation, names: Mapping[str, object]) -> list[str]:
    """A sentence for every name that is unknown and every required input that is missing."""
    known = [one.name for one in computation.inputs]
    problems = [
        unknown(f"an input of {computation.name}", name, known)
        for name in names
        if name not in known
    ]
    problems += [
        f"{computation.name} needs {one.name}= ({one.about})."
        for one in computation.inputs
        if one.required and one.name not in names
    ]
    return problems


def check_value(wanted: Input, value: Given) -> None:
    """Raise BadInput if `value` is not of the input's kind, OutOfDomain past its limits."""
    if wanted.kind in KINDS:
        if not isinstance(value, Quantity):
            raise BadInput(f"{wanted.name} must be written with a unit of {wanted.kind}.")
        if value.kind != wanted.kind:
            raise BadInput(
                f"{wanted.name} needs a unit of {wanted.kind}, which {value} does not have."
            )
        _check_quantity_limits(wanted, value)
    elif wanted.kind == "choice":
        if value not in wanted.options:
            raise BadInput(f"{wanted.name} must be {either(wanted.options)}, not “{value}”.")
    elif wanted.kind == "yesno":
        if not isinstance(value, bool):
            raise BadInput(f"{wanted.name} must be yes or no.")
    elif wanted.kind == "sheet":
        from guide.trade.sheet.sheet import Sheet

        if not isinstance(value, Sheet):
            raise BadInput(f"{wanted.name} must be the sheet of a closer.")
    elif wanted.kind == "text":
        if not isinstance(value, str):
            raise BadInput(f"{wanted.name} must be text.")
    elif wanted.kind == "number":
        if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
            raise BadInput(f"{wanted.name} must be a number.")
    elif not isinstance(value, int) or isinstance(value, bool):
        raise BadInput(f"{wanted.name} must be a whole number.")
    else:
        _check_count_limits(wanted, value)


def _read(wanted: Input, text: str, system: str, open_sheet: "SheetOpener | None") -> Given:
    if wanted.tidy is not None:
        text = wanted.tidy(text)
    if wanted.kind in KINDS:
        reader = parse_signed if wanted.signed else parse
        return reader(text, wanted.kind, system)
    word = text.strip()
    if wanted.kind == "text":
        return word
    if wanted.kind == "sheet":
        if open_sheet is None:
            raise BadInput("a closer's sheet cannot be opened from here.")
        return open_sheet(word)
    if wanted.kind == "count":
        if not (word.isascii() and word.isdigit() and len(word) <= 9):
            raise BadInput(f"“{word[:40]}” is not a whole number; write digits, such as 3.")
        return int(word)
    if wanted.kind == "number":
        if not DECIMAL.fullmatch(word):
            raise BadInput(f"“{word[:40]}” is not a decimal number; write one such as 0.45.")
        return float(word)
    lower = word.lower()
    if wanted.kind == "yesno":
        if lower in _YES:
            return True
        if lower in _NO:
            return False
        raise BadInput(f"“{word[:40]}” is neither yes nor no.")
    for option in wanted.options:
        if option.lower() == lower:
            return option
    raise BadInput(unknown("one of the choices", word, wanted.options))


def _check_quantity_limits(wanted: Input, value: Quantity) -> None:
    low, high = wanted.low, wanted.high
    below = isinstance(low, Quantity) and value < low
    above = isinstance(high, Quantity) and value > high
    if not (below or above):
        return
    message = f"{wanted.name} {write(value)} is outside what is worked here: {_limits(low, high)}."
    if isinstance(low, Quantity) and isinstance(high, Quantity):
        meant = misread(value, (low, high))
        if meant is not None:
            message += f" Did you mean {write(meant)}?"
    raise OutOfDomain(message)


def _check_count_limits(wanted: Input, value: int) -> None:
    low, high = wanted.low, wanted.high
    if (isinstance(low, int) and value < low) or (isinstance(high, int) and value > high):
        raise OutOfDomain(
            f"{wanted.name} {value} is outside what is worked here: {_limits(low, high)}."
        )


def _limits(low: Limit, high: Limit) -> str:
    if low is None:
        return f"at most {high}"
    if high is None:
        return f"at least {low}"
    return f"{low} to {high}"
