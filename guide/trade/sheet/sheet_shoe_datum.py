"""`sheet-shoe-datum`: how far the shoe is from the mount's datum, by the sheet; on a parallel arm out from the leaf."""

from guide.trade.sheet.lookup import place_computation

COMPUTATION = place_computation(
    "sheet-shoe-datum",
    "How far the shoe is from the mount's datum; on a parallel arm from the leaf's push face.",
    "shoe",
    lambda mount, row: (
        row.shoe_datum,
        "push face of the leaf" if mount.mount == "parallel" else mount.datum,
    ),
)
