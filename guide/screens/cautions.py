"""The cautions of a step: symbol, signal word and colour together, as ANSI Z535.4 has them."""

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from guide.screens.words_shown import Words

_SYMBOL = "/!\\ "
_MOST_AT_ONCE = 4
"""Lines that are made beforehand; a step seldom has more."""
_WORDS = ("danger", "warning", "caution", "notice")


class _Caution(Horizontal):
    def compose(self) -> ComposeResult:
        yield Words(classes="word")
        yield Words(classes="said")

    def tell(self, word: str, sentence: str) -> None:
        for one in _WORDS:
            self.set_class(one == word, f"-{one}")
        symbol = "" if word == "notice" else _SYMBOL
        self.query_one(".word", Words).tell(f"{symbol}{word.upper()}")
        self.query_one(".said", Words).tell(sentence)


class Cautions(Vertical):
    """Every caution of the step shown, the gravest first."""

    def __init__(self) -> None:
        super().__init__(*(_Caution(classes="signal") for _ in range(_MOST_AT_ONCE)))
        self.display = False

    def show(self, cautions: Sequence[tuple[str, str]]) -> None:
        """Show these: signal word and sentence."""
        lines = list(self.query_children(_Caution))
        if len(cautions) > len(lines):
            more = [_Caution(classes="signal") for _ in cautions[len(lines) :]]
            self.mount(*more)
            self.call_after_refresh(self.show, cautions)
            return
        self.display = bool(cautions)
        for line, told in zip(
            lines, [*cautions, *[None] * (len(lines) - len(cautions))], strict=True
        ):
            line.display = told is not None
            if told is not None:
                line.tell(*told)
