"""`holes`: every hole of a closer's sheet on one opening, from datums named in words."""

from collections.abc import Mapping
from fractions import Fraction

from guide.trade.answer import Answer, BadInput, NoAnswer, Result
from guide.trade.computation import Computation, Given, Input, Output, given
from guide.trade.door.hinges import HINGE_WORDS, STANDARD_TEMPLATE, pivot_offset
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
    HAND_INPUT,
    HINGE_INPUT,
    KNUCKLES_INPUT,
    MOUNT_INPUT,
    OVERLAP_INPUT,
    RANGE_INPUT,
    SHEET_INPUT,
    THICKNESS_INPUT,
    UNITS_INPUT,
    WIDTH_INPUT,
    HoleRequest,
    inches_of,
    knuckles_of,
    read_request,
)
from guide.trade.holes.layout import (
    Layout,
    PlacedHole,
    hinges_in_front,
    lay_out,
    measured_from,
    other_way_up,
    to_mark,
)
from guide.trade.inputs import optional_length

_GOVERNS = "The maker's own sheet governs: compare these numbers with it before drilling."


def _holes(inputs: Mapping[str, Given]) -> Answer:
    request = read_request(inputs)
    special = given(inputs, "special", bool) or False
    hinges = hinges_in_front(request.mount, knuckles_of(inputs))
    if request.hinge == "centre-pivot" and not special:
        raise NoAnswer(
            f"A centre-hung leaf needs the maker's special template. {template_words(request)} Copy"
            " the special template as a sheet and say special=yes."
        )
    edge = pivot_offset(request.hinge, request.thickness).edge
    around = _surroundings(inputs, edge)
    by_sheet = lay_out(request.sheet, request.mount, request.found)
    layout = measured_from(by_sheet, *_start(inputs, by_sheet), edge, around.overlap)
    notes = [_facing(request, hinges), _datums(by_sheet, request, edge)]
    cautions = [_GOVERNS]
    if request.hinge not in STANDARD_TEMPLATE and not special:
        notes.append(template_words(request))
        cautions.insert(
            0,
            f"Get the maker's special template for {HINGE_WORDS[request.hinge]};"
            " do not drill from a standard sheet.",
        )
    nearest = how_near(by_sheet, around, request.told)
    if nearest:
        notes.append(nearest)
    notes += shift_sentences(request)
    notes.append("The drills are for metal; solid wood takes lead holes.")
    if request.sheet.through_bolts:
        notes.append(request.sheet.through_bolts)
    for part in request.sheet.accessories_for(request.mount):
        notes.append(part.told)
    cautions += too_near(by_sheet, around, request.told)
    cautions += _body_cautions(request, by_sheet, around)
    rows = [
        _row(request, layout, hole, distances(by_sheet, exact, around))
        for hole, exact in zip(layout.holes, by_sheet.holes, strict=True)
    ]
    working = (*(_in_words(request, layout, hole) for hole in layout.holes), *notes)
    return Answer({"holes": rows, "notes": notes}, working, tuple(cautions))


def _start(inputs: Mapping[str, Given], layout: Layout) -> tuple[str, str]:
    """The datums wanted, along and up or down; the sheet's where none was."""
    along, datum = given(inputs, "along_from", str), given(inputs, "datum", str)
    return (
        layout.along_from if along is None else ALONG_WORDS[along],
        layout.datum if datum is None else DATUM_WORDS[datum],
    )


def _surroundings(inputs: Mapping[str, Given], edge: Fraction) -> Surroundings:
    def pair(start: str, end: str) -> tuple[Fraction | None, Fraction | None]:
        first, last = inches_of(inputs, start), inches_of(inputs, end)
        if first is not None and last is not None and first >= last:
            raise BadInput(
                f"{start} must be nearer to the hinge than {end}; change them over, or measure again."
            )
        return first, last

    hardware = pair("hardware_from", "hardware_to")
    if (hardware[0] is None) != (hardware[1] is None):
        raise BadInput("hardware_from and hardware_to go together; give both.")
    return Surroundings(
        edge=edge,
        width=inches_of(inputs, "width"),
        height=inches_of(inputs, "height"),
        overlap=inches_of(inputs, "overlap"),
        top_rail=inches_of(inputs, "top_rail"),
        glass=inches_of(inputs, "glass"),
        frame_face=inches_of(inputs, "frame_face"),
        soffit=inches_of(inputs, "soffit"),
        reinforced=pair("reinforced_from", "reinforced_to"),
        hardware=hardware,
    )


def _row(
    request: HoleRequest, layout: Layout, hole: PlacedHole, near: tuple[Near, ...]
) -> dict[str, Result]:
    across, direction = _second(hole)
    clear: dict[str, Result] = {one.what: to_mark(one.distance, request.system) for one in near}
    return {
        "name": hole.name,
        "part": hole.line.part,
        "kind": hole.kind,
        "drill": hole.drill,
        "along": to_mark(hole.along, request.system),
        "along_from": layout.along_from,
        "across": to_mark(across, request.system),
        "across_from": hole.line.across_from,
        "direction": direction,
        "clear": clear,
    }


_OTHER_WAY = {"down": "up", "up": "down", "out": "in"}


def _second(hole: PlacedHole) -> tuple[Fraction, str]:
    """The second number, never below zero, and which way it runs."""
    way = hole.line.direction
    return (hole.across, way) if hole.across >= 0 else (-hole.across, _OTHER_WAY[way])


def _in_words(request: HoleRequest, layout: Layout, hole: PlacedHole) -> str:
    across, direction = _second(hole)
    name = hole.name[0].upper() + hole.name[1:]
    extra = " (extra)" if hole.kind == "extra" else ""
    along = f"{request.told(hole.along)} along from the {layout.along_from}"
    second = f"{request.told(across)} {direction} from the {hole.line.across_from}"
    return f"{name}{extra}, {hole.line.part}: {along}, {second}; {hole.drill}."


def _facing(request: HoleRequest, hinges: str) -> str:
    side = "pull" if request.mount == "regular" else "push"
    to = "right" if hinges == "left" else "left"
    return (
        f"{request.words}: stand on the {side} side, hinges on your {hinges}; every number along runs"
        f" to your {to}, and the valves point to the"
        f" {request.sheet.mount(request.mount).valves_toward} edge."
    )


def _datums(by_sheet: Layout, request: HoleRequest, edge: Fraction) -> str:
    way = "toward the latch" if edge >= 0 else "toward the hinge jamb"
    return (
        f"The sheet measures along from the {by_sheet.along_from} and up or down from the"
        f" {by_sheet.datum}; on {HINGE_WORDS[request.hinge]} the hinge edge is"
        f" {request.told(abs(edge))} {way} from the pivot."
    )


def _body_cautions(request: HoleRequest, layout: Layout, around: Surroundings) -> list[str]:
    body = request.sheet.body
    if body is None:
        return []
    found = []
    ends = body.valve_end.base, body.other_end.base
    hinge, latch = (
        ends if request.sheet.mount(request.mount).valves_toward == "hinge" else ends[::-1]
    )
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
            f" floor, and keep {request.told(HEADROOM)} (ADA 307.4, from memory)."
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
    about="Every hole of the sheet for hand, mount, opening and hinge, from named datums.",
    inputs=(
        SHEET_INPUT,
        MOUNT_INPUT,
        HAND_INPUT,
        KNUCKLES_INPUT,
        HINGE_INPUT,
        RANGE_INPUT,
        Input(
            "special",
            "yesno",
            False,
            "whether the sheet is the maker's special template for this hinge",
        ),
        THICKNESS_INPUT,
        WIDTH_INPUT,
        OVERLAP_INPUT,
        optional_length("height", "height of the leaf", Fraction(36), Fraction(192)),
        optional_length("top_rail", "height of the leaf's top rail", *_ANYWHERE),
        optional_length("glass", "from the top of the leaf down to the glass", *_ANYWHERE),
        optional_length("frame_face", "height of the face of the frame's head", *_ANYWHERE),
        optional_length("soffit", "width of the soffit, out from the leaf", *_ANYWHERE),
        _along("reinforced_from", "start of the reinforcement under the body"),
        _along("reinforced_to", "end of the reinforcement under the body"),
        _along("hardware_from", "start of other hardware on the head"),
        _along("hardware_to", "end of other hardware on the head"),
        Input(
            "along_from",
            "choice",
            False,
            "measure along from the pin centre or the hinge edge; the sheet's if left out",
            tuple(ALONG_WORDS),
        ),
        Input(
            "datum",
            "choice",
            False,
            "measure up and down from the stop or the top of the leaf; the sheet's if left out",
            tuple(DATUM_WORDS),
        ),
        UNITS_INPUT,
    ),
    output=Output("mapping", ("holes", "notes")),
    compute=_holes,
    source="the maker's sheet, as its owner copied it; plane geometry; common practice",
)
