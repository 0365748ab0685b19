"""Access and fire rules that a closer's final readings are held against, each with its citation.

Which rules apply is a setting of the person: a country and the editions named here. The local code and the authority
having jurisdiction govern; the verdicts only say what these texts say. A citation that was not read again while this
was written says “from memory”.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from guide.measures import Quantity, show

PASS, FAIL, NOT_APPLICABLE, DECIDES, NOT_MEASURED = (
    "pass",
    "fail",
    "not applicable",
    "authority decides",
    "not measured",
)

CODES = {
    "us": (
        "United States: 2010 ADA Standards; NFPA 80; International Building Code 1010 and NFPA 101 in outline, in the"
        " edition that is adopted"
    ),
    "uk": "United Kingdom: Approved Document M and BS 8300-2 of 2018; EN 1154",
    "eu": "Europe: EN 1154 of 1996 with its amendment of 2002; each country's own access rules",
    "none": "no rules are held against the readings",
}
"""What each setting means."""

GOVERNS = "Local code and the authority having jurisdiction govern."

HOLD_OPEN = "hold-open"


@dataclass(frozen=True, slots=True)
class Door:
    """What is known of a door that is to be handed over; None for what was not asked or not measured."""

    fire: bool | None = None
    exterior: bool | None = None
    way_out: bool | None = None
    s_90_12: Quantity | None = None
    s_12_0: Quantity | None = None
    force: Quantity | None = None
    latches: bool | None = None
    """Whether it closes and latches by itself from every position."""
    arm: str | None = None
    size: int | None = None
    clear: Quantity | None = None
    """Clear width, the door open 90 degrees."""
    head_room: Quantity | None = None
    """From the floor to the lowest part of the closer."""


@dataclass(frozen=True, slots=True)
class Held:
    """One rule held against one door."""

    rule: str
    verdict: str
    told: str
    """One sentence: the reading, the limit."""
    citation: str


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of one code."""

    name: str
    code: str
    citation: str
    judge: Callable[[Door], tuple[str, str]]
    """Verdict and sentence."""


def held_against(code: str, door: Door) -> tuple[Held, ...]:
    """Every rule of a code, held against a door. KeyError for a code that is not in CODES."""
    CODES[code]
    return tuple(
        Held(rule.name, *rule.judge(door), rule.citation) for rule in RULES if rule.code == code
    )


def verdict_of(rows: tuple[Held, ...]) -> str:
    """All rows in one word: `fail` where any fails, `decide` where any is left open, else `pass`."""
    verdicts = {row.verdict for row in rows}
    if FAIL in verdicts:
        return "fail"
    return "decide" if verdicts & {DECIDES, NOT_MEASURED} or not rows else "pass"


def _quantity(text: int | str, unit: str) -> Quantity:
    return Quantity(Fraction(text), unit)


def _said(value: Quantity, limit: Quantity) -> str:
    """A reading in the unit of its limit, as a person would write it."""
    return show(value, "metric" if limit.unit in ("mm", "N") else "inch")


def _at_least(value: Quantity | None, limit: Quantity, what: str) -> tuple[str, str]:
    if value is None:
        return NOT_MEASURED, f"{what} was not measured; it is to be at least {limit}."
    words = f"{what} {_said(value, limit)}, to be at least {limit}."
    return (PASS if value >= limit else FAIL), words


def _at_most(value: Quantity | None, limit: Quantity, what: str) -> tuple[str, str]:
    if value is None:
        return NOT_MEASURED, f"{what} was not measured; it is to be at most {limit}."
    words = f"{what} {_said(value, limit)}, to be at most {limit}."
    return (PASS if value <= limit else FAIL), words


def _not(reason: str) -> tuple[str, str]:
    return NOT_APPLICABLE, reason


def _closing_time(door: Door) -> tuple[str, str]:
    return _at_least(door.s_90_12, _quantity(5, "s"), "Closing from 90 to 12 degrees took")


def _light_to_open(door: Door) -> tuple[str, str]:
    reading = f"The force was {door.force}." if door.force is not None else "It was not measured."
    if door.fire is None or door.exterior is None:
        return NOT_MEASURED, "Whether it is a fire door or an outside door was not asked."
    if door.fire:
        return DECIDES, f"{reading} A fire door: the least force that the authority allows."
    if door.exterior:
        return DECIDES, f"{reading} An outside door: this standard sets no limit; a local code may."
    return _at_most(door.force, _quantity(5, "lbf"), "Opening takes")


def _way_out(door: Door) -> tuple[str, str]:
    if not (door.fire or door.way_out):
        return _not("It is no fire door and no way out.")
    return _at_most(door.force, _quantity(15, "lbf"), "Opening a fire door or a way out takes")


def _shuts_itself(door: Door) -> tuple[str, str]:
    if door.fire is None:
        return NOT_MEASURED, "Whether it is a fire door was not asked."
    if not door.fire:
        return _not("It is no fire door.")
    if door.latches is None:
        return NOT_MEASURED, "Whether it closes and latches by itself was not tried."
    if door.latches:
        return PASS, "It closes and latches by itself from every position tried."
    return FAIL, "A fire door must close and latch by itself from every position."


def _no_hold_open(door: Door) -> tuple[str, str]:
    if door.fire is None:
        return NOT_MEASURED, "Whether it is a fire door was not asked."
    if not door.fire:
        return _not("It is no fire door.")
    if door.arm is None:
        return NOT_MEASURED, "Which arm it has was not asked."
    if door.arm == HOLD_OPEN:
        return (
            FAIL,
            "A hold-open arm may not stay on a fire door; a listed release holds it instead.",
        )
    return PASS, "Nothing on the closer holds the fire door open."


def _clear_width(limit: Quantity) -> Callable[[Door], tuple[str, str]]:
    def judge(door: Door) -> tuple[str, str]:
        if door.clear is None:
            return _not("The clear width was not asked for in this job.")
        return _at_least(door.clear, limit, "The clear width at 90 degrees is")

    return judge


def _head_room(door: Door) -> tuple[str, str]:
    if door.head_room is None:
        return _not("The height under the closer was not asked for here.")
    return _at_least(door.head_room, _quantity(78, "in"), "Under the closer there are")


def _first_thirty(door: Door) -> tuple[str, str]:
    if door.fire:
        reading = f"The force was {door.force}." if door.force is not None else "Not measured."
        return (
            DECIDES,
            f"{reading} A fire door: agree with building control how people get through.",
        )
    verdict, words = _at_most(door.force, _quantity(30, "N"), "Opening from 0 to 30 degrees takes")
    return verdict, words


def _next_thirty(door: Door) -> tuple[str, str]:
    if door.fire:
        return DECIDES, "A fire door: agree with building control how people get through."
    limit = _quantity("22.5", "N")
    if door.force is not None and door.force <= limit:
        return (
            PASS,
            f"The most it took was {_said(door.force, limit)}, so from 30 to 60 degrees too.",
        )
    return NOT_MEASURED, f"From 30 to 60 degrees it is to take at most {limit}; measure it there."


def _strong_enough(door: Door) -> tuple[str, str]:
    if door.fire is None:
        return NOT_MEASURED, "Whether it is a fire door was not asked."
    if not door.fire:
        return _not("It is no fire door.")
    if door.size is None:
        return NOT_MEASURED, "The size the spring stands at is not known; it is to be 3 or more."
    verdict = PASS if door.size >= 3 else FAIL
    return verdict, f"The closer stands at size {door.size}, to be 3 or more on a fire door."


RULES = (
    Rule("closing time", "us", "2010 ADA Standards 404.2.8.1", _closing_time),
    Rule("opening force", "us", "2010 ADA Standards 404.2.9", _light_to_open),
    Rule(
        "way out",
        "us",
        "International Building Code 1010 and NFPA 101 7.2.1.4.5, from memory",
        _way_out,
    ),
    Rule("closes and latches", "us", "NFPA 80", _shuts_itself),
    Rule("no hold-open", "us", "NFPA 80, from memory", _no_hold_open),
    Rule("clear width", "us", "2010 ADA Standards 404.2.3", _clear_width(_quantity(32, "in"))),
    Rule("head room", "us", "2010 ADA Standards 307.4, from memory", _head_room),
    Rule("opening force to 30 deg", "uk", "BS 8300 and Approved Document M", _first_thirty),
    Rule("opening force to 60 deg", "uk", "BS 8300 and Approved Document M", _next_thirty),
    Rule("size on a fire door", "uk", "European practice after EN 1154", _strong_enough),
    Rule("closes and latches", "uk", "common practice for fire doors", _shuts_itself),
    Rule("no hold-open", "uk", "common practice for fire doors", _no_hold_open),
    Rule("size on a fire door", "eu", "European practice after EN 1154", _strong_enough),
    Rule("closes and latches", "eu", "common practice for fire doors", _shuts_itself),
    Rule("no hold-open", "eu", "common practice for fire doors", _no_hold_open),
)
"""Every rule, in the order they are shown."""
