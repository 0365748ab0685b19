"""The colours: night, day, and the terminal's own.

Computed in a test: text has at least 7:1 of contrast with what it stands on. What a colour says, a word or a mark
says too. The signal words have the colours of ANSI Z535.4 in every theme; they are in the style sheet.
"""

import os

from textual.theme import Theme

NIGHT = Theme(
    "night",
    dark=True,
    text_alpha=1,
    foreground="#f3eee2",
    background="#0d1211",
    surface="#171e1c",
    panel="#222b28",
    primary="#e8bd6a",
    secondary="#93cbbf",
    accent="#ffab70",
    success="#9fd69a",
    warning="#f5c84c",
    error="#ff9a8a",
)
DAY = Theme(
    "day",
    dark=False,
    text_alpha=1,
    foreground="#0f1413",
    background="#dfe3dc",
    surface="#fbfcf8",
    panel="#cfd6cf",
    primary="#523800",
    secondary="#00443f",
    accent="#702800",
    success="#124619",
    warning="#523800",
    error="#7d0f08",
)
_OWN = "ansi_default"
TERMINAL = Theme(
    "terminal",
    ansi=True,
    foreground=_OWN,
    background=_OWN,
    surface=_OWN,
    panel=_OWN,
    primary=_OWN,
    secondary=_OWN,
    accent=_OWN,
    error=_OWN,
    variables={"ansi-background": _OWN, "ansi-foreground": _OWN, "border-blurred": _OWN},
)
THEMES = (NIGHT, DAY, TERMINAL)
_FEW_COLOURS = ("standard", None)


def theme_for(wanted: str, colours: str | None) -> str:
    """The name of the theme: the one that is set, or by what the terminal shows.

    `wanted` is that of the settings (`auto`, `night`, `day`, `terminal`); `colours` what the terminal is said to
    have: `truecolor`, `256`, `standard` (16) or None.
    """
    if wanted != "auto":
        return wanted
    return TERMINAL.name if colours in _FEW_COLOURS or "NO_COLOR" in os.environ else NIGHT.name
