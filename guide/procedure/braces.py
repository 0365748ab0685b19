"""Measures in braces in the texts of a file: those that cannot be understood are noted."""

from guide.files.source import Path_, Source
from guide.measures import MeasureError
from guide.measures.in_text import read_written
from guide.text import quantities_in


def check_quantities(source: Source, text: str, path: Path_) -> None:
    """Note each measure in braces that cannot be understood, or that has no unit."""
    for inner in quantities_in(text):
        try:
            read_written(inner)
        except MeasureError as error:
            source.fault(path, "unit-wrong", str(error))
