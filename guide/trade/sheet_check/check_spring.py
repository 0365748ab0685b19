"""A closer's sheet by its spring: the screw's turns, the turns for one size, and the table of turns."""

from collections.abc import Iterator
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.sheet.codec import Path as FilePath
from guide.trade.sheet.kinds import written_turns
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.finding import SheetFinding, look_at

_TURNS_TOLERANCE = Fraction(1, 10)
"""Share of the turns needed that may be missing: a screw is counted to its stiff end (our choice)."""
_NARROWEST = Quantity(Fraction(20), "in")
"""No table is for leaves as narrow as this (our choice)."""


def check_spring(sheet: Sheet) -> Iterator[SheetFinding]:
    """Turns that do not reach the sizes, and a table that does not agree with them."""
    yield from _screw(sheet)
    yield from _table(sheet)
    yield from _table_reach(sheet)


def _screw(sheet: Sheet) -> Iterator[SheetFinding]:
    screws = [(number, one) for number, one in enumerate(sheet.screws) if one.name == "spring"]
    if not screws or sheet.turns_per_size is None or screws[0][1].turns is None:
        return
    number, screw = screws[0]
    turns, low, high = screws[0][1].turns, *sheet.sizes
    needs = sheet.turns_per_size * (high - low)
    # Turns to spare are usual; a screw that cannot reach its sizes is not.
    if turns < needs * (1 - _TURNS_TOLERANCE):
        yield SheetFinding(
            "spring-turns",
            ("screws", number, "turns"),
            f"From EN size {low} to {high} at {written_turns(sheet.turns_per_size)} turns a size the"
            f" {screw.name} screw needs {written_turns(needs)} turns, and it has"
            f" {written_turns(turns)}; {look_at('turns and sizes')}",
        )


def _table(sheet: Sheet) -> Iterator[SheetFinding]:
    """The table of spring turns against the sizes, the turns for one size, and the screw's own turns."""
    per_size, factory = sheet.turns_per_size, sheet.factory_size
    for number, row in enumerate(sheet.spring_settings):
        if row.max_width is not None and row.max_width < _NARROWEST:
            yield SheetFinding(
                "spring-table",
                ("spring_settings", number, "max_width"),
                f"The table of spring turns has a line for a leaf to {row.max_width};"
                f" {look_at('max_width', row.max_width)}",
                advice=True,
            )
        if per_size is None or factory is None:
            continue
        path: FilePath = ("spring_settings", number, "turns")
        size = factory + row.turns / per_size
        if row.size is not None and row.size != size:
            yield SheetFinding(
                "spring-table",
                path,
                f"From EN size {factory} at {written_turns(per_size)} turns a size, size {row.size} is"
                f" {written_turns((row.size - factory) * per_size)} turns away and not"
                f" {written_turns(row.turns)}; {look_at('both')}",
                advice=True,
            )
        elif not sheet.sizes[0] <= size <= sheet.sizes[1]:
            yield SheetFinding(
                "spring-table",
                path,
                f"{written_turns(row.turns)} turns from EN size {factory}, at"
                f" {written_turns(per_size)} turns a size, is past the sizes {sheet.sizes[0]} to"
                f" {sheet.sizes[1]}; {look_at('turns and sizes')}",
            )
        elif row.max_width is not None and size.denominator != 1:
            yield SheetFinding(
                "spring-table",
                path,
                f"{written_turns(row.turns)} turns do not make whole sizes at {written_turns(per_size)} turns"
                f" a size; {look_at('turns')}",
                advice=True,
            )


def _table_reach(sheet: Sheet) -> Iterator[SheetFinding]:
    rows = sheet.spring_settings
    for mount in dict.fromkeys(row.mount for row in rows if row.size is not None):
        sizes = [row.size for row in rows if row.size is not None and row.mount == mount]
        if (sizes[0], sizes[-1]) != sheet.sizes:
            yield SheetFinding(
                "spring-table",
                ("sizes",),
                f"The table of spring turns goes from EN size {sizes[0]} to {sizes[-1]}, and the closer"
                f" from {sheet.sizes[0]} to {sheet.sizes[1]}; {look_at('sizes')}",
                advice=True,
            )
    for mount in dict.fromkeys(row.mount for row in rows):
        own = [(number, row) for number, row in enumerate(rows) if row.mount in (None, mount)]
        for number, row in own:
            least = min(one.turns for _, one in own)
            if row.accessible and row.turns > least:
                yield SheetFinding(
                    "spring-table",
                    ("spring_settings", number, "turns"),
                    "A door that must open with little force has the weakest spring of the table, and"
                    f" this line has {written_turns(row.turns)} turns; {look_at('turns')}",
                    advice=True,
                )
    turns = [row.turns for row in rows]
    screw = next((one for one in sheet.screws if one.name == "spring"), None)
    if turns and screw is not None and screw.turns is not None:
        span = max(*turns, Fraction(0)) - min(*turns, Fraction(0))
        if span > screw.turns:
            yield SheetFinding(
                "spring-table",
                ("screws", sheet.screws.index(screw), "turns"),
                f"The table of spring turns needs {written_turns(span)} turns of the screw, and it has"
                f" {written_turns(screw.turns)}; {look_at('both')}",
            )
