"""Reads the inputs of `hingeside template`, as typed or from a run."""

from collections.abc import Mapping
from dataclasses import replace

from guide.papers.template.template import TemplateOf, pages
from guide.papers.template.template_tiles import PAPERS
from guide.run.run_opening import values_of
from guide.run.state import State
from guide.trade.answer import Answer, BadInput
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet
from guide.trade.holes.inputs import (
    HINGE_INPUT,
    MOUNT_INPUT,
    RANGE_INPUT,
    UNITS_INPUT,
    knuckles_of,
)
from guide.trade.holes.opening import OPENING_INPUTS, TYPED_INPUTS, opening_of, typed_of
from guide.trade.holes.set_out import set_out
from guide.trade.reading import check_value, name_problems
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.sheet import Sheet

USUAL_PAPER = "letter"


def read_template(inputs: Mapping[str, Given]) -> tuple[TemplateOf, str]:
    """The inputs of the template, and its paper.

    BadInput naming what is missing, unknown or contradicts another; OutOfDomain past a limit.
    """
    problems = name_problems(TEMPLATE, inputs)
    if problems:
        raise BadInput(" ".join(problems))
    for wanted in TEMPLATE.inputs:
        if wanted.name in inputs:
            check_value(wanted, inputs[wanted.name])
    knuckles_of(inputs)
    sheet, typed = given_sheet(inputs), typed_of(inputs)
    if sheet is None and typed.missing:
        raise BadInput(
            f"Give sheet=, or what the maker's paper says: still missing {', '.join(typed.missing)}."
        )
    units = given(inputs, "units", str) or ("inch" if sheet is None else sheet.units)
    made_of = TemplateOf(set_out(opening_of(inputs), sheet, typed, units=units), units)
    return made_of, given(inputs, "paper", str) or USUAL_PAPER


def inputs_of_run(state: State) -> dict[str, Given]:
    """The inputs that a run knows. BadInput if it has neither a sheet nor the numbers of one."""
    known = values_of(state)
    found: dict[str, Given] = {"units": state.units}
    if state.sheet is not None:
        found["sheet"] = Sheet.from_json(state.sheet)
    elif typed_of(known).missing:
        raise BadInput(
            f"The run {state.run} has no sheet, and no numbers were typed in it; give sheet=, mount= and the"
            " rest yourself."
        )
    for name, value in known.items():
        key = "range" if name == "opening" else name
        if TEMPLATE.input(key) is not None:
            found[key] = value
    return found


def _pages(inputs: Mapping[str, Given]) -> Answer:
    across, down = pages(*read_template(inputs))
    return Answer({"across": across, "down": down})


TEMPLATE = Computation(
    name="template",
    about="The full-size template of a closer's holes.",
    inputs=(
        replace(SHEET_INPUT, required=False),
        MOUNT_INPUT,
        HINGE_INPUT,
        RANGE_INPUT,
        *(one for one in OPENING_INPUTS if one.name not in ("mount", "hinge", "opening")),
        *TYPED_INPUTS,
        UNITS_INPUT,
        Input("paper", "choice", False, "the paper; letter if left out", tuple(PAPERS)),
    ),
    output=Output("mapping", ("across", "down")),
    compute=_pages,
    source="the maker's sheet, as its owner copied it",
)
"""The inputs, described as those of a computation are."""
