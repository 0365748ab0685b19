"""`access-and-fire`: the final readings of a door held against the rules of one code."""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.answer import Answer, Result
from guide.trade.computation import Computation, Given, Input, Output, given
from guide.trade.mounts import SIZES
from guide.trade.rules import CODES, GOVERNS, Door, held_against, verdict_of

ARMS = ("plain", "hold-open", "stop", "heavy")
VERDICTS = ("pass", "decide", "fail")
USUAL_CODE = "us"
_IN_ALL = {
    "pass": "Nothing fails.",
    "decide": "Nothing fails; what is left open is for the authority, or is still to be measured.",
    "fail": "A rule is broken: do not hand the door over as it is.",
}


def _access_and_fire(inputs: Mapping[str, Given]) -> Answer:
    code = given(inputs, "rules", str) or USUAL_CODE
    door = Door(
        fire=given(inputs, "fire", bool),
        exterior=given(inputs, "exterior", bool),
        way_out=given(inputs, "way_out", bool),
        s_90_12=given(inputs, "s_90_12", Quantity),
        s_12_0=given(inputs, "s_12_0", Quantity),
        force=given(inputs, "force", Quantity),
        latches=given(inputs, "latches", bool),
        arm=given(inputs, "arm", str),
        size=given(inputs, "size", int),
        clear=given(inputs, "clear_width", Quantity),
        head_room=given(inputs, "head_room", Quantity),
    )
    rows = held_against(code, door)
    verdict = verdict_of(rows)
    working = [f"{_IN_ALL[verdict]} Held against: {CODES[code]}."]
    working += [f"{row.rule}: {row.verdict}. {row.told} ({row.citation})" for row in rows]
    value: dict[str, Result] = {
        "verdict": verdict,
        "rules": code,
        "failed": "; ".join(row.rule for row in rows if row.verdict == "fail") or "nothing",
        "rows": [
            {"rule": r.rule, "verdict": r.verdict, "told": r.told, "citation": r.citation}
            for r in rows
        ],
    }
    return Answer(value, tuple(working), (GOVERNS,))


def _reading(name: str, kind: str, about: str, most: int, unit: str) -> Input:
    low, high = Quantity(Fraction(0), unit), Quantity(Fraction(most), unit)
    return Input(name, kind, False, about, low=low, high=high)


COMPUTATIONS = (
    Computation(
        name="access-and-fire",
        about="The final readings held against access and fire rules, each with its citation.",
        inputs=(
            Input(
                "rules",
                "choice",
                False,
                "whose rules; in a run those of the settings, else us",
                tuple(CODES),
            ),
            Input("fire", "yesno", False, "whether it is a fire door"),
            Input("exterior", "yesno", False, "whether it opens to the weather"),
            Input("way_out", "yesno", False, "whether it is a way out"),
            _reading("s_90_12", "time", "seconds from 90 to 12 degrees", 120, "s"),
            _reading("s_12_0", "time", "seconds from 12 degrees to shut", 120, "s"),
            _reading("force", "force", "the most it takes to open, at the handle", 200, "lbf"),
            Input("latches", "yesno", False, "whether it closes and latches from every position"),
            Input("arm", "choice", False, "which arm the closer has", ARMS),
            Input("size", "count", False, "EN size it stands at", low=SIZES[0], high=SIZES[1]),
            _reading("clear_width", "length", "clear width, open 90 degrees", 120, "in"),
            _reading("head_room", "length", "floor to the lowest part of the closer", 240, "in"),
        ),
        output=Output(
            "mapping",
            ("verdict", "rules", "failed", "rows"),
            labels=(("verdict", VERDICTS), ("rules", tuple(CODES))),
        ),
        compute=_access_and_fire,
        source=(
            "2010 ADA Standards; NFPA 80; International Building Code 1010 and NFPA 101 (from memory); BS 8300 and"
            " Approved Document M; EN 1154"
        ),
    ),
)
