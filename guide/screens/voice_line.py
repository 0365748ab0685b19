"""The line of the voice: what it is doing, how loud it is, and the last thing heard."""

METER = 5
"""Columns of the level meter."""


def meter(level: float) -> str:
    """How loud it is, as a bar: 0 to 1."""
    full = round(max(0.0, min(1.0, level)) * METER)
    return "█" * full + "·" * (METER - full)


def voice_line(doing: str, level: float | None, last: str) -> str:
    """What the voice is doing, in capitals, its meter if there is one, and the last thing heard."""
    head = f"{doing.upper()}:" if level is None else f"{doing.upper()} {meter(level)}"
    return f"{head} {last}".rstrip(" :")
