"""A closer's sheet against itself: its arms, its holes, and numbers that other numbers speak against.

A sheet that can be read may still be wrong: a digit dropped, two swapped, 1/16 written for 1/8. Each finding is a plain
sentence that names the number most likely mistyped. Nothing here replaces comparing the numbers with the maker's own
sheet.
"""

from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check_arm import check_arms
from guide.trade.sheet_check.check_holes import check_holes
from guide.trade.sheet_check.check_numbers import check_numbers
from guide.trade.sheet_check.check_order import check_order
from guide.trade.sheet_check.check_spring import check_spring
from guide.trade.sheet_check.check_threads import check_threads
from guide.trade.sheet_check.finding import SheetFinding


def check_sheet(sheet: Sheet) -> tuple[SheetFinding, ...]:
    """Every finding, arms first; empty for a sheet with nothing to say against it.

    What an arm would do is not said of a mount on which body and shoe have changed places.
    """
    order = tuple(check_order(sheet))
    mixed = {one.path[:2] for one in order}
    return (
        *order,
        *(one for one in check_arms(sheet) if one.path[:2] not in mixed),
        *check_holes(sheet),
        *check_numbers(sheet),
        *check_spring(sheet),
        *check_threads(sheet),
    )
