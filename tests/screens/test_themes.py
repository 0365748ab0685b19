"""The colours: enough contrast to be read in the sun and in the dark (WCAG 2.2, success criteria 1.4.3 and 1.4.6)."""

import re

import pytest
from textual.color import Color
from textual.theme import Theme

from guide.screens.cautions import COLOURS
from guide.screens.themes import DAY, NIGHT, THEMES, theme_for

LEAST = 7.0
"""Contrast of text with its ground that level AAA asks (1.4.6)."""


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, by the definition of relative luminance in WCAG 2.2."""

    def luminance(name: str) -> float:
        parts = [part / 255 for part in Color.parse(name).rgb]
        red, green, blue = (
            p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts
        )
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_black_on_white_has_the_contrast_of_the_definition() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("theme", [NIGHT, DAY], ids=lambda theme: theme.name)
@pytest.mark.parametrize("role", ["foreground", "primary", "secondary", "accent", "error"])
def test_every_text_can_be_read_on_every_ground(theme: Theme, role: str) -> None:
    for ground in filter(None, (theme.background, theme.surface, theme.panel)):
        assert contrast(getattr(theme, role), ground) >= LEAST, (role, ground)


@pytest.mark.parametrize("word", list(COLOURS))
def test_every_signal_word_can_be_read(word: str) -> None:
    text, ground = re.fullmatch(r"(#\w{6}) on (#\w{6})", COLOURS[word]).groups()  # type: ignore[union-attr]
    assert contrast(text, ground) >= LEAST


def test_the_terminals_own_colours_are_used_where_it_has_few(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert theme_for("auto", "truecolor") == theme_for("auto", "256") == "night"
    assert theme_for("auto", "standard") == theme_for("auto", None) == "terminal"
    assert theme_for("day", None) == "day"
    monkeypatch.setenv("NO_COLOR", "1")
    assert theme_for("auto", "truecolor") == "terminal"
    assert {theme.name for theme in THEMES} == {"night", "day", "terminal"}
