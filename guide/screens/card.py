"""The card of a run's screen: what is done at a step, in a window that tells how much of it is below."""

from collections.abc import Callable

from textual.containers import VerticalScroll


class Card(VerticalScroll):
    """What is done at a step; tells when more or less of it is below the window."""

    def __init__(self, fitted: Callable[[], None], id: str, can_focus: bool) -> None:  # noqa: A002
        super().__init__(id=id, can_focus=can_focus)
        self._fitted = fitted

    def on_resize(self) -> None:
        """The window, or what is around the card, has changed."""
        self._fitted()

    def watch_virtual_size(self) -> None:
        """What is in the card has changed."""
        self._fitted()

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """It was scrolled."""
        super().watch_scroll_y(old_value, new_value)
        self._fitted()
