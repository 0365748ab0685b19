"""Texts with facts in them: `{width}` stands for the fact's value, `{{` and `}}` for braces."""

import re
from collections.abc import Callable

_PIECE = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|[{}]")
_NAME = re.compile(r"[a-z][a-z0-9_]*\Z")


def names_in(text: str) -> list[str]:
    """Every name in braces, in order, whether or not it is a fact."""
    return [match[1] for match in _PIECE.finditer(text) if match[1] is not None]


def stray_brace(text: str) -> str:
    """What is wrong with the braces of a text; empty where nothing is."""
    for match in _PIECE.finditer(text):
        if match[0] in ("{", "}"):
            return f"a lone “{match[0]}”; write “{match[0] * 2}” for a brace"
        if match[1] is not None and not _NAME.match(match[1]):
            return f"“{match[0]}”, which is not a fact's name; write “{{{{” for a brace"
    return ""


def fill(text: str, show: Callable[[str], str]) -> str:
    """The text with each name in braces replaced by what `show` gives for it."""

    def piece(match: re.Match[str]) -> str:
        if match[1] is not None:
            return show(match[1])
        return match[0][0]

    return _PIECE.sub(piece, text)
