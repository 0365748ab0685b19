"""What a rule is, and how its docstring is read as its page of the manual.

A page has, in this order: one line that names the fault; what it is and why it matters; a paragraph that
begins with “Do:”; and the snippets under “Fails:” and “Passes:”, indented. A test runs every snippet.
"""

import inspect
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from guide.procedure.findings import Finding
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded


class Rule:
    """One thing that may be wrong with a file; a subclass's docstring is its page of the manual."""

    code: ClassVar[str]
    """Stable: files that accept a finding name it, and so do scripts."""
    level: ClassVar[str]
    """`error`, `warning` or `advice`."""
    acceptable: ClassVar[bool] = False
    """Whether a file may accept such a finding, with a reason."""
    message: ClassVar[str] = ""
    """The sentence, with `{id}` and `{detail}` to be filled in; empty where another file words it."""

    @classmethod
    def in_facts(cls, loaded: Loaded) -> Iterator[Finding]:
        """What the declared facts break. Nothing for a rule that is looked after elsewhere."""
        return iter(())

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """What the blocks break. Nothing for a rule that is looked after elsewhere."""
        return iter(())


@dataclass(frozen=True, slots=True)
class Page:
    """A rule's page of the manual."""

    title: str
    """One line: the fault."""
    about: str
    """What it is, and why it matters on the job."""
    do: str
    """What to do about it."""
    fails: str
    """A snippet that breaks the rule; `# here` marks the line. Empty where it would be too long."""
    passes: str
    """Its near twin, which does not."""


MARK = "# here"
"""Ends the line of a failing snippet that the finding must name."""
HEAD = "procedure: example\ntitle: An example\n"
"""Stands before a snippet that is a part of a procedure."""
ROOT = "example.yaml"
_OTHER = re.compile(r"^# --- (\S+\.yaml)\n", re.MULTILINE)


def page_of(rule: type[Rule]) -> Page:
    """The rule's docstring, taken apart."""
    text = inspect.getdoc(rule) or ""
    words, _, snippets = text.partition("\n\nFails:\n\n")
    fails, _, passes = snippets.partition("\n\nPasses:\n\n")
    title, _, rest = words.partition("\n\n")
    about, _, do = rest.partition("Do: ")
    return Page(title, about.strip(), do.strip(), _outdented(fails), _outdented(passes))


def printed(rule: type[Rule]) -> str:
    """The page as a person reads it in a terminal."""
    page = page_of(rule)
    may = "may be accepted, with a reason" if rule.acceptable else "cannot be accepted"
    parts = [f"{rule.code} ({rule.level}; {may})", page.title, page.about, f"Do: {page.do}"]
    for name, snippet in (("Fails:", page.fails), ("Passes:", page.passes)):
        if snippet:
            parts += [name, "\n".join(f"    {line}".rstrip() for line in snippet.splitlines())]
    return "\n\n".join(part for part in parts if part)


def files_of(snippet: str) -> dict[str, str]:
    """The files a snippet stands for, by name; `# --- name.yaml` begins another than the first."""
    first, *others = _OTHER.split(snippet)
    files = {ROOT: _whole(first)}
    for name, text in zip(others[::2], others[1::2], strict=True):
        files[name] = _whole(text)
    return files


def _whole(text: str) -> str:
    part = re.match(r"(facts|facts_in|counts_on|accepted|steps):", text) is not None
    return HEAD + text if part and "\nsteps:" in "\n" + text else text


def _outdented(text: str) -> str:
    lines = [line.removeprefix("    ") for line in text.splitlines()]
    return "\n".join(lines) + "\n" if lines else ""
