"""`tune`: the next screw to turn, from what a person read of the door's swings.

Readings come as a line of text each, or as JSON one at a time; both are checked here.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from guide.measures import MeasureError, Quantity, parse
from guide.trade.answer import Answer, BadInput, Result
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet, needed
from guide.trade.inputs import HEIGHT_INPUT, WIDTH_INPUT
from guide.trade.mounts import SIZES
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.sheet import Sheet
from guide.trade.swing.swing import MASS_INPUT, MOUNT_INPUT, SIZE_INPUT, size_of
from guide.trade.tuning.adviser import Adviser
from guide.trade.tuning.nominal_door import USUAL_HEIGHT, NominalLeaf
from guide.trade.tuning.readings import Advice, SwingReading, Travel
from guide.trade.tuning.screw_words import told

LONGEST_READ = 600.0
"""[s]; anything longer is a slip of the pen."""

_YES, _NO, _NONE = ("yes", "y", "true"), ("no", "n", "false"), ("", "-", "none", "null")

_FORM = (
    "write it as 5.9,1.5,yes,no,4.8 lbf,yes: seconds, seconds, latched, slammed, force, and whether it was let go"
    " from 45 and 10 degrees too"
)

CAUTIONS = (
    "Screws as their labels and the maker's sheet say, and never past the turns the sheet gives.",
    "Delayed action closed off before anything is timed; two full swings before judging.",
    "A hand on the leaf for the first swing after any change, fingers clear of the hinge edge and elbow.",
    "Let it go from 90, from 45 and from 10 degrees, and enter the worst of the three.",
    "The adviser was tried on a model, not on real closers.",
    "On a fire door closing and latching come first; the listing, the local code and the authority decide.",
)


def begin(inputs: Mapping[str, Given]) -> Adviser:
    """An adviser for the door described. OutOfDomain unless its size is a whole or half EN size."""
    limit = given(inputs, "limit", Quantity)
    most = None if limit is None else float(limit.base)
    travel = travel_of(given_sheet(inputs))
    return Adviser(leaf_of(inputs), size_of(inputs), most, travel=travel)


def leaf_of(inputs: Mapping[str, Given]) -> NominalLeaf:
    """The leaf by `width`, `mount`, `height` and `mass`."""
    height, mass = (given(inputs, name, Quantity) for name in ("height", "mass"))
    return NominalLeaf(
        width=float(needed(inputs, "width", Quantity).to("m").magnitude),
        mount=needed(inputs, "mount", str),
        height=USUAL_HEIGHT if height is None else float(height.to("m").magnitude),
        mass=None if mass is None else float(mass.base),
    )


def travel_of(sheet: Sheet | None) -> Travel:
    """How far the screws go by the sheet; without one, as far as any."""
    if sheet is None:
        return Travel(SIZES)
    turns = {one.name: one.turns for one in sheet.screws}
    return Travel(sheet.sizes, turns.get("sweep"), turns.get("latch"))


def read_line(text: str) -> SwingReading:
    """A reading as typed, `t1,t2,latched,slammed,force,near`; BadInput with a sentence.

    A time that never came, and a force that was not measured, are - or left empty.
    """
    parts = [part.strip() for part in text.split(",")]
    if not 4 <= len(parts) <= 6:
        raise BadInput(f"“{text[:60]}” is not a reading: {_FORM}.")
    first, last, latched, slammed, force, near = (*parts, *("", "")[: 6 - len(parts)])
    return _checked(
        SwingReading(
            _typed_seconds(first),
            _typed_seconds(last),
            _yes_or_no(latched),
            _yes_or_no(slammed),
            _typed_force(force),
            from_near=near not in _NONE and _yes_or_no(near),
        )
    )


def read_json(data: object) -> SwingReading:
    """A reading as JSON, keys as `swing` answers them and `slammed`; BadInput with a sentence."""
    if not isinstance(data, dict):
        raise BadInput("A reading is a JSON object with s_90_12, s_12_0, latched and slammed.")
    missing = [key for key in ("s_90_12", "s_12_0", "latched", "slammed") if key not in data]
    if missing:
        raise BadInput(f"The reading lacks {', '.join(missing)}; null where a time never came.")
    for key in ("latched", "slammed", "from_near"):
        if not isinstance(data.get(key, False), bool):
            raise BadInput(f"{key} must be true or false.")
    times = []
    for key in ("s_90_12", "s_12_0"):
        value = data[key]
        if isinstance(value, bool) or not (value is None or isinstance(value, int | float)):
            raise BadInput(f"{key} must be seconds as a number, or null.")
        times.append(None if value is None else float(value))
    force = data.get("open_force")
    if isinstance(force, dict):
        force = f"{force.get('magnitude')} {force.get('unit')}"
    if not (force is None or isinstance(force, str)):
        raise BadInput("open_force must be text with its unit, such as “4.8 lbf”, or null.")
    return _checked(
        SwingReading(
            times[0],
            times[1],
            data["latched"],
            data["slammed"],
            _typed_force(force or ""),
            from_near=data.get("from_near", False),
        )
    )


def advice_json(advice: Advice, sheet: Sheet | None = None) -> dict[str, Result]:
    """The advice as plain data; `text` says what to turn, which way and how far, by the sheet where there is one."""
    moves: list[Result] = []
    for move in advice.moves:
        amount = "half_sizes" if move.part == "spring" else "quarter_turns"
        steps = int(move.steps) if move.steps == int(move.steps) else move.steps
        moves.append({"part": move.part, "direction": move.direction, amount: steps})
    return {
        "moves": moves,
        "done": advice.done,
        "impossible": advice.impossible,
        "outcome": advice.outcome,
        "text": told(advice, sheet),
        "reason": advice.reason,
    }


def _checked(reading: SwingReading) -> SwingReading:
    for seconds in (reading.s_90_12, reading.s_12_0):
        if seconds is not None and not 0 < seconds <= LONGEST_READ:
            raise BadInput(f"{seconds:g} s is not the time of a swing; read the watch again.")
    if reading.latched and (reading.s_90_12 is None or reading.s_12_0 is None):
        raise BadInput(
            "A leaf that latched has both its times: give them, or say it did not latch."
        )
    if reading.s_90_12 is None and reading.s_12_0 is not None:
        return replace(reading, s_12_0=None)
    return reading


def _typed_seconds(text: str) -> float | None:
    if text.lower() in _NONE:
        return None
    try:
        return float(parse(text, "time").base)
    except MeasureError as error:
        raise BadInput(f"{error} In a reading, {_FORM}.") from error


def _typed_force(text: str) -> float | None:
    if text.strip().lower() in _NONE:
        return None
    try:
        return float(parse(text, "force").base)
    except MeasureError as error:
        raise BadInput(str(error)) from error


def _yes_or_no(text: str) -> bool:
    if text.lower() in _YES:
        return True
    if text.lower() in _NO:
        return False
    raise BadInput(f"“{text[:40]}” is neither yes nor no; {_FORM}.")


def _tune(inputs: Mapping[str, Given]) -> Answer:
    typed = given(inputs, "reading", str)
    if not typed:
        raise BadInput(f"tune needs reading=; {_FORM}.")
    adviser, sheet = begin(inputs), given_sheet(inputs)
    working = []
    advice = None
    for number, line in enumerate(_lines(typed), 1):
        advice = adviser.next(read_line(line))
        working.append(f"Test {number}: {told(advice, sheet)} {advice.reason}")
        if advice.done or advice.impossible:
            break
    if advice is None:
        raise BadInput(f"tune needs reading=; {_FORM}.")
    cautions: tuple[str, ...] = CAUTIONS
    if adviser.limit is None:
        cautions = ("No limit= was given: the force to open was not judged.", *cautions)
    return Answer(advice_json(advice, sheet), tuple(working), cautions)


def _lines(text: str) -> Iterator[str]:
    return (line for line in text.splitlines() if line.strip())


COMPUTATION = Computation(
    name="tune",
    about="The next screw to turn, which way and how far, from the tests of a door so far.",
    inputs=(
        WIDTH_INPUT,
        MOUNT_INPUT,
        replace(SIZE_INPUT, about="EN size the spring stood at before the first test"),
        replace(MASS_INPUT, required=False),
        replace(HEIGHT_INPUT, required=False),
        Input(
            "limit",
            "force",
            False,
            "most it may take to open, at the handle; not judged if left out",
            low=Quantity(Fraction(1), "lbf"),
            high=Quantity(Fraction(60), "lbf"),
        ),
        Input(
            "reading",
            "text",
            False,
            "seconds from 90 to 12 degrees, seconds for the last 12, latched, slammed, force, and yes"
            " if let go from 45 and 10 degrees too; once for each test, oldest first",
        ),
        replace(SHEET_INPUT, required=False),
    ),
    output=Output("mapping", ("moves", "done", "impossible", "outcome", "text", "reason")),
    compute=_tune,
    source=(
        "2010 ADA Standards 404.2.8.1 for the 5 s; common practice for how far a valve is turned;"
        " the rest ours"
    ),
    example="width='36 in' mount=regular size=3 limit='5 lbf' reading='4.2,1.5,yes,no,6.8 lbf'",
)
