"""`sheet-body-along`: where the body goes along the door, by the sheet."""

from guide.trade.sheet.lookup import place_computation

COMPUTATION = place_computation(
    "sheet-body-along",
    "Where the body goes along the door.",
    "body",
    lambda mount, row: (row.body_along, mount.along_from),
)
