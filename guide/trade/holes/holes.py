"""`holes`: every hole of a closer's sheet on one opening, from datums named in words."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import partial

from guide.measures import write
from guide.trade.answer import Answer, BadInput, NoAnswer, Result
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet
from guide.trade.door.hinges import HINGE_WORDS, pivot_offset
from guide.trade.holes.advice import shift_sentences, template_words
from guide.trade.holes.distances import (
    HEADROOM,
    Near,
    Surroundings,
    body_meets_hardware,
    body_past_hinge_edge,
    distances,
    head_clearance,
    how_near,
    too_near,
)
from guide.trade.holes.inputs import (
    ALONG_WORDS,
    DATUM_WORDS,
    HINGE_INPUT,
    MOUNT_INPUT,
    RANGE_INPUT,
    SHEET_INPUT,
    UNITS_INPUT,
    HoleRequest,
    inches_of,
    knuckles_of,
    read_request,
)
from guide.trade.holes.layout import Layout, other_way_up, to_mark
from guide.trade.holes.opening import OPENING_INPUTS, TYPED_INPUTS, opening_of, typed_of
from guide.trade.holes.rows import Row, carried_over, drill_sentence, row_that_covers, rows
from guide.trade.holes.set_out import SettingOut, set_out, surroundings
from guide.trade.inputs import optional_length
from guide.trade.mounts import MOUNT_WORDS

_GOVERNS = "The maker's own sheet governs: compare these numbers with it before drilling."


def _holes(inputs: Mapping[str, Given]) -> Answer:
    knuckles_of(inputs)
    sheet = given_sheet(inputs)
    request = None if sheet is None else read_request(inputs)
    units = given(inputs, "units", str) or ("inch" if sheet is None else sheet.units)
    told = partial(_told, units=units)
    so = set_out(opening_of(inputs), sheet, typed_of(inputs), units=units, lines=_lines(inputs))
    if request is not None:
        _say_what_a_template_does(so, request)
    layout, placed = so.check(), so.drilled()
    around = _surroundings(inputs, so)
    found = rows(so, None, units)
    notes = [_facing(so), _datums(so, told), carried_over(so, units)]
    notes += [_drills(so, units, part) for part in ("leaf", "frame face", "soffit")]
    notes.append(how_near(layout, placed, around, told))
    cautions = [_GOVERNS, *so.cautions, *too_near(layout, placed, around, told)]
    if request is not None:
        notes += shift_sentences(request)
        notes += [part.told for part in request.sheet.accessories_for(request.mount)]
        cautions += _body_cautions(request, so, layout, around)
    notes = [note for note in notes if note]
    value = [_row(units, row, distances(layout, row.hole, around)) for row in found]
    working = (*(row.text for row in found), *notes)
    return Answer({"holes": value, "notes": notes}, working, tuple(dict.fromkeys(cautions)))


def _told(inches: Fraction, units: str) -> str:
    """A length [in] for a sentence, to what a mark is given to."""
    return write(to_mark(inches, units))


def _say_what_a_template_does(so: SettingOut, request: HoleRequest) -> None:
    """NoAnswer with what a standard template would do on a hinge that it does not suit."""
    if so.refusal == "needs-special":
        raise NoAnswer(f"{so.why} {template_words(request)}")


def _lines(inputs: Mapping[str, Given]) -> tuple[str | None, str | None]:
    """The lines asked for, along and up or down; those in view where none was."""
    along, datum = given(inputs, "along_from", str), given(inputs, "datum", str)
    return (
        None if along is None else ALONG_WORDS[along],
        None if datum is None else DATUM_WORDS[datum],
    )


def _drills(so: SettingOut, units: str, part: str) -> str:
    words = drill_sentence(so, part, units)
    return f"{part[:1].upper()}{part[1:]}: {words}." if words else ""


def _surroundings(inputs: Mapping[str, Given], so: SettingOut) -> Surroundings:
    """What is known around the holes, along from where the setting-out measures."""
    moved = Fraction(0) if so.along is None else so.along.offset

    def pair(start: str, end: str) -> tuple[Fraction | None, Fraction | None]:
        first, last = inches_of(inputs, start), inches_of(inputs, end)
        if first is not None and last is not None and first >= last:
            raise BadInput(
                f"{start} must be nearer to the hinge than {end}; change them over, or measure again."
            )
        return _less(first, moved), _less(last, moved)

    hardware = pair("hardware_from", "hardware_to")
    if (hardware[0] is None) != (hardware[1] is None):
        raise BadInput("hardware_from and hardware_to go together; give both.")
    return replace(
        surroundings(so.opening),
        reinforced=pair("reinforced_from", "reinforced_to"),
        hardware=hardware,
    )


def _less(length: Fraction | None, moved: Fraction) -> Fraction | None:
    return None if length is None else length - moved


def _row(units: str, row: Row, near: tuple[Near, ...]) -> dict[str, Result]:
    clear: dict[str, Result] = {one.what: to_mark(one.distance, units) for one in near}
    return {
        "name": row.hole.name,
        "of": row.hole.of,
        "part": row.hole.part,
        "kind": row.hole.kind,
        "only_if": row.hole.only_if or None,
        "fixing": row.hole.fixing.kind,
        "drill": row.drill,
        "holds": row.hole.fixing.holds or None,
        "fixing_by": row.hole.fixing.source or None,
        "along": row.along,
        "along_from": row.along_from,
        "across": row.across,
        "across_from": row.across_from,
        "direction": row.direction,
        "clear": clear,
    }


def _facing(so: SettingOut) -> str:
    mount = so.opening.mount or ""
    side = "pull" if mount == "regular" else "push"
    to = "right" if so.hinges == "left" else "left"
    by = "By the typed numbers" if so.sheet is None else so.sheet.sheet
    valves = (
        "" if so.valves_toward is None else f", and the valves point to the {so.valves_toward} edge"
    )
    return (
        f"{by}, {row_that_covers(so) or MOUNT_WORDS[mount]}: stand on the {side} side, hinges on your"
        f" {so.hinges}; every number along runs to your {to}{valves}."
    )


def _datums(so: SettingOut, told: Callable[[Fraction], str]) -> str:
    if so.by_sheet is None:
        return ""
    hinge = so.opening.hinge or "butt"
    edge = pivot_offset(hinge, so.opening.usual_thickness).edge
    way = "toward the latch" if edge >= 0 else "toward the hinge jamb"
    return (
        f"The sheet measures along from the {so.by_sheet.along_from} and up or down from the"
        f" {so.by_sheet.datum}; on {HINGE_WORDS[hinge]} the hinge edge is"
        f" {told(abs(edge))} {way} from the pivot."
    )


def _body_cautions(
    request: HoleRequest, so: SettingOut, layout: Layout, around: Surroundings
) -> list[str]:
    body = request.sheet.body
    if body is None:
        return []
    found = []
    ends = body.valve_end.base, body.other_end.base
    hinge, latch = ends if so.valves_toward == "hinge" else ends[::-1]
    past = body_past_hinge_edge(layout, hinge, around)
    if past is not None:
        found.append(
            f"The body would stand {request.told(past)} past the hinge edge of the leaf: choose a"
            " smaller opening or another mount."
        )
    if body_meets_hardware(layout, (hinge, latch), around):
        found.append(
            "The body would cover part of the other hardware along the door: check that one clears"
            " the other in height, or choose another place."
        )
    room = head_clearance(layout, body.height.base, around)
    if room is not None and room < HEADROOM:
        found.append(
            f"The body hangs to {request.told(room)} above the leaf's lower edge: measure from the"
            f" floor, and keep {request.told(HEADROOM)} (ADA 307.4, United States)."
        )
    odd = other_way_up(body)
    if odd is not None:
        found.append(
            f"Turned end for end for the other hand, the body has no hole for {odd}: hold the body"
            " itself to the marks."
        )
    return found


def _along(name: str, about: str) -> Input:
    return optional_length(name, f"{about}, along from where the sheet measures", *_ANYWHERE)


_ANYWHERE = (Fraction(0), Fraction(120))

COMPUTATION = Computation(
    name="holes",
    about="Every hole of the sheet, or of typed numbers, for hand, mount, opening and hinge, from named datums.",
    inputs=(
        replace(SHEET_INPUT, required=False),
        MOUNT_INPUT,
        HINGE_INPUT,
        RANGE_INPUT,
        *(one for one in OPENING_INPUTS if one.name not in ("mount", "hinge", "opening")),
        *TYPED_INPUTS,
        _along("reinforced_from", "start of the reinforcement under the body"),
        _along("reinforced_to", "end of the reinforcement under the body"),
        _along("hardware_from", "start of other hardware on the head"),
        _along("hardware_to", "end of other hardware on the head"),
        Input(
            "along_from",
            "choice",
            False,
            "measure along from the pin centre or the hinge edge; the line in view if left out",
            tuple(ALONG_WORDS),
        ),
        Input(
            "datum",
            "choice",
            False,
            "measure up and down from the stop or the top of the leaf; the line in view if left out",
            tuple(DATUM_WORDS),
        ),
        UNITS_INPUT,
    ),
    output=Output("mapping", ("holes", "notes")),
    compute=_holes,
    source="the maker's sheet, as its owner copied it; plane geometry; common practice",
    example="sheet=generic-a mount=regular range='100 deg' knuckles=left hinge=butt room=fits",
)
