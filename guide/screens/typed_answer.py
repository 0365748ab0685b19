"""The line on which an answer is typed."""

from collections.abc import Callable

from textual.events import Key, MouseScrollDown, MouseScrollUp
from textual.widgets import Input

_EDITING = frozenset(
    (
        *("left", "right", "home", "end", "delete", "backspace"),
        *("ctrl+a", "ctrl+e", "ctrl+w", "ctrl+u", "ctrl+left", "ctrl+right"),
        *("shift+left", "shift+right", "shift+home", "shift+end"),
    )
)


class TypedAnswer(Input):
    """Accepts the characters that are wanted; any other stays a key of the screen."""

    def __init__(
        self,
        takes: Callable[[str], bool],
        turned: Callable[[str], None],
        id: str | None = None,  # noqa: A002 - the library's word for it
    ) -> None:
        """`turned` gets "up" or "down" as the wheel is turned over the line."""
        super().__init__(id=id, select_on_focus=False)
        self.takes = takes
        self.turned = turned

    def _on_mouse_scroll_up(self, event: MouseScrollUp) -> None:
        event.stop()
        self.turned("up")

    def _on_mouse_scroll_down(self, event: MouseScrollDown) -> None:
        event.stop()
        self.turned("down")

    async def _on_key(self, event: Key) -> None:
        if event.is_printable and not self.takes(event.character or ""):
            event.prevent_default()

    def edits(self, key: str) -> bool:
        """Whether a key moves within what is typed, or takes something of it away."""
        return self.has_focus and bool(self.value) and key in _EDITING

    def write(self, text: str, *, retype: bool) -> None:
        """Show what the run has on its line; `retype` marks it, so that typing replaces it."""
        if self.value != text:
            self.value = text
            self.cursor_position = len(text)
        if retype and text:
            self.action_select_all()
