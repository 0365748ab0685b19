"""The line on which an answer is typed."""

from textual.events import Key, MouseEvent, MouseScrollDown, MouseScrollUp
from textual.widgets import Input

from guide.screens.run_view import RunView
from guide.screens.window import too_small

_EDITING = frozenset(
    (
        *("left", "right", "home", "end", "delete", "backspace"),
        *("ctrl+a", "ctrl+e", "ctrl+w", "ctrl+u", "ctrl+left", "ctrl+right"),
        *("shift+left", "shift+right", "shift+home", "shift+end"),
    )
)


class TypedAnswer(Input):
    """Accepts the characters that are wanted; any other stays a key of the screen."""

    def __init__(self, view: RunView) -> None:
        super().__init__(id="typed", select_on_focus=False)
        self._view = view

    def _on_mouse_scroll_up(self, event: MouseScrollUp) -> None:
        self._turned(event, "up")

    def _on_mouse_scroll_down(self, event: MouseScrollDown) -> None:
        self._turned(event, "down")

    def _turned(self, event: MouseEvent, key: str) -> None:
        """The wheel moves a number by its step, as the key of that name does."""
        event.stop()
        self.app.call_later(self.app.simulate_key, key)

    async def _on_key(self, event: Key) -> None:
        self.give()  # the line may hold more than the run was told of yet
        if event.is_printable and not self._view.takes(event.character or ""):
            event.prevent_default()

    def edits(self, key: str) -> bool:
        """Whether a key moves within what is typed, or takes something of it away."""
        return self.has_focus and bool(self.value) and key in _EDITING

    def give(self) -> bool:
        """Give the run what is on the line now; whether it is something else. The line's own messages come late: a key
        that follows at once must find the whole of what was typed."""
        if not self.display or self.value == self._view.text:
            return False
        if too_small(*self.app.size):
            self.show()
            return False
        self._view.write(self.value)
        return True

    def show(self) -> None:
        """Show what the run has on its line; what was refused is marked, so that typing replaces it."""
        text = self._view.text
        if self.value != text:
            self.value = text
            self.cursor_position = len(text)
        if self._view.retype and text:
            self.action_select_all()
