"""`rules-asked`: whose rules hold in which edition, and what they ask of this door's swing, in words for a step."""

from collections.abc import Mapping

from guide.measures import Quantity, write
from guide.measures.in_text import AT_MOST, bound_in_units
from guide.trade.answer import Answer, Result
from guide.trade.computation import Computation, Given, Input, Output, given
from guide.trade.inputs import (
    CODES,
    IBC_EDITIONS,
    IBC_INPUT,
    NFPA_80_EDITIONS,
    NFPA_80_INPUT,
    RULES_INPUT,
    USUAL_CODE,
    USUAL_IBC,
    USUAL_NFPA_80,
)
from guide.trade.rules.kinds import force_limit, limit_of
from guide.trade.rules.rules import GOVERNS

ACCESS_TIME, OWN_TIME = limit_of(5, "s"), limit_of(3, "s")
"""Least from 90 to 12 degrees: 2010 ADA Standards 404.2.8.1, and common practice where they do not hold."""


def _closing(code: str, accessible: bool) -> tuple[Quantity, str]:
    if code == "us" and accessible:
        return ACCESS_TIME, "2010 ADA Standards 404.2.8.1"
    return OWN_TIME, "common practice; no rule sets a time here"


def _rules_asked(inputs: Mapping[str, Given]) -> Answer:
    code = given(inputs, "rules", str) or USUAL_CODE
    accessible = given(inputs, "accessible", bool)
    reached = accessible is not False
    units = given(inputs, "units", str) or "inch"
    least, whence = _closing(code, reached)
    limit = force_limit(
        code,
        fire=given(inputs, "fire", bool) or False,
        exterior=given(inputs, "exterior", bool) or False,
        way_out=given(inputs, "way_out", bool) or False,
        accessible=reached,
    )
    closing = f"At least {write(least)} from 90 to 12 degrees ({whence})."
    opening = f"At most {bound_in_units(limit.most, AT_MOST, units)}{limit.whence}."
    value: dict[str, Result] = {
        "rules": code,
        "nfpa_80": given(inputs, "nfpa_80", str) or USUAL_NFPA_80,
        "ibc": given(inputs, "ibc", str) or USUAL_IBC,
        "closing": closing,
        "opening": opening,
        "timed": "five" if least == ACCESS_TIME else "three",
    }
    return Answer(value, (closing, opening, f"Rules: {CODES[code]}."), (GOVERNS,))


COMPUTATION = Computation(
    name="rules-asked",
    about="Whose rules hold, in which edition, and what they ask of closing time and opening force.",
    inputs=(
        RULES_INPUT,
        NFPA_80_INPUT,
        IBC_INPUT,
        Input("fire", "yesno", False, "whether it is a fire door"),
        Input("exterior", "yesno", False, "whether it opens to the weather"),
        Input("way_out", "yesno", False, "whether it is a way out"),
        Input("accessible", "yesno", False, "on an accessible route; yes if left out"),
        Input("units", "choice", False, "units of the answer", ("inch", "metric")),
    ),
    output=Output(
        "mapping",
        ("rules", "nfpa_80", "ibc", "closing", "opening", "timed"),
        labels=(
            ("rules", tuple(CODES)),
            ("nfpa_80", tuple(NFPA_80_EDITIONS)),
            ("ibc", tuple(IBC_EDITIONS)),
            ("timed", ("five", "three")),
        ),
    ),
    compute=_rules_asked,
    source="the rules of `access-and-fire`",
    example="rules=us accessible=yes",
)
