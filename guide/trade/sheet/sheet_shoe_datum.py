"""`sheet-shoe-datum`: how far the shoe is from the mount's datum, by the sheet."""

from guide.trade.sheet.lookup import place_computation

COMPUTATION = place_computation(
    "sheet-shoe-datum",
    "How far the shoe is from the mount's datum.",
    "shoe",
    lambda mount, row: (row.shoe_datum, mount.datum),
)
