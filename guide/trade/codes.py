"""The codes by whose rules a door is judged: what may be written for `rules`."""

from guide.trade.computation import Input

CODES = {
    "us": (
        "United States: 2010 ADA Standards; NFPA 80; International Building Code 1010 and NFPA 101 in outline, in the"
        " edition that is adopted"
    ),
    "uk": "United Kingdom: Approved Documents B and M, BS 8300-2 of 2018; EN 1154",
    "eu": "Europe: EN 1154 of 1996 with its amendment of 2002; for access DIN 18040 of Germany as a guide",
    "none": "no rules are held against the readings",
}
"""What each setting means."""
USUAL_CODE = "us"
RULES_INPUT = Input(
    "rules",
    "choice",
    False,
    "whose rules; in a run those of the settings, else us",
    tuple(CODES),
)
