"""The manual of findings: one page for each code, in `guide/handbook/findings/`.

A page states the level of its finding and whether a file may accept it. The rules and the proof take the level
from there; reading and compiling a file give errors, since a file that cannot be read cannot be run.
A page is read when its code is found or asked for, and not before.
"""

import re
from dataclasses import dataclass
from functools import cache

from guide.files.findings import Finding
from guide.files.source import Path_, Source
from guide.handbook.pages import FINDINGS, page_names, page_text
from guide.procedure.graph import Node

_PARAGRAPH = r"[^\n]+(\n[^\n]+)*"
_SNIPPET = r"([^\n]*\n)+?"
_PAGE = re.compile(
    r"# (?P<code>[a-z-]+)\n\n"
    r"- Level: (?P<level>error|warning|advice)\n"
    r"- May be accepted: (?P<accepted>no|yes, with a reason)\n\n"
    r"(?P<title>[^\n]+)\n\n"
    rf"(?P<about>{_PARAGRAPH})\n\n"
    rf"Do: (?P<do>{_PARAGRAPH})\n"
    rf"(\n## Fails\n\n```yaml\n(?P<fails>{_SNIPPET})```\n"
    rf"\n## Passes\n\n```yaml\n(?P<passes>{_SNIPPET})```\n)?"
)
"""The one shape of a page. The two snippets are left out if they would be too long to print."""


@dataclass(frozen=True, slots=True)
class FindingPage:
    """A page of the manual."""

    code: str
    """Stable: files that accept a finding name it, and so do scripts."""
    level: str
    """`error`, `warning` or `advice`."""
    acceptable: bool
    """Whether a file may accept such a finding, with a reason."""
    title: str
    """One line: the fault."""
    about: str
    """The explanation: the fault, and why it matters on the job."""
    do: str
    """The advice, from the line `Do:`."""
    fails: str
    """A snippet that has the fault; `# here` marks the line. Empty if it would be too long."""
    passes: str
    """Its near twin, which does not."""


@cache
def all_codes() -> tuple[str, ...]:
    """The code of every finding, in the order of the alphabet."""
    return page_names(FINDINGS)


@cache
def page_of(code: str) -> FindingPage:
    """The page of a finding. Raises LookupError for an unknown code, ValueError for a page of another shape."""
    found = _PAGE.fullmatch(page_text(FINDINGS, code))
    if found is None or found["code"] != code:
        raise ValueError(f"The page of “{code}” does not have the shape of a finding's page.")
    return FindingPage(
        code,
        found["level"],
        found["accepted"] != "no",
        found["title"],
        found["about"],
        found["do"],
        found["fails"] or "",
        found["passes"] or "",
    )


def printed(page: FindingPage) -> str:
    """The page as a person reads it in a terminal."""
    may = "may be accepted, with a reason" if page.acceptable else "cannot be accepted"
    parts = [f"{page.code} ({page.level}; {may})", page.title, page.about, f"Do: {page.do}"]
    for name, snippet in (("Fails:", page.fails), ("Passes:", page.passes)):
        if snippet:
            parts += [name, "\n".join(f"    {line}".rstrip() for line in snippet.splitlines())]
    return "\n\n".join(parts)


def at_block(node: Node, code: str, message: str, example: str = "") -> Finding:
    """A finding at a block, of the level that its page states."""
    level = page_of(code).level
    return Finding(node.file, node.line, node.column, code, level, message, example)


def at_part(source: Source, path: Path_, code: str, message: str, *, key: bool = False) -> Finding:
    """A finding at a part of a file, or at its key, of the level that its page states."""
    mark = source.mark(path, key=key)
    return Finding(source.shown, *mark, code, page_of(code).level, message)
