"""`body-valves`: which valves the body has, by the sheet, or as they were counted on it."""

from collections.abc import Mapping
from dataclasses import replace

from guide.trade.answer import Answer, NoAnswer
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet
from guide.trade.sheet.lookup import SHEET_INPUT, SOURCE

VALVES = ("two", "three", "four")
"""Sweep and latch; those and backcheck; those three and delayed action."""
_BY_LAST = {"latch": "two", "backcheck": "three", "delayed-action": "four"}


def _body_valves(inputs: Mapping[str, Given]) -> Answer:
    sheet, counted = given_sheet(inputs), given(inputs, "counted", str)
    names = () if sheet is None else tuple(one.name for one in sheet.screws)
    last = next((one for one in reversed(_BY_LAST) if one in names), None)
    if sheet is not None and last is not None:
        where = "; ".join(
            f"{one.name.replace('-', ' ')}: {one.where}"
            for one in sheet.screws
            if one.name != "spring"
        )
        return Answer(_BY_LAST[last], (f"By the sheet {sheet.sheet}: {where}.",))
    if counted is None:
        raise NoAnswer(
            "No sheet names the valves: read the label beside the screws and count them."
        )
    return Answer(counted, ("As counted on the body.",))


COMPUTATION = Computation(
    name="body-valves",
    about="Which valves the body has, by the sheet, or as counted where no sheet names them.",
    inputs=(
        replace(SHEET_INPUT, required=False),
        Input("counted", "choice", False, "the valves as counted on the body", VALVES),
    ),
    output=Output("choice", VALVES),
    compute=_body_valves,
    source=SOURCE,
    example="sheet=generic-a",
)
