"""`fire-door-gaps`: the gaps round a fire door by its country, edition, material, frame and rating.

United States: NFPA 80 4.8.4 and 6.3.1.7, editions of 2007 to 2019. United Kingdom: BS 8214:2016 and the Home Office's
guidance of 2022. All read in public copies or summaries. Elsewhere no figure was found, and the door's papers decide.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from guide.measures import Quantity, write
from guide.trade.answer import Answer, Result
from guide.trade.computation import Computation, Given, Input, Output, given
from guide.trade.inputs import (
    NFPA_80_EDITIONS,
    NFPA_80_INPUT,
    RULES_INPUT,
    USUAL_CODE,
    USUAL_NFPA_80,
    optional_length,
)

RIGHT, WRONG, DECIDES = VERDICTS = ("right", "wrong", "decide")
LEAVES = ("wood", "steel", "aluminium")
FRAMES = ("steel", "wood", "aluminium", "grouted")
RATINGS = ("twenty", "longer")
"""In minutes: 20, or longer."""

_EIGHTH = Quantity(Fraction(1, 8), "in")
_TOLERATED = Quantity(Fraction(1, 16), "in"), Quantity(Fraction(3, 16), "in")
"""1/8 in give or take 1/16 in."""
_BELOW = Quantity(Fraction(3, 4), "in")
_BELOW_HIGH_SILL = Quantity(Fraction(3, 8), "in")
_BRITISH = Quantity(Fraction(2), "mm"), Quantity(Fraction(4), "mm")
_COLD_SMOKE, _SURE, _BY_EVIDENCE = (Quantity(Fraction(number), "mm") for number in (3, 8, 10))


class Allowed(NamedTuple):
    """What a gap may be."""

    least: Quantity | None
    most: Quantity
    source: str
    """Follows the figures in brackets."""


@dataclass(frozen=True, slots=True)
class FireLeaf:
    """What decides on the gaps; None for what is not known."""

    leaf: str | None = None
    frame: str | None = None
    rating: str | None = None
    """One of `RATINGS`."""
    nfpa_80: str = USUAL_NFPA_80


def gaps_by_nfpa_80(door: FireLeaf) -> Allowed:
    """At head, jambs and meeting edge, read from the pull side. What is not known counts as the narrower."""
    source = "NFPA 80 6.3.1.7"
    if door.leaf == "steel":
        return Allowed(*_TOLERATED, source)
    light_wood = (
        door.leaf == "wood" and door.rating == "twenty" and door.frame in ("steel", "grouted")
    )
    if light_wood and door.nfpa_80 != "2010":
        return Allowed(*_TOLERATED, f"{source}, from 2016")
    return Allowed(None, _EIGHTH, source)


def sides(code: str, door: FireLeaf) -> Allowed | None:
    """What the gap at head, jambs and meeting edge may be; None where no figure was found."""
    if code == "us":
        return gaps_by_nfpa_80(door)
    if code == "uk":
        return Allowed(*_BRITISH, "BS 8214:2016; Home Office guidance of 2022")
    return None


def _british_below(gap: Quantity | None, smoke: bool | None) -> tuple[str, str]:
    if smoke:
        told = f"at most {_COLD_SMOKE} where it holds back cold smoke (BS 8214:2016)"
        return _verdict(gap, None, _COLD_SMOKE), told
    told = f"at most {_SURE} to {_BY_EVIDENCE}, as the door's evidence says (BS 8214:2016)"
    sure = _COLD_SMOKE if smoke is None else _SURE
    if smoke is None:
        told = f"at most {_COLD_SMOKE} where it holds back cold smoke, else {told[8:]}"
    if gap is not None and sure < gap <= _BY_EVIDENCE:
        return DECIDES, told
    return _verdict(gap, None, _BY_EVIDENCE), told


def _below(
    code: str, gap: Quantity | None, smoke: bool | None, high_sill: bool | None
) -> tuple[str, str]:
    if code == "uk":
        return _british_below(gap, smoke)
    if code == "us":
        most, where = (
            (_BELOW_HIGH_SILL, " over a sill more than 38 in high") if high_sill else (_BELOW, "")
        )
        return _verdict(gap, None, most), f"at most {write(most)}{where} (NFPA 80 4.8.4)"
    return DECIDES, _BY_PAPERS


_BY_PAPERS = "what the door's own papers say"


def _verdict(gap: Quantity | None, least: Quantity | None, most: Quantity) -> str:
    if gap is None:
        return DECIDES
    return RIGHT if gap <= most and (least is None or gap >= least) else WRONG


def _range(allowed: Allowed) -> str:
    if allowed.least is None:
        return f"at most {write(allowed.most)} ({allowed.source})"
    return f"{write(allowed.least)} to {write(allowed.most)} ({allowed.source})"


def _fire_door_gaps(inputs: Mapping[str, Given]) -> Answer:
    code = given(inputs, "rules", str) or USUAL_CODE
    door = FireLeaf(
        given(inputs, "leaf", str),
        given(inputs, "frame", str),
        given(inputs, "rating", str),
        given(inputs, "nfpa_80", str) or USUAL_NFPA_80,
    )
    widest, narrowest = given(inputs, "widest", Quantity), given(inputs, "narrowest", Quantity)
    allowed = sides(code, door)
    beside, wanted = DECIDES, _BY_PAPERS
    if allowed is not None:
        read = [gap for gap in (widest, narrowest) if gap is not None]
        found = [_verdict(gap, allowed.least, allowed.most) for gap in read]
        beside = WRONG if WRONG in found else RIGHT if widest is not None else DECIDES
        wanted = _range(allowed)
    below = given(inputs, "below", Quantity)
    under, wanted_below = _below(
        code, below, given(inputs, "smoke", bool), given(inputs, "high_sill", bool)
    )
    value: dict[str, Result] = {
        "sides": beside,
        "under": under,
        "sides_told": f"Head, jambs and meeting edge: {wanted}.",
        "under_told": f"Under the leaf: {wanted_below}.",
    }
    working = [f"Head, jambs and meeting edge: {wanted}: {beside}."]
    working.append(f"Under the leaf: {wanted_below}: {under}.")
    if code == USUAL_CODE:
        working.append(f"{NFPA_80_EDITIONS[door.nfpa_80]}.")
    return Answer(
        value, tuple(working), ("The door's listing or evidence and the authority govern.",)
    )


_NONE, _WIDE = Fraction(0), Fraction(3)

COMPUTATION = Computation(
    name="fire-door-gaps",
    about="The gaps round a fire door, by country, edition, material, frame and rating.",
    inputs=(
        RULES_INPUT,
        NFPA_80_INPUT,
        Input("leaf", "choice", False, "what the leaf is made of", LEAVES),
        Input("frame", "choice", False, "what the frame is made of", FRAMES),
        Input("rating", "choice", False, "for how many minutes it is rated", RATINGS),
        Input("smoke", "yesno", False, "whether it must hold back cold smoke"),
        Input("high_sill", "yesno", False, "whether the sill is more than 38 in above the floor"),
        optional_length("widest", "widest gap at head, jambs and meeting edge", _NONE, _WIDE),
        optional_length("narrowest", "narrowest gap there", _NONE, _WIDE),
        optional_length("below", "widest gap under the leaf", _NONE, _WIDE),
    ),
    output=Output(
        "mapping",
        ("sides", "under", "sides_told", "under_told"),
        labels=(("sides", VERDICTS), ("under", VERDICTS)),
    ),
    compute=_fire_door_gaps,
    source="NFPA 80 4.8.4 and 6.3.1.7; BS 8214:2016; Home Office fire door guidance of 2022",
    example="rules=us leaf=wood frame=steel widest='1/8 in' below='1/2 in'",
)
