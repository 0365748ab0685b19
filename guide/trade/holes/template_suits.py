"""`template-suits`: whether a standard template suits the hinge, and what it would do wrong."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Output
from guide.trade.door.hinges import HINGE_WORDS, STANDARD_TEMPLATE
from guide.trade.holes.advice import LINKAGE_SOURCE, SHEET_INPUTS, template_words
from guide.trade.holes.inputs import read_request

_READ_THE_PAPER = "The paper says which hinges it is for; it governs."


def _template_suits(inputs: Mapping[str, Given]) -> Answer:
    request = read_request(inputs)
    if request.hinge in STANDARD_TEMPLATE:
        return Answer(
            True, (f"A standard template suits {HINGE_WORDS[request.hinge]}.",), (_READ_THE_PAPER,)
        )
    return Answer(False, (template_words(request),), ("Get the maker's special template.",))


COMPUTATION = Computation(
    name="template-suits",
    about="Whether a standard template suits the hinge, and what it would do wrong.",
    inputs=SHEET_INPUTS,
    output=Output("yesno"),
    compute=_template_suits,
    source=LINKAGE_SOURCE,
    example="sheet=generic-a mount=regular hinge=butt range='100 deg'",
)
