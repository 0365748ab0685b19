"""`check`: everything that can be said about a file, in reading order."""

from dataclasses import dataclass
from pathlib import Path

from guide.procedure.checker.branches import check_branches
from guide.procedure.checker.reach import check_reach
from guide.procedure.compiler import compile_procedure
from guide.procedure.findings import ADVICE, ERROR, Finding
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded, load

RULES = (check_branches, check_reach)
"""Each takes the graph and yields findings; they run only where the file could be compiled."""


@dataclass(slots=True)
class Report:
    """What a check found."""

    loaded: Loaded
    graph: Graph | None
    findings: list[Finding]

    @property
    def sound(self) -> bool:
        """Whether the procedure may be run: nothing of level error."""
        return self.graph is not None and all(f.level != ERROR for f in self.findings)

    @property
    def clean(self) -> bool:
        """Whether there is nothing but advice."""
        return all(f.level == ADVICE for f in self.findings)

    @property
    def proved(self) -> bool:
        """Whether every property was proved over every combination of answers.

        These rules look at each choice by itself, which proves less; so they never claim it.
        """
        return False


def check(path: Path, text: str | None = None) -> Report:
    """Check one procedure file with all that it includes; never raises for what a file holds."""
    loaded = load(path, text)
    if loaded.facts_only:
        return Report(loaded, None, loaded.gather())
    graph, findings = compile_procedure(loaded)
    if graph is not None and not any(f.level == ERROR for f in findings):
        findings += [finding for rule in RULES for finding in rule(graph)]
    return Report(loaded, graph, sorted(set(findings), key=Finding.place))
