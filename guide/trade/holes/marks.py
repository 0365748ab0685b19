"""`marks`: the reference lines of body and shoe as the fitter reads them back, before anything is punched."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import Answer, BadInput, NoAnswer
from guide.trade.computation import Computation, Given, Input, Output, given, given_sheet, needed
from guide.trade.door.hinges import HINGE_WORDS, STANDARD_TEMPLATE, pivot_offset
from guide.trade.holes.inputs import (
    ALONG_WORDS,
    DATUM_WORDS,
    HINGE_INPUT,
    MOUNT_INPUT,
    OVERLAP_INPUT,
    RANGE_INPUT,
    SHEET_INPUT,
    THICKNESS_INPUT,
    UNITS_INPUT,
    WIDTH_INPUT,
    inches_of,
    thickness_of,
)
from guide.trade.holes.layout import Layout, lines_of, measured_from, numbers_of, to_mark
from guide.trade.holes.mark_check import LEAVE, POSITION, VERDICTS, Checked, Rows, check_lines
from guide.trade.holes.marking_mistakes import Datums
from guide.trade.inputs import optional_length

LINES = {
    "body_along": "body's line, along the door",
    "body_datum": "body's screw line, down the leaf or up the frame",
    "shoe_along": "shoe's line, along the door",
    "shoe_datum": "shoe's second number, from the datum, or out from the leaf under a soffit",
}
"""The lines that are read back, and what each is."""


def _marks(inputs: Mapping[str, Given]) -> Answer:
    layout, checked, working = checked_marks(inputs)
    return Answer(
        checked.verdict,
        (*working, *checked.sentences),
        tuple(_cautions(inputs, layout, checked.verdict)),
        _headline(checked),
    )


def _headline(checked: Checked) -> str:
    """The verdict and what to do, for the first line."""
    corrections = {of: checked.correction(of) for of in ("body", "shoe")}
    moved = [f"{of}, {words}" for of, words in corrections.items() if words != LEAVE]
    return f"{checked.verdict}: {'; '.join(moved)}" if moved else checked.verdict


def checked_marks(inputs: Mapping[str, Given]) -> tuple[Layout, Checked, tuple[str, ...]]:
    """Where the lines should be, what the check found, and from which lines was measured.

    NoAnswer unless all four lines were read back: three right marks make no right hole pattern.
    """
    read = _readings(inputs)
    edge = pivot_offset(needed(inputs, "hinge", str), thickness_of(inputs)).edge
    by_numbers, others = _wanted(inputs, edge)
    read_from = given(inputs, "read_from", str)
    seen = by_numbers.along_from if read_from is None else ALONG_WORDS[read_from]

    def as_read(layout: Layout) -> Layout:
        return measured_from(layout, seen, layout.datum, edge)

    layout = as_read(by_numbers)
    system = _system(inputs)
    tolerance = inches_of(inputs, "tolerance")
    overlap, width = inches_of(inputs, "overlap"), inches_of(inputs, "width")
    checked = check_lines(
        layout,
        read,
        Datums(layout.along_from, layout.datum, edge, overlap, width),
        lambda inches: write(to_mark(inches, system)),
        system,
        [replace(one, layout=as_read(one.layout)) for one in others],
        POSITION if tolerance is None else tolerance,
    )
    measured = [f"Along from the {layout.along_from}, up and down from the {layout.datum}."]
    if layout.along_from != by_numbers.along_from:
        measured.append(_carried(by_numbers.along_from, edge, system))
    return layout, checked, tuple(measured)


def _readings(inputs: Mapping[str, Given]) -> dict[str, Fraction]:
    """What was read back [in]; NoAnswer names what was not."""
    read = {key: inches_of(inputs, f"{key}_read") for key in LINES}
    missing = [f"{key}_read=" for key, value in read.items() if value is None]
    if missing:
        raise NoAnswer(
            f"All four must be read back before anything is punched: still missing {', '.join(missing)}."
        )
    return {key: value for key, value in read.items() if value is not None}


def _carried(numbers_from: str, edge: Fraction, system: str) -> str:
    """How the line that is seen was allowed for."""
    away = write(to_mark(abs(edge), system))
    way = "nearer to" if edge > 0 else "farther from"
    return f"The numbers are from the {numbers_from}; the hinge edge is {away} {way} the latch: allowed for."


def _wanted(inputs: Mapping[str, Given], edge: Fraction) -> tuple[Layout, list[Rows]]:
    """Where the lines should be, and the sheet's other rows for this mount, from the datums asked for."""
    mount = needed(inputs, "mount", str)
    sheet = given_sheet(inputs)
    along, datum = given(inputs, "along_from", str), given(inputs, "datum", str)
    numbers = {key: inches_of(inputs, key) for key in LINES}
    if sheet is None:
        return _typed(mount, along, datum, numbers), []
    on = sheet.mount(mount)
    start = (
        on.along_from if along is None else ALONG_WORDS[along],
        on.datum if datum is None else DATUM_WORDS[datum],
        edge,
        inches_of(inputs, "overlap"),
    )
    found = sheet.range_for(mount, needed(inputs, "range", Quantity))
    rows = {
        one.up_to: measured_from(lines_of(mount, on.along_from, on.datum, numbers_of(one)), *start)
        for one in on.ranges
    }
    layout = rows.pop(found.up_to)
    others = [Rows(f"for opening to {up_to}", row) for up_to, row in rows.items()]
    return _with_typed(layout, numbers), others


def _typed(
    mount: str, along: str | None, datum: str | None, numbers: Mapping[str, Fraction | None]
) -> Layout:
    """The lines as typed from a paper sheet; BadInput names what is missing."""
    missing = [key for key, value in numbers.items() if value is None]
    missing += [key for key, value in (("along_from", along), ("datum", datum)) if value is None]
    if along is None or datum is None or missing:
        asked = ", ".join(f"{key}=" for key in missing)
        raise BadInput(f"Give a sheet, or what the maker's paper says: still missing {asked}.")
    body_along, body_datum, shoe_along, shoe_datum = (
        value for value in numbers.values() if value is not None
    )
    return lines_of(
        mount,
        ALONG_WORDS[along],
        DATUM_WORDS[datum],
        (body_along, body_datum, shoe_along, shoe_datum),
    )


def _with_typed(layout: Layout, numbers: Mapping[str, Fraction | None]) -> Layout:
    def line(of: str) -> tuple[Fraction, Fraction]:
        there = layout.body if of == "body" else layout.shoe
        along, across = numbers[f"{of}_along"], numbers[f"{of}_datum"]
        return (
            there.along if along is None else along,
            there.across if across is None else across,
        )

    (body_along, body_across), (shoe_along, shoe_across) = line("body"), line("shoe")
    return replace(
        layout,
        body=replace(layout.body, along=body_along, across=body_across),
        shoe=replace(layout.shoe, along=shoe_along, across=shoe_across),
    )


def _system(inputs: Mapping[str, Given]) -> str:
    """The units asked for, else the sheet's, else those the first number is typed in."""
    asked, sheet = given(inputs, "units", str), given_sheet(inputs)
    if asked is not None:
        return asked
    if sheet is not None:
        return sheet.units
    return "inch" if needed(inputs, "body_along", Quantity).unit in ("in", "ft") else "metric"


def _cautions(inputs: Mapping[str, Given], layout: Layout, verdict: str) -> list[str]:
    found = []
    if verdict != "right":
        found.append("Move the marks and read all four back before anything is punched.")
    if layout.mount == "parallel":
        found.append("A parallel arm is touchy: keep both marks on their lines.")
    hinge = needed(inputs, "hinge", str)
    if hinge not in STANDARD_TEMPLATE:
        found.append(f"Use the maker's special template for {HINGE_WORDS[hinge]} only.")
    return found


def _number(name: str, about: str) -> Input:
    return optional_length(name, about, Fraction(0), Fraction(120))


INPUTS = (
    replace(SHEET_INPUT, required=False),
    MOUNT_INPUT,
    HINGE_INPUT,
    replace(RANGE_INPUT, required=False, about=f"{RANGE_INPUT.about}; goes with a sheet"),
    THICKNESS_INPUT,
    WIDTH_INPUT,
    OVERLAP_INPUT,
    Input(
        "along_from",
        "choice",
        False,
        "from where along is measured, by numbers and tape; the sheet's if left out",
        tuple(ALONG_WORDS),
    ),
    Input(
        "read_from",
        "choice",
        False,
        "from where along the tape was hooked, if not where the numbers start: on a push side"
        " the hinge edge, since the pin is not seen there",
        tuple(ALONG_WORDS),
    ),
    Input(
        "datum",
        "choice",
        False,
        "from where up and down was measured; the sheet's if left out",
        tuple(DATUM_WORDS),
    ),
    *(_number(key, f"{what}, by the sheet; wins over it") for key, what in LINES.items()),
    *(_number(f"{key}_read", f"{what}, read back") for key, what in LINES.items()),
    optional_length(
        "tolerance",
        "how far a mark may be out; 1/16 in if left out",
        Fraction(1, 64),
        Fraction(1, 4),
    ),
    UNITS_INPUT,
)
"""What says where the marks should be, and what was read back."""

COMPUTATION = Computation(
    name="marks",
    about="Whether the marks read back are right, how to move each that is off, and the classic mistakes by name.",
    inputs=INPUTS,
    output=Output("choice", VERDICTS),
    compute=_marks,
    source="the maker's sheet, as its owner copied it; tolerances are common practice",
    example=(
        "sheet=generic-a mount=regular hinge=butt range='100 deg' along_from=pin datum=top "
        "body_along='7 1/2 in' body_datum='1 1/2 in' shoe_along='13 in' shoe_datum='3/4 in' "
        "body_along_read='7 1/4 in' body_datum_read='1 1/2 in' shoe_along_read='13 in' shoe_datum_read='3/4 in'"
    ),
)
