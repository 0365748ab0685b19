"""One file, read and given its shape, with the place of every part of it."""

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from guide.files.findings import ERROR, MOST, BadFile, Finding, Mark, shown_path
from guide.files.marks import Map, Node, mark_at, plain, read_marked, read_text
from guide.files.shape_faults import Path_, misspelt_keys, shape_fault

__all__ = ["Path_", "Source", "need_shape", "read_source", "read_tree"]

LARGEST_KEPT = 200_000
"""Characters of a file that is kept for the next that includes it: a part of a procedure is far smaller."""


@dataclass(slots=True)
class Source:
    """A file that was read, whether or not it could be understood."""

    path: Path
    shown: str
    text: str
    tree: Node = field(default_factory=lambda: Map((1, 1)))
    """Empty where the file is no YAML."""
    shape: Any = None
    """The validated model; None where the shape was wrong."""
    findings: list[Finding] = field(default_factory=list)

    @property
    def full(self) -> bool:
        """Whether so much is wrong that more would help nobody."""
        return len(self.findings) > MOST

    def mark(self, path: Path_, *, key: bool = False) -> Mark:
        """The place of the part at `path`."""
        return mark_at(self.tree, path, key=key)

    def fault(
        self, path: Path_, code: str, message: str, *, key: bool = False, level: str = ERROR
    ) -> None:
        """Note a finding at the part at `path`; after the first hundred, that there are more."""
        self.add(Finding(self.shown, *self.mark(path, key=key), code, level, message))

    def add(self, finding: Finding) -> None:
        """Note a finding, as `fault` does."""
        if finding in self.findings:
            return
        if len(self.findings) < MOST:
            self.findings.append(finding)
        elif len(self.findings) == MOST:
            message = f"More is wrong than these {MOST}; mend them and check again."
            last = max(self.findings, key=Finding.place)
            self.findings.append(
                Finding(self.shown, last.line, last.column, "too-many", ERROR, message)
            )


def read_tree(path: Path, what: str, text: str | None = None) -> Source:
    """Read a file that gets its shape elsewhere; what cannot be read of it is left in `findings`.

    Raises BadFile where it is not a mapping of keys to values.
    """
    source = Source(path, shown_path(path), read_text(path) if text is None else text)
    if not _grown(source, what):
        raise BadFile(source.findings)
    return source


def read_source(path: Path, model: type[BaseModel], what: str, text: str | None = None) -> Source:
    """Read a file and validate it against `model`; what is wrong in it is left in `findings`.

    Raises BadFile only where there is no text to be read.
    """
    shown = shown_path(path)
    source = Source(path, shown, read_text(path) if text is None else text)
    understand = _understood if len(source.text) <= LARGEST_KEPT else _understood.__wrapped__
    source.tree, source.shape, found = understand(source.text, shown, model, what)
    source.findings = list(found)
    return source


@lru_cache(maxsize=32)
def _understood(
    text: str, shown: str, model: type[BaseModel], what: str
) -> tuple[Node, Any, tuple[Finding, ...]]:
    """The tree, the validated model and the faults of a text. Kept, because one file is read again for each
    that includes it; nothing changes a tree or a model."""
    source = Source(Path(shown), shown, text)
    if _grown(source, what):
        _validate(source, model, what)
    return source.tree, source.shape, tuple(source.findings)


def _grown(source: Source, what: str) -> bool:
    """Read the tree from the text. Whether it is a mapping, as every file must be; what is wrong is noted."""
    try:
        source.tree, source.findings = read_marked(source.text, source.shown)
    except BadFile as error:
        source.findings = error.findings
        return False
    if not isinstance(source.tree, Map):
        source.fault((), "shape", f"{what} is a mapping of keys to values; this is not.")
        return False
    return True


def _validate(source: Source, model: type[BaseModel], what: str) -> None:
    """Give the source its shape, or note what keeps it from having one."""
    spoilt = {(finding.line, finding.column) for finding in source.findings}
    try:
        source.shape = model.model_validate(plain(source.tree))
    except ValidationError as error:
        faults = error.errors(include_url=False)
        misspelt = misspelt_keys(model, faults)
        for fault in faults:
            if source.full:
                break
            if fault["type"] == "missing" and fault["loc"] in misspelt:
                continue
            finding = shape_fault(source.tree, source.shown, model, fault)
            # One fault is told once: a part that could not be read has no right shape either.
            if (finding.line, finding.column) in spoilt or "\ufffd" in str(fault["input"]):
                continue
            source.add(finding)
        if not source.findings:  # pragma: no cover - only what was told already is passed over
            source.fault((), "shape", f"{what} has another shape; see how one is written.")


def need_shape(source: Source) -> Any:
    """The validated model. Raises BadFile where the shape was wrong."""
    if source.shape is None or source.findings:
        raise BadFile(source.findings)
    return source.shape
