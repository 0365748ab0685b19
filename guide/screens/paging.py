"""Scrolling a body that is longer than the window."""


class Paging:
    """Which lines of the body are shown."""

    def __init__(self) -> None:
        self.offset = 0
        self.window = 1
        self.more = False
        self.read_through = False
        """Whether the last line has been shown since the body began anew."""

    def anew(self) -> None:
        """Another body: begin at its first line."""
        self.offset, self.more, self.read_through = 0, False, False

    def fitted(self, offset: int, window: int, more: bool) -> None:
        """Told what was shown."""
        self.offset, self.window, self.more = offset, window, more
        self.read_through = self.read_through or not more

    def scroll(self, key: str) -> bool:
        """Do what a paging key does; whether it was one."""
        steps = {
            "pagedown": self.window,
            "pageup": -self.window,
            "down": 1,
            "up": -1,
        }
        if key not in steps:
            return False
        if steps[key] < 0 or self.more:
            self.offset = max(0, self.offset + steps[key])
        return True
