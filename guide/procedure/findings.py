"""What the tool has to say about a file: one finding a fault, placed, coded and with a way out."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

ERROR = "error"
WARNING = "warning"
ADVICE = "advice"
LEVELS = (ERROR, WARNING, ADVICE)

Mark = tuple[int, int]
"""Line and column, both counted from 1."""


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
        text = source.split("\n")
        if 0 < finding.line <= len(text):
            excerpt = text[finding.line - 1].replace("\t", " ").rstrip()
            if len(excerpt) <= 200:
                lines += [f"    {excerpt}", "    " + " " * (finding.column - 1) + "^"]
    if finding.example:
        lines.append(f"    for example: {finding.example}")
    return "\n".join(lines)


def shown_path(path: Path) -> str:
    """The path as a person would write it from where they stand."""
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except ValueError:
        return str(path)
