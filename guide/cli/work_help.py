"""`hingeside work NAME --help`: the inputs of a computation with units, choices and limits, its source, an example."""

import textwrap
from collections.abc import Iterator

from guide.measures import KINDS
from guide.measures.units import home_unit, units_of
from guide.text import either
from guide.trade.computation import Computation, Input, Limit, Output

COLUMNS = 88
_PLAIN_KINDS = {
    "yesno": "yes or no",
    "count": "a whole number",
    "number": "a decimal number",
    "sheet": "the name of a closer's sheet, or the path of its file",
    "text": "a text",
}


def help_lines(computation: Computation) -> Iterator[str]:
    """The whole help of one computation."""
    yield f"usage: hingeside work {computation.name} key=value..."
    yield ""
    yield from textwrap.wrap(computation.about, COLUMNS)
    for title, required in (("needed:", True), ("may be left out:", False)):
        found = [one for one in computation.inputs if one.required == required]
        if found:
            yield ""
            yield title
            yield from _inputs(found)
    yield ""
    yield from _filled("gives: ", _output(computation.output))
    yield from _filled("source: ", f"{computation.source.rstrip('.')}.")
    if measures := _home_units(computation.inputs):
        yield f"A number without a unit is read as {either(measures)}."
    yield ""
    yield "example:"
    yield f"  hingeside work {computation.name} {computation.example}"


def _inputs(inputs: list[Input]) -> Iterator[str]:
    widest = max(len(one.name) for one in inputs) + 3
    for one in inputs:
        yield from _filled(f"  {one.name + '=':<{widest}}", f"{one.about}. {_kind(one)}")


def _filled(start: str, text: str) -> Iterator[str]:
    """The text after `start`, broken with an indent of its width or, after a long one, of four blanks."""
    indent = " " * len(start) if start.startswith(" ") else "    "
    yield from textwrap.wrap(
        text, COLUMNS, initial_indent=start, subsequent_indent=indent, break_on_hyphens=False
    )


def _kind(wanted: Input) -> str:
    """What may be typed, as a sentence or two."""
    if wanted.columns:
        said = "Given once for each test, oldest first; in it, between commas: "
        said += ", ".join(one.name.replace("_", " ") for one in wanted.columns)
    elif wanted.kind == "choice":
        said = f"One of: {', '.join(wanted.options)}"
    elif wanted.kind in KINDS:
        below = "may be below zero; " if wanted.signed else ""
        said = f"{wanted.kind.capitalize()}, {below}{either(units_of(wanted.kind))}"
    else:
        said = _PLAIN_KINDS[wanted.kind].capitalize()
    limits = _limits(wanted.low, wanted.high)
    return f"{said}{f'; {limits}' if limits else ''}."


def _limits(low: Limit, high: Limit) -> str:
    if low is not None and high is not None:
        return f"{low} to {high}"
    if low is not None:
        return f"at least {low}"
    return f"at most {high}" if high is not None else ""


def _output(output: Output) -> str:
    if output.kind in ("mapping", "rows"):
        parts = ", ".join(part.replace("_", " ") for part in output.options)
        return f"{'a list, each row with ' if output.kind == 'rows' else ''}{parts}."
    if output.kind == "choice":
        return f"{either(output.options)}."
    limits = _limits(output.low, output.high)
    kind = _PLAIN_KINDS.get(output.kind, output.kind)
    return f"{kind}{f', {limits}' if limits else ''}."


def _home_units(inputs: tuple[Input, ...]) -> list[str]:
    """The units of bare numbers, for the kinds of measure among the inputs."""
    kinds = dict.fromkeys(one.kind for one in inputs if one.kind in KINDS)
    return [home_unit(kind, "inch") for kind in kinds]
