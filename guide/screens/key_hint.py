"""A key along the bottom of a screen."""

from typing import NamedTuple

_LABELS = {"up": "↑", "down": "↓", "left": "←", "right": "→", "slash": "/", "question_mark": "?"}
_LABELS |= {"enter": "Enter", "escape": "Esc", "space": "Space", "tab": "Tab"}
_LABELS |= {"pageup": "PgUp", "delete": "Del"}


def label_of(key: str) -> str:
    """What is on a key of the keyboard, by the name that Textual has for it."""
    return _LABELS.get(key, key.upper())


class KeyHint(NamedTuple):
    """One key of the key bar."""

    key: str
    """As Textual names it: what a click presses."""
    word: str
    label: str = ""
    """What is shown, where it is not what is on the key."""

    @property
    def shown(self) -> str:
        """What stands on the key."""
        return self.label or label_of(self.key)
