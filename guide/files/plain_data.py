"""Exact shapes of plain data (text, whole numbers, lists, mappings) that was stored by this program and read again.

A shape is a test: it says whether the data could have been written so. It never changes or converts anything.
"""

from collections.abc import Callable, Mapping
from typing import Any

from guide.text import unseen

Shape = Callable[[Any], bool]


def text(most: int = 400) -> Shape:
    """A text of at most so many characters, each of which can be seen."""
    return lambda data: (
        isinstance(data, str)
        and len(data) <= most
        and (data.isprintable() or unseen(data) is None)  # most are, and that is found sooner
    )


def one_of(*words: str) -> Shape:
    """One of these words."""
    return lambda data: isinstance(data, str) and data in words


def whole(low: int, high: int) -> Shape:
    """A whole number from `low` to `high`, both included; yes and no are not numbers."""
    return lambda data: type(data) is int and low <= data <= high


def flag(data: Any) -> bool:
    """Yes or no."""
    return isinstance(data, bool)


def number(data: Any) -> bool:
    """Any number."""
    return type(data) in (int, float)


def either(*shapes: Shape) -> Shape:
    """Any of these."""
    return lambda data: any(shape(data) for shape in shapes)


def nothing(data: Any) -> bool:
    """No value."""
    return data is None


def each(shape: Shape, most: int = 2000) -> Shape:
    """A list of at most so many, all of this shape."""
    return lambda data: isinstance(data, list) and len(data) <= most and all(map(shape, data))


def row(*shapes: Shape) -> Shape:
    """A list with one place for each of these shapes."""
    return lambda data: (
        isinstance(data, list)
        and len(data) == len(shapes)
        and all(shape(one) for shape, one in zip(shapes, data, strict=True))
    )


def mapping(key: Shape, value: Shape, most: int = 2000) -> Shape:
    """A mapping of at most so many entries."""
    return lambda data: (
        isinstance(data, dict)
        and len(data) <= most
        and all(key(name) and value(one) for name, one in data.items())
    )


def keyed(needed: Mapping[str, Shape], optional: Mapping[str, Shape] | None = None) -> Shape:
    """A mapping with all of the needed keys, perhaps some of the optional ones, and no other."""
    shapes = {**needed, **(optional or {})}
    return lambda data: (
        isinstance(data, dict)
        and needed.keys() <= data.keys() <= shapes.keys()
        and all(shapes[name](one) for name, one in data.items())
    )
