"""`sheet-shoe-along`: where the shoe goes along the door, by the sheet."""

from guide.trade.sheet.lookup import place_computation

COMPUTATION = place_computation(
    "sheet-shoe-along",
    "Where the shoe goes along the door.",
    "shoe",
    lambda mount, row: (row.shoe_along, mount.along_from),
)
