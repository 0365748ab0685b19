"""What a list to pick from has."""

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


class Menu(NamedTuple, Generic[T]):
    """A title and its items."""

    title: str
    items: list[Item[T]]
