"""A drop plate on the face of the frame's head: what a slip of the pen is told."""

from dataclasses import replace

import pytest

from guide.measures import parse
from guide.measures.parsing import parse_signed
from guide.trade.sheet.parts import Accessory, Hole
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check import check_sheet
from tests.trade.shipped_sheets import shipped

PLATE = Accessory(
    "drop plate",
    "Where the face of the frame's head is lower than 2 1/2 in.",
    "drop-plate",
    "body",
    "frame face",
    mount="top-jamb",
    shift_down=parse("1 in"),
    thickness=parse("1/4 in"),
    needed_below=parse("2 1/2 in"),
    holes=tuple(
        Hole(f"{end} {row}", parse_signed(along, "length"), parse_signed(down, "length"))
        for end, along in (("valve end", "2 1/4 in"), ("far end", "-4 1/4 in"))
        for row, down in (("upper", "-1 1/4 in"), ("lower", "-1/2 in"))
    ),
)
"""The body's line comes to be 1/4 in above the stop, and the plate's holes 1 1/2 and 3/4 in above it."""


def with_plate(plate: Accessory) -> Sheet:
    sheet = shipped("generic-a")
    return replace(sheet, accessories=(*sheet.accessories, plate))


def rows_at(*downs: str) -> tuple[Hole, ...]:
    """The plate's holes, the upper and lower rows at these distances from the body's line."""
    heights = dict(zip(("upper", "lower"), downs, strict=True))
    return tuple(
        replace(one, down=parse_signed(heights[one.name.split()[-1]], "length"))
        for one in PLATE.holes
    )


def test_a_plate_copied_rightly_has_nothing_against_it() -> None:
    assert check_sheet(with_plate(PLATE)) == ()


@pytest.mark.parametrize(
    ("plate", "code", "says"),
    [
        # 1 in written 1/8 in: the plate's upper holes 2 3/8 in up, where the body's own are 2 in up.
        (
            replace(PLATE, shift_down=parse("1/8 in")),
            "plate-low",
            "would be higher than the body's own holes without a plate",
        ),
        # 1/2 in above the line written 1/16 in: 1/4 in and 1/16 in above the stop, where 3/8 in is the least.
        (
            replace(PLATE, holes=rows_at("-1 1/4 in", "-1/16 in")),
            "plate-off-leaf",
            "valve end lower would be 5/16 in above the underside of the stop",
        ),
        (
            replace(PLATE, needed_below=parse("2 1/4 in"), when="Where the face is too low."),
            "plate-limit",
            "in a face of 2 1/4 in the body's own highest holes would find no hold",
        ),
        # Below for above: on the other side of the line they would be behind the stop.
        (replace(PLATE, holes=rows_at("-1 1/4 in", "1/2 in")), "hole-side", "on the other side"),
    ],
)
def test_a_slip_in_the_plate_is_found(plate: Accessory, code: str, says: str) -> None:
    found = [one for one in check_sheet(with_plate(plate)) if one.code == code]
    assert found, check_sheet(with_plate(plate))
    assert says in found[0].message
