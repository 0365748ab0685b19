"""`access-and-fire`: the final readings of a door checked against the rules of one code."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.answer import Answer, Result
from guide.trade.computation import Computation, Given, Input, Output, given
from guide.trade.inputs import (
    CODES,
    IBC_EDITIONS,
    IBC_INPUT,
    RULES_INPUT,
    USUAL_CODE,
    USUAL_IBC,
    WIDTH_INPUT,
)
from guide.trade.mounts import SIZES
from guide.trade.rules.kinds import (
    BRITISH_LATER,
    FAIL,
    RELEASES,
    SMALL_SHORTFALL,
    JudgedDoor,
    force_limit,
)
from guide.trade.rules.rules import (
    GOVERNS,
    UNCHECKED,
    in_a_sentence,
    judge,
    left_to_authority,
    verdict_of,
)

ARMS = ("plain", "hold-open", "stop", "heavy")
VALVES = ("two", "three", "four")
VERDICTS = ("pass", "decide", "fail")
HAND_OVER = ("yes", "left-to-do", "no")
"""Whether the door may be handed over; `left-to-do`: it may, with a force recorded that is a little over its limit."""
AUTHORITY = ("ask", "nothing")
"""Whether the authority is to be asked of something; `nothing`: what is open was only not measured."""
_LATER = "opening force to 60 deg"
_FORCE_RULES = {"opening force", "way out", "opening force to 30 deg", _LATER}
"""Rules that only limit the force to open it."""
_SAID = {
    "pass": "No rule fails.",
    "decide": "No rule fails, and some are open.",
    "fail": "A rule fails.",
}
"""A verdict as it is said aloud."""


def _access_and_fire(inputs: Mapping[str, Given]) -> Answer:
    code = given(inputs, "rules", str) or USUAL_CODE
    door = JudgedDoor(
        fire=given(inputs, "fire", bool),
        exterior=given(inputs, "exterior", bool),
        way_out=given(inputs, "way_out", bool),
        accessible=given(inputs, "accessible", bool),
        width=given(inputs, "width", Quantity),
        s_90_12=given(inputs, "s_90_12", Quantity),
        s_12_0=given(inputs, "s_12_0", Quantity),
        delay=given(inputs, "delay", Quantity),
        delayed=given(inputs, "delayed", bool),
        force=given(inputs, "force", Quantity),
        force_30_60=given(inputs, "force_30_60", Quantity),
        ibc=given(inputs, "ibc", str) or USUAL_IBC,
        exit_forces=given(inputs, "exit_forces", bool),
        released_by=given(inputs, "released_by", str),
        unlatches=given(inputs, "unlatches", bool),
        valves=given(inputs, "valves", str),
        latches=given(inputs, "latches", bool),
        closes=given(inputs, "closes", bool),
        arm=given(inputs, "arm", str),
        size=given(inputs, "size", int),
        clear=given(inputs, "clear_width", Quantity),
        deep=given(inputs, "deep", bool),
        altered=given(inputs, "altered", bool),
        existing=given(inputs, "existing", bool),
        projects=given(inputs, "projects", Quantity),
        projects_low=given(inputs, "projects_low", bool),
        head_room=given(inputs, "head_room", Quantity),
    )
    rows = judge(code, door)
    verdict = verdict_of(rows)
    told = in_a_sentence(rows)
    hand_over = _hand_over(code, door, {row.rule for row in rows if row.verdict == FAIL})
    working = [told, f"Checked against: {CODES[code]}."]
    if code == USUAL_CODE:
        working.append(f"{IBC_EDITIONS[door.ibc]}.")
    working += [f"{row.rule}: {row.verdict}. {row.told} ({row.citation})" for row in rows]
    if rows:
        working.append(UNCHECKED)
    value: dict[str, Result] = {
        "verdict": verdict,
        "told": told,
        "said": _SAID[verdict],
        "hand_over": hand_over,
        "authority": "ask" if left_to_authority(rows) else "nothing",
        "to_decide": "; ".join(left_to_authority(rows)) or "nothing",
        "rules": code,
        "failed": "; ".join(row.rule for row in rows if row.verdict == "fail") or "nothing",
        "rows": [
            {"rule": r.rule, "verdict": r.verdict, "told": r.told, "citation": r.citation}
            for r in rows
        ],
    }
    return Answer(value, tuple(working), (GOVERNS,))


def _hand_over(code: str, door: JudgedDoor, failed: set[str]) -> str:
    """A small shortfall of the force alone does not keep a door that closes and latches from its owner."""
    if not failed:
        return "yes"
    if not failed <= _FORCE_RULES or door.force is None:
        return "no"
    most = force_limit(
        code,
        fire=bool(door.fire),
        exterior=bool(door.exterior),
        way_out=bool(door.way_out),
        accessible=door.accessible is not False,
    ).most
    small = _little_over(door.force, most)
    if _LATER in failed:
        later = door.force_30_60
        small = small and later is not None and _little_over(later, BRITISH_LATER)
    return "left-to-do" if small else "no"


def _little_over(force: Quantity, most: Quantity) -> bool:
    return force.base <= most.base * (1 + SMALL_SHORTFALL)


def _reading(name: str, kind: str, about: str, most: int, unit: str) -> Input:
    low, high = Quantity(Fraction(0), unit), Quantity(Fraction(most), unit)
    return Input(name, kind, False, about, low=low, high=high)


COMPUTATION = Computation(
    name="access-and-fire",
    about="The final readings checked against access and fire rules, each with its citation.",
    inputs=(
        RULES_INPUT,
        IBC_INPUT,
        Input("fire", "yesno", False, "whether it is a fire door"),
        Input("exterior", "yesno", False, "whether it opens to the weather"),
        Input("way_out", "yesno", False, "whether it is a way out"),
        Input(
            "accessible",
            "yesno",
            False,
            "whether it is on an accessible route",
        ),
        replace(WIDTH_INPUT, required=False),
        _reading("s_90_12", "time", "seconds from 90 to 12 degrees", 120, "s"),
        _reading(
            "s_12_0",
            "time",
            "seconds from 12 degrees to shut; no text here limits it",
            120,
            "s",
        ),
        _reading("delay", "time", "how long a delayed action holds it", 300, "s"),
        Input("delayed", "yesno", False, "whether its delayed action is used"),
        _reading("force", "force", "the most it takes to open, at the handle", 200, "lbf"),
        _reading("force_30_60", "force", "the most it takes from 30 to 60 degrees", 200, "lbf"),
        Input(
            "exit_forces",
            "yesno",
            False,
            "whether 30 lbf start the leaf and 15 lbf open it fully",
        ),
        Input("released_by", "choice", False, "what releases the latch of a way out", RELEASES),
        Input(
            "unlatches",
            "yesno",
            False,
            "whether the latch is released within 15 lbf, or a lever turned within 28 in-lbf",
        ),
        Input("valves", "choice", False, "which valves; the fourth is delayed action", VALVES),
        Input("latches", "yesno", False, "whether it closes and latches from every position"),
        Input(
            "closes",
            "yesno",
            False,
            "whether it closes fully from every position, where tried apart from the latch",
        ),
        Input("arm", "choice", False, "which arm the closer has", ARMS),
        Input("size", "count", False, "EN size it is set to", low=SIZES[0], high=SIZES[1]),
        _reading("clear_width", "length", "clear width, open 90 degrees", 120, "in"),
        Input("deep", "yesno", False, "whether the opening is deeper than 24 in"),
        Input("altered", "yesno", False, "whether the opening is being altered, not new"),
        Input("existing", "yesno", False, "whether it is an existing door in an existing building"),
        _reading(
            "projects", "length", "what projects into it, 34 to 80 in above the floor", 48, "in"
        ),
        Input("projects_low", "yesno", False, "whether anything projects into it below 34 in"),
        _reading("head_room", "length", "floor to the lowest part of the closer", 240, "in"),
    ),
    output=Output(
        "mapping",
        (
            *("verdict", "told", "said", "hand_over"),
            *("authority", "to_decide", "rules", "failed", "rows"),
        ),
        labels=(
            ("verdict", VERDICTS),
            ("hand_over", HAND_OVER),
            ("authority", AUTHORITY),
            ("rules", tuple(CODES)),
        ),
    ),
    compute=_access_and_fire,
    source=(
        "2010 ADA Standards; NFPA 80; International Building Code 1010.1.3; NFPA 101; BS 8300 and"
        " Approved Documents B and M; EN 1154; French order of 1 August 2006"
    ),
    example="rules=us accessible=yes exterior=no fire=no s_90_12='5.6 s' force='4.8 lbf'",
)
