"""A closer's sheet held against the kinematics, its own parts and its own numbers.

A sheet that builds can still be wrong: a digit dropped, two swapped, 1/16 written for 1/8. Each
finding is a plain sentence that names the number most likely mistyped. Nothing here replaces holding
the numbers against the maker's own sheet.
"""

from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check_arm import check_arms
from guide.trade.sheet_check.finding import SheetFinding
from guide.trade.sheet_check.holes import check_holes
from guide.trade.sheet_check.numbers import check_numbers


def check_sheet(sheet: Sheet) -> tuple[SheetFinding, ...]:
    """Every finding, arms first; empty for a sheet with nothing to say against it."""
    return (*check_arms(sheet), *check_holes(sheet), *check_numbers(sheet))
