"""Findings: each reports one fault of a file, with its place, its code and what to do."""

import re
from pathlib import Path
from typing import Any, NamedTuple

from guide.errors import FOUND, UNKNOWN, HingesideError
from guide.text import printable

ERROR = "error"
WARNING = "warning"
ADVICE = "advice"
LEVELS = (ERROR, WARNING, ADVICE)

Mark = tuple[int, int]
"""Line and column, both counted from 1."""

MOST = 100
"""Findings of one file; a person fixes these before reading more."""

_LINE_END = re.compile(r"\r\n|\r|\n")
_QUOTED = re.compile("“[^”]*”")
_DID_YOU_MEAN = re.compile(r"did you mean (.*)\?")


class Finding(NamedTuple):
    """One thing wrong with a file."""

    file: str
    """The path as the person gave it, or as an include resolved it."""
    line: int
    column: int
    code: str
    """Stable, lower-case words joined by hyphens."""
    level: str
    """`error` and `warning` make a check fail; `advice` does not."""
    message: str
    """One sentence: what is wrong and what to do."""
    example: str = ""
    """The smallest case that shows it, in the trade's words; empty if the message says it all."""

    def __post_init__(self) -> None:
        # What a message quotes from a file must not reach a terminal as a command or a line end.
        object.__setattr__(self, "message", printable(self.message))

    def to_json(self) -> dict[str, Any]:
        """The finding as `check --json` prints it."""
        return {
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "code": self.code,
            "level": self.level,
            "message": self.message,
            "example": self.example,
        }

    def place(self) -> tuple[str, int, int, str]:
        """Sort key: reading order within a file."""
        return (self.file, self.line, self.column, self.code)


class BadFile(HingesideError):
    """A file that cannot be used; carries every finding that says why."""

    def __init__(self, findings: list[Finding]) -> None:
        self.findings = sorted(findings, key=Finding.place)
        first = self.findings[0]
        self.status = UNKNOWN if first.code == "cannot-read" else FOUND
        more = len(self.findings) - 1
        tail = f" (and {more} more: hingeside check {first.file})" if more else ""
        super().__init__(f"{first.file}:{first.line}:{first.column}: {first.message}{tail}")


def parted(message: str) -> tuple[str, str]:
    """Split a message into the fault and the advice: the text before its last semicolon, and the rest.

    The advice is empty if the message has none. A semicolon inside quotation marks does not split it.
    """
    outside = _QUOTED.sub(lambda quoted: "-" * len(quoted[0]), message)
    place = outside.rfind("; ")
    if place < 0:
        return message, ""
    wrong, do = message[:place] + ".", message[place + 2 :]
    meant = _DID_YOU_MEAN.fullmatch(do)
    return wrong, f"write {meant[1]}, if that is what you meant." if meant else do


def written(finding: Finding, source: str | None = None, do: str = "") -> str:
    """The finding for a person: place and sentence, the line with a caret, an example, and what to do.

    `source` is the file's text, where it is at hand; `do` is what to do where the message does not say.
    """
    wrong, own = parted(finding.message)
    lines = [
        f"{finding.file}:{finding.line}:{finding.column}: {finding.level} [{finding.code}] {wrong}"
    ]
    text = _LINE_END.split(source) if source is not None else []
    if 0 < finding.line <= len(text):
        lines += _excerpt(text[finding.line - 1], finding.column)
    if finding.example:
        lines.append(f"    for example: {finding.example}")
    if own or do:
        lines.append(f"    do: {own or do}")
    return "\n".join(lines)


_AROUND = 60
"""Characters shown before and after the place in a line too long to show."""
_LONGEST_LINE = 160


def _excerpt(line: str, column: int) -> list[str]:
    """The line, or the part of it around the column, and a caret below the column."""
    shown = printable(line.replace("\t", " ").rstrip())
    place = column - 1
    if len(shown) > _LONGEST_LINE:
        start = max(0, place - _AROUND)
        end = place + _AROUND
        before, after = "…" if start else "", "…" if end < len(shown) else ""
        shown = before + shown[start:end] + after
        place += len(before) - start
    return [f"    {shown}", "    " + " " * place + "^"]


def shown_path(path: Path) -> str:
    """The path relative to the current folder if it is within it, in printable characters."""
    try:
        return printable(str(resolved(path).relative_to(Path.cwd())))
    except (ValueError, OSError):
        return printable(str(path))


def resolved(path: Path) -> Path:
    """The path with every link followed; unchanged if links run in a circle."""
    try:
        return path.resolve()
    except (OSError, RuntimeError, ValueError):
        return path.absolute()
