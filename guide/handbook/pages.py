"""Where the handbook's pages are, and their text."""

from pathlib import Path

FOLDER = Path(__file__).resolve().parent
"""The folder of this package, which holds the pages, in a checkout as in an installation."""


def page_names(subject: str) -> tuple[str, ...]:
    """The names of the pages of a subject, in the order of the alphabet; empty if there is no such subject."""
    return tuple(sorted(path.stem for path in (FOLDER / subject).glob("*.md")))


def page_text(subject: str, name: str) -> str:
    """The Markdown of a page. Raises LookupError if the subject has no page of that name."""
    if name not in page_names(subject):
        raise LookupError(f"The handbook has no page “{name}” in “{subject}”.")
    return (FOLDER / subject / f"{name}.md").read_text("utf-8")


def page_title(subject: str, name: str) -> str:
    """The heading of a page; its name where it has none. Raises LookupError as `page_text` does."""
    first = page_text(subject, name).partition("\n")[0]
    return first.removeprefix("#").strip() if first.startswith("# ") else name
