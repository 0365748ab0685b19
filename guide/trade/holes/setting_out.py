"""`setting-out`: every answer about the holes of one opening, as the parts of one answer."""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.answer import Answer, Result
from guide.trade.computation import (
    Computation,
    Extent,
    Given,
    Input,
    Output,
    Ranged,
    given,
    given_sheet,
)
from guide.trade.door.handing import SIDES
from guide.trade.holes.accessories import PLATES
from guide.trade.holes.advice import PART_LABELS
from guide.trade.holes.fixing import KINDS
from guide.trade.holes.inputs import UNITS_INPUT
from guide.trade.holes.layout import SOFFIT, ReferencePoint, to_mark
from guide.trade.holes.opening import (
    NUMBERS,
    OPENING_INPUTS,
    TEMPLATES,
    TYPED_INPUTS,
    opening_of,
    typed_of,
)
from guide.trade.holes.rows import (
    carried_over,
    drill_sentence,
    holding,
    pattern_words,
    place_on,
    row_that_covers,
    rows,
    screws_sentence,
    sure_holes,
)
from guide.trade.holes.set_out import MOST_ALONG, REFUSALS, SOURCES, SettingOut, set_out
from guide.trade.mounts import BODY_INTO, SHOE_INTO
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.parts import ACCESSORY_KINDS, SIDES_OF_BODY

STRAIGHT_ON = "none-needed"
"""Body or shoe without an accessory under it."""
CARRIES = (STRAIGHT_ON, *ACCESSORY_KINDS)

MARKED = ("by-numbers", "through-part")
"""Whether each hole has its numbers, or body and shoe themselves are held up and show where their holes are."""

_GROUPS = {"leaf": "leaf", "frame": "frame face", "soffit": "soffit"}
"""The names of parts of the answer, and of what the holes go into."""
_OF_A_GROUP = ("holes", "holes_at", "marked", "fixing", "drill", "fasteners", "held_by")
"""What is answered for each, and for the frame's head: its face, or its soffit on a parallel arm."""
_LINE_LABELS = {"hinge pin centre": "pin", "hinge edge": "edge"}
_DATUM_LABELS = {"underside of the stop": "stop", "top of the leaf": "top"}


TEMPLATE_INPUT = Input(
    "template",
    "choice",
    False,
    "what is at hand beside the sheet: the paper from the box, its numbers, or neither",
    TEMPLATES,
)


def setting_out_of(inputs: Mapping[str, Given]) -> tuple[SettingOut, str]:
    """The setting-out of a computation's inputs, and the units of the job."""
    sheet = given_sheet(inputs)
    units = given(inputs, "units", str) or ("inch" if sheet is None else sheet.units)
    paper = given(inputs, "template", str)
    return set_out(opening_of(inputs), sheet, typed_of(inputs), paper, units), units


def _setting_out(inputs: Mapping[str, Given]) -> Answer:
    so, units = setting_out_of(inputs)
    return Answer(_parts(so, units), _working(so, units), so.cautions)


def _parts(so: SettingOut, units: str) -> dict[str, Result]:
    mount = so.opening.mount
    shown = so.layout
    body, shoe = so.body, so.shoe
    found: dict[str, Result] = {
        "source": so.source,
        "refusal": so.refusal,
        "why": so.why or None,
        "to_ask": ", ".join(so.to_ask) or None,
        "plate": so.plate.verdict,
        "plate_told": so.plate.told or _no_plate(so),
        "accessory": _carried(so, None),
        "body_accessory": _carried(so, "body"),
        "shoe_accessory": _carried(so, "shoe"),
        "accessory_name": ", ".join(one.name for one in so.accessories.found) or None,
        "row": row_that_covers(so) or None,
        "along_line": None if shown is None else _LINE_LABELS[shown.along_from],
        "datum_line": None if shown is None else _DATUM_LABELS[shown.datum],
        "carried": carried_over(so, units) or None,
        "body_on": None if mount is None else PART_LABELS[BODY_INTO[mount]],
        "shoe_on": None if mount is None else PART_LABELS[SHOE_INTO[mount]],
        "hinges_on_your": so.hinges,
        "valves_toward": so.valves_toward,
        "preset": so.preset,
        "beware": " ".join(so.beware) or None,
    }
    for of, line in (("body", body), ("shoe", shoe)):
        found |= _numbers(so, of, line, units)
    for name, part in _GROUPS.items():
        found[f"holes_{name}"] = sure_holes(so, part) if so.holes else None
        there = so.refusal == "go-on" and so.layout is not None and part in dict(so.fixings)
        found[f"holes_at_{name}"] = pattern_words(so, name, units) if there else None
        found[f"marked_{name}"] = "by-numbers" if so.group(name) else "through-part"
        found[f"fixing_{name}"] = so.fixing(part).kind
        found[f"drill_{name}"] = drill_sentence(so, part, units) or None
        found[f"fasteners_{name}"] = screws_sentence(so, part, units) or None
        found[f"held_by_{name}"] = holding(so, part) or None
    head = "soffit" if mount is not None and SHOE_INTO[mount] == SOFFIT else "frame"
    return found | {f"{what}_head": found[f"{what}_{head}"] for what in _OF_A_GROUP}


def _no_plate(so: SettingOut) -> str:
    if so.sheet is None:
        return "No sheet is loaded that would say whether a drop plate is needed."
    return "The sheet has no drop plate for this mount."


def _numbers(so: SettingOut, of: str, line: ReferencePoint | None, units: str) -> dict[str, Result]:
    shown = None if line is None or so.refusal != "go-on" else line
    return {
        f"{of}_along": None if shown is None else to_mark(shown.along, units),
        f"{of}_across": None if shown is None else to_mark(shown.across, units),
        f"{of}_along_from": None if shown is None or so.along is None else so.along.name,
        f"{of}_across_from": None if shown is None else shown.across_from,
        f"{of}_direction": None if shown is None else shown.direction,
        f"{of}_place": None if shown is None else place_on(so, shown, units),
    }


def _carried(so: SettingOut, of: str | None) -> str:
    """The kind of accessory under body or shoe, or under either."""
    kinds = [one.kind for one in so.accessories.found if of in (None, one.carries)]
    kinds += [
        one.kind
        for one in so.accessories.needs
        if of in (None, one.carries) and so.accessories.missing and one.kind not in kinds
    ]
    return kinds[0] if kinds else STRAIGHT_ON


def _working(so: SettingOut, units: str) -> tuple[str, ...]:
    if so.refusal != "go-on":
        return (so.why,)
    found = [row_that_covers(so), carried_over(so, units)]
    if so.layout is not None and so.body is not None and so.shoe is not None:
        found += [f"Body: {place_on(so, so.body, units)}."]
        found += [f"Shoe: {place_on(so, so.shoe, units)}."]
        found += [one.text for one in rows(so, None, units)]
    for name, part in _GROUPS.items():
        words = drill_sentence(so, part, units)
        found.append(f"{name.capitalize()}: {words}." if words else "")
    return tuple(one for one in found if one)


_LABELS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("source", SOURCES),
    ("refusal", REFUSALS),
    ("plate", PLATES),
    ("accessory", CARRIES),
    ("body_accessory", CARRIES),
    ("shoe_accessory", CARRIES),
    ("along_line", tuple(_LINE_LABELS.values())),
    ("datum_line", tuple(_DATUM_LABELS.values())),
    ("body_on", ("leaf", "frame")),
    ("shoe_on", tuple(PART_LABELS.values())),
    ("hinges_on_your", SIDES),
    ("valves_toward", SIDES_OF_BODY),
    ("body_direction", ("down", "up")),
    ("shoe_direction", ("down", "up", "out")),
    *((f"marked_{name}", MARKED) for name in (*_GROUPS, "head")),
    *((f"fixing_{name}", KINDS) for name in (*_GROUPS, "head")),
)
_COUNTS = tuple(f"holes_{name}" for name in (*_GROUPS, "head"))
_LENGTHS = NUMBERS
_TEXTS = (
    *("why", "to_ask", "plate_told", "accessory_name", "row", "carried", "preset", "beware"),
    *(f"{of}_{what}" for of in ("body", "shoe") for what in ("along_from", "across_from", "place")),
    *(
        f"{what}_{name}"
        for what in ("holes_at", "drill", "fasteners", "held_by")
        for name in (*_GROUPS, "head")
    ),
)


def _extent(inputs: Ranged, part: str) -> Extent:
    """Every length of the answer is on the door; anything else is refused."""
    if part in _LENGTHS:
        return Extent(Quantity(Fraction(0), "in"), Quantity(MOST_ALONG, "in"))
    return Extent(None, None)


COMPUTATION = Computation(
    name="setting-out",
    about="Where every hole goes and what it takes, by the sheet, the paper or typed numbers.",
    inputs=(
        Input(SHEET_INPUT.name, "sheet", False, SHEET_INPUT.about),
        *OPENING_INPUTS,
        TEMPLATE_INPUT,
        *TYPED_INPUTS,
        UNITS_INPUT,
    ),
    output=Output(
        "mapping",
        (*(name for name, _ in _LABELS), *_COUNTS, *_LENGTHS, *_TEXTS),
        counts=_COUNTS,
        labels=_LABELS,
        measures=tuple((name, "length") for name in _LENGTHS),
    ),
    compute=_setting_out,
    extent=_extent,
    source="the maker's sheet, as its owner copied it; plane geometry; common practice",
    example="sheet=generic-a mount=regular knuckles=left hinge=butt opening='100 deg' room=fits",
)
