"""The cautions of a step: symbol, signal word and colour together, as ANSI Z535.4 has them."""

from collections.abc import Sequence

from guide.screens.words_shown import Piece, Words, in_lines

_SYMBOL = "/!\\ "
COLOURS = {
    "danger": "#ffffff on #a8001c",
    "warning": "#000000 on #ff8200",
    "caution": "#000000 on #ffd100",
    "notice": "#ffffff on #004a97",
}
"""Words and ground of each signal word, in every theme."""


class Cautions(Words):
    """Every caution of the step shown, the gravest first."""

    def show(self, cautions: Sequence[tuple[str, str]]) -> None:
        """Show these: signal word and sentence."""
        rows: list[list[Piece]] = []
        for word, sentence in cautions:
            symbol = "" if word == "notice" else _SYMBOL
            rows.append([(f" {symbol}{word.upper()} ", f"bold {COLOURS[word]}"), f" {sentence}"])
        self.tell(*in_lines(rows))
