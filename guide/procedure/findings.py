"""What the tool has to say about a file: one finding a fault, placed, coded and with a way out."""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from guide.procedure.characters import printable

ERROR = "error"
WARNING = "warning"
ADVICE = "advice"
LEVELS = (ERROR, WARNING, ADVICE)

Mark = tuple[int, int]
"""Line and column, both counted from 1."""

MOST = 100
"""Findings of one file; a person mends these before reading more."""

_LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True, slots=True)
class Finding:
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
    """The smallest case that shows it, in the trade's words; empty where the message says it all."""

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


class BadFile(Exception):
    """A file that cannot be used; carries every finding that says why."""

    def __init__(self, findings: list[Finding]) -> None:
        self.findings = sorted(findings, key=Finding.place)
        first = self.findings[0]
        more = len(self.findings) - 1
        tail = f" (and {more} more: hingeside check {first.file})" if more else ""
        super().__init__(f"{first.file}:{first.line}:{first.column}: {first.message}{tail}")


def written(finding: Finding, source: str | None = None) -> str:
    """The finding for a person: place, level, sentence, and the line with a caret where it is known."""
    head = (
        f"{finding.file}:{finding.line}:{finding.column}: "
        f"{finding.level} [{finding.code}] {finding.message}"
    )
    lines = [head]
    if source is not None:
        text = _LINE_END.split(source)
        if 0 < finding.line <= len(text):
            excerpt = printable(text[finding.line - 1].replace("\t", " ").rstrip())
            if 0 < len(excerpt) <= 200:
                lines += [f"    {excerpt}", "    " + " " * (finding.column - 1) + "^"]
    if finding.example:
        lines.append(f"    for example: {finding.example}")
    return "\n".join(lines)


def shown_path(path: Path) -> str:
    """The path as a person would write it from where they stand, in printable characters."""
    try:
        return printable(str(resolved(path).relative_to(Path.cwd())))
    except (ValueError, OSError):
        return printable(str(path))


def resolved(path: Path) -> Path:
    """The path with every link followed; as it stands where links run in a circle."""
    try:
        return path.resolve()
    except (OSError, RuntimeError, ValueError):
        return path.absolute()
