"""A paper that is printed, or written to a file."""

import shutil
import sys
from collections.abc import Callable
from pathlib import Path

from guide.cli.messages import Usage
from guide.errors import DONE
from guide.files.writing import write_beside
from guide.papers.site.site_list import WIDTH

HTML, PDF = "html", "pdf"
OTHER = (HTML, PDF)
"""The forms that are more than text."""


def need_file(form: str, output: str | None) -> None:
    """Raises Usage for a PDF that would be printed on the terminal."""
    if form == PDF and output is None:
        raise Usage("Say where the PDF goes: -o FILE.pdf.")


def put_out(made: bytes, output: str | None) -> int:
    """Print a paper, or write it to a file; the exit status."""
    if output is None:
        sys.stdout.write(made.decode("utf-8"))
    else:
        write_beside(Path(output), made)
    return DONE


def write_paper(
    form: str, output: str | None, text: Callable[[str], str], other: Callable[[str], bytes]
) -> int:
    """Make a paper and put it out; `other` makes those of `OTHER`."""
    need_file(form, output)
    return put_out(other(form) if form in OTHER else text(form).encode("utf-8"), output)


def width() -> int:
    """Columns of the terminal; those of a paper if there is none."""
    return shutil.get_terminal_size((WIDTH, 24)).columns if sys.stdout.isatty() else WIDTH
