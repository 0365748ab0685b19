"""`sheet-body-datum`: how far the body is from the mount's datum, by the sheet."""

from guide.trade.sheet.lookup import place_computation

COMPUTATION = place_computation(
    "sheet-body-datum",
    "How far the body is from the mount's datum.",
    "body",
    lambda mount, row: (row.body_datum, mount.datum),
)
