"""`sheet-loaded`: whether the job has a closer's sheet.

By itself, not as a part of the setting-out: the first question of a job depends on it, and should not wait for that.
"""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, given_sheet


def _loaded(inputs: Mapping[str, Given]) -> Answer:
    sheet = given_sheet(inputs)
    return Answer(sheet is not None, () if sheet is None else (f"{sheet.sheet} is loaded.",))


COMPUTATION = Computation(
    name="sheet-loaded",
    about="Whether a job has the sheet of its closer.",
    inputs=(Input("sheet", "sheet", False, "the sheet of the closer being fitted"),),
    output=Output("yesno"),
    compute=_loaded,
    source="what was loaded with the job",
    example="sheet=generic-a",
)
