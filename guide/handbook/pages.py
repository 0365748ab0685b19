"""Where the handbook's pages are, and their text."""

import re
from pathlib import Path

FOLDER = Path(__file__).resolve().parent
"""The folder of this package, which holds the pages, in a checkout as in an installation."""


FINDINGS, USER = "findings", "user"
"""The folders: a page for each finding of `check`, and all other pages."""
_PICTURE = re.compile(r"!\[([^\]]*)\]\([^)]*\)")
"""In Markdown: the sentence of a picture, and its file."""


def page_names(subject: str) -> tuple[str, ...]:
    """The names of the pages of a subject, in the order of the alphabet; empty if there is no such subject."""
    return tuple(sorted(path.stem for path in (FOLDER / subject).glob("*.md")))


def page_text(subject: str, name: str) -> str:
    """The Markdown of a page, each picture as the sentence that says the same.

    Raises LookupError if the subject has no page of that name.
    """
    if name not in page_names(subject):
        raise LookupError(f"The handbook has no page “{name}” in “{subject}”.")
    text = (FOLDER / subject / f"{name}.md").read_text("utf-8")
    return _PICTURE.sub(r"*Picture: \1*", text)


def page_title(subject: str, name: str) -> str:
    """The heading of a page; its name where it has none. Raises LookupError as `page_text` does."""
    first = page_text(subject, name).partition("\n")[0]
    return first.removeprefix("#").strip() if first.startswith("# ") else name
