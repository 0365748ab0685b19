"""The two shipped sheets, as the program reads them and as the bare text of their files."""

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from guide.files.library import find as find_file
from guide.procedure.sheet_file import read_sheet
from guide.trade.answer import Answer
from guide.trade.registry import find, read_inputs, run
from guide.trade.sheet.sheet import Sheet

SHEETS = ("generic-a", "generic-b")


def load_sheet(path: Path) -> Sheet:
    return read_sheet(path)[1]


@cache
def shipped(name: str) -> Sheet:
    return load_sheet(find_file("sheet", name))


@cache
def raw(name: str) -> Any:
    """The sheet's file as text in lists and mappings; nothing is typed."""
    return yaml.load(find_file("sheet", name).read_text("utf-8"), Loader=yaml.BaseLoader)


def inches(text: str) -> Fraction:
    """“-2 3/4 in” or “41 mm” in inches, read without the program's own reader."""
    *parts, unit = text.removeprefix("-").split()
    size = sum((Fraction(part) for part in parts), Fraction(0))
    size *= {"in": Fraction(1), "mm": Fraction(10, 254)}[unit]
    return -size if text.startswith("-") else size


def answer(name: str, **texts: str) -> Answer:
    """A computation asked as on the command line."""
    computation = find(name)
    return run(name, read_inputs(computation, texts, open_sheet=shipped))
