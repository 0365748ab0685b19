"""`check` of a file that is no procedure: a closer's sheet, a scenario, or a practice door."""

from pathlib import Path

from guide.procedure.findings import ERROR, BadFile, Finding
from guide.procedure.marks import Map, Node

KINDS = ("scenario", "sheet", "practice")
"""In the order they are told apart: a scenario names its sheet."""


def kind_of(tree: Node) -> str:
    """What a file is by its first keys: `scenario`, `sheet`, or else `procedure`."""
    keys = tree.entries.keys() if isinstance(tree, Map) else ()
    return next((kind for kind in KINDS if kind in keys and "steps" not in keys), "procedure")


def findings_of(kind: str, path: Path, text: str | None) -> list[Finding]:
    """Everything wrong with a file of one of KINDS, in reading order."""
    # Dear to import, and wanted for these files only.
    from guide.procedure.practice_file import read_practice
    from guide.procedure.scenario_file import load_scenario
    from guide.procedure.sheet_file import read_sheet
    from guide.trade.sheet_check.check import check_sheet

    try:
        if kind == "scenario":
            load_scenario(path, text)
            return []
        if kind == "practice":
            read_practice(path, text)
            return []
        source, sheet = read_sheet(path, text)
    except BadFile as error:
        return error.findings
    return [
        Finding(source.shown, *source.mark(found.path), "sheet-geometry", ERROR, found.message)
        for found in check_sheet(sheet)
    ]
