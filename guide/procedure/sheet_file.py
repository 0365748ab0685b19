"""Reads a closer's sheet from its file; each fault is a finding with its line and column."""

from pathlib import Path
from typing import Any

from guide.files.findings import BadFile
from guide.files.marks import plain
from guide.files.source import Source, read_tree
from guide.trade.sheet.codec import BadSheetError
from guide.trade.sheet.sheet import Sheet

UNREADABLE = "\ufffd"
"""The character in place of one that could not be read, which is a finding already."""


def read_sheet(path: Path, text: str | None = None) -> tuple[Source, Sheet]:
    """The sheet in a file, and the places of its parts. Raises BadFile with every fault."""
    source = read_tree(path, "A sheet", text)
    try:
        sheet = Sheet.from_json(plain(source.tree))
    except BadSheetError as error:
        _note(source, error)
    if source.findings:
        raise BadFile(source.findings)
    return source, sheet


HEAD = "# Copied from the maker's sheet. Compare every number with the paper before anything is drilled.\n"


def written_sheet(data: dict[str, Any]) -> str:
    """The text of a sheet's file: plain data (`codec`), each row on a line of its own."""
    import yaml  # only a sheet that is written needs it

    return HEAD + yaml.safe_dump(
        data, allow_unicode=True, sort_keys=False, default_flow_style=None, width=1000
    )


def _note(source: Source, error: BadSheetError) -> None:
    """Each fault as a finding, except where the text itself could not be read."""
    spoilt = {(finding.line, finding.column) for finding in source.findings}
    for fault in error.faults:
        key = fault.code == "key-unknown"
        spoken_of = source.mark(fault.path, key=key) in spoilt or UNREADABLE in fault.message
        if not (spoken_of and source.findings):
            source.fault(fault.path, fault.code, fault.message, key=key)
