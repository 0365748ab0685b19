"""Reads the inputs of `hingeside template`, as typed or from a run."""

from collections.abc import Mapping

from guide.measures import Quantity
from guide.papers.template import TemplateOf, pages
from guide.papers.template_tiles import PAPERS
from guide.run.state import State
from guide.trade.answer import Answer, BadInput
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.holes.inputs import (
    HAND_INPUT,
    HINGE_INPUT,
    KNUCKLES_INPUT,
    MOUNT_INPUT,
    RANGE_INPUT,
    UNITS_INPUT,
    knuckles_of,
)
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
    made_of = TemplateOf(
        sheet=needed(inputs, "sheet", Sheet),
        mount=needed(inputs, "mount", str),
        knuckles=knuckles_of(inputs),
        hinge=needed(inputs, "hinge", str),
        opening=needed(inputs, "range", Quantity),
        hand=given(inputs, "hand", str) or "",
        units=given(inputs, "units", str) or "",
        special=given(inputs, "special", bool) or False,
    )
    return made_of, given(inputs, "paper", str) or USUAL_PAPER


_OF_A_RUN = {
    "mount": "mount",
    "hinge": "hinge",
    "range": "opening",
    "knuckles": "knuckles",
    "hand": "hand",
}
"""Input to the fact of a run that holds it."""


def inputs_of_run(state: State) -> dict[str, Given]:
    """The inputs that a run knows. BadInput if it has no sheet."""
    if state.sheet is None:
        raise BadInput(
            f"The run {state.run} has no sheet; give sheet=, mount= and the rest yourself."
        )
    found: dict[str, Given] = {"sheet": Sheet.from_json(state.sheet), "units": state.units}
    for name, fact in _OF_A_RUN.items():
        value = state.known(fact) if fact in state.graph.facts else None
        wanted = TEMPLATE.input(name)
        if value is None or wanted is None or (wanted.options and value not in wanted.options):
            continue  # not answered yet, or answered "I don't know"
        found[name] = value
    return found


def _pages(inputs: Mapping[str, Given]) -> Answer:
    across, down = pages(*read_template(inputs))
    return Answer({"across": across, "down": down})


TEMPLATE = Computation(
    name="template",
    about="The full-size template of a closer's holes.",
    inputs=(
        SHEET_INPUT,
        MOUNT_INPUT,
        HAND_INPUT,
        KNUCKLES_INPUT,
        HINGE_INPUT,
        RANGE_INPUT,
        UNITS_INPUT,
        Input("special", "yesno", False, "whether the sheet is of the special template"),
        Input("paper", "choice", False, "the paper; letter if left out", tuple(PAPERS)),
    ),
    output=Output("mapping", ("across", "down")),
    compute=_pages,
    source="the maker's sheet, as its owner copied it",
)
"""The inputs, described as those of a computation are."""
