"""The one error this part raises for a measure that cannot be understood."""


class MeasureError(ValueError):
    """A measure that was refused. `str` is one sentence for the person who wrote it."""

    suggestions: tuple[str, ...]
    """Writings that would be understood in its place, likeliest first; may be empty."""

    def __init__(self, sentence: str, suggestions: tuple[str, ...] = ()) -> None:
        super().__init__(sentence)
        self.suggestions = suggestions
