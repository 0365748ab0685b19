"""A list to pick from: by number, or by moving the mark."""

from typing import Generic, NamedTuple, TypeVar

T = TypeVar("T")


def stepped_mark(picked: int, down: bool, count: int) -> int:
    """The mark of a list moved by one; if nothing is marked (-1), on the first or the last."""
    if picked < 0:
        return 0 if down else count - 1
    return (picked + (1 if down else -1)) % count


class Item(NamedTuple, Generic[T]):
    """One line to pick."""

    text: str
    value: T
    below: str = ""
    """A second line, in small."""


class Menu(Generic[T]):
    """A title and its items."""

    def __init__(self, title: str, items: list[Item[T]]) -> None:
        self.title = title
        self.items = items
        self.picked = 0 if items else -1

    def press(self, key: str, character: str | None) -> Item[T] | None:
        """Move the mark, or give the item that was picked."""
        count = len(self.items)
        if not count:
            return None
        if key in ("up", "down"):
            self.picked = stepped_mark(self.picked, key == "down", count)
        elif key in ("pageup", "home"):
            self.picked = 0
        elif key in ("pagedown", "end"):
            self.picked = count - 1
        elif key in ("enter", "space"):
            return self.items[self.picked]
        elif character and character in "123456789" and int(character) <= count:
            self.picked = int(character) - 1
            return self.items[self.picked]
        return None
