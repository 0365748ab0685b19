"""The line that a person types on."""

LONGEST = 2000
"""Characters kept, so that a slipped paste cannot fill the journal."""


class TypedLine:
    """A text and the place of the cursor in it."""

    def __init__(self, text: str = "") -> None:
        self.text = text
        self.cursor = len(text)
        """Characters before the cursor."""

    def put(self, text: str) -> None:
        """Type or paste at the cursor; what cannot be printed is dropped."""
        kept = "".join(c for c in text.replace("\n", " ") if c.isprintable())
        kept = kept[: LONGEST - len(self.text)]
        self.text = self.text[: self.cursor] + kept + self.text[self.cursor :]
        self.cursor += len(kept)

    def set(self, text: str) -> None:
        """Write another text in place of this one."""
        self.text, self.cursor = text, len(text)

    def key(self, key: str) -> bool:
        """Do what an editing key does; whether it was one."""
        if key in ("backspace", "ctrl+h"):
            if self.cursor:
                self.text = self.text[: self.cursor - 1] + self.text[self.cursor :]
                self.cursor -= 1
        elif key == "delete":
            self.text = self.text[: self.cursor] + self.text[self.cursor + 1 :]
        elif key == "left":
            self.cursor = max(0, self.cursor - 1)
        elif key == "right":
            self.cursor = min(len(self.text), self.cursor + 1)
        elif key in ("home", "ctrl+a"):
            self.cursor = 0
        elif key in ("end", "ctrl+e"):
            self.cursor = len(self.text)
        elif key == "ctrl+u":
            self.set("")
        else:
            return False
        return True
