"""Debouncing: tells a key that is held down from one that is pressed again, which terminals do not report."""

from collections.abc import Callable

REPEAT = 0.25
"""Seconds. A held key comes again some 30 times a second; a press sooner than this is not meant."""
DELIBERATE = 1.0
"""Seconds. What cannot be undone is not begun by a key that was just used for something else; the
first repeat of a held key comes within this time on common keyboards. Both times: our own choice."""


class HeldKeys:
    """When each key last came, whether it counted or not."""

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._last: dict[str, float] = {}

    def again(self, key: str, within: float = REPEAT) -> bool:
        """Note that the key came; whether it came before, within so many seconds."""
        now = self._clock()
        last = self._last.get(key)
        self._last[key] = now
        return last is not None and now - last < within

    def let_go(self, key: str) -> None:
        """Something else was typed since: the key is not held."""
        self._last.pop(key, None)
