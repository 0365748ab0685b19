"""The one error this part raises for a measure that cannot be understood."""

from guide.errors import UNKNOWN, HingesideError


class MeasureError(HingesideError, ValueError):
    """A measure that was refused. `str` is one sentence for the person who wrote it."""

    status = UNKNOWN

    suggestions: tuple[str, ...]
    """Writings that would be understood in its place, likeliest first; may be empty."""

    why: str
    """The sentence without what to write instead, for who knows better what would be taken."""
    meant: tuple[str, ...]
    """The suggestions that keep what was typed; empty where only an example is given."""

    def __init__(
        self,
        sentence: str,
        suggestions: tuple[str, ...] = (),
        *,
        why: str = "",
        meant: tuple[str, ...] = (),
    ) -> None:
        super().__init__(sentence)
        self.suggestions = suggestions
        self.why = why or sentence.removesuffix(".")
        self.meant = meant
