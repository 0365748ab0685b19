"""`check`: everything that can be said about a file, in reading order."""

from dataclasses import dataclass, field
from pathlib import Path

from guide.procedure.checker.accepting import sift
from guide.procedure.checker.other_files import findings_of, kind_of
from guide.procedure.checker.proof import Proof
from guide.procedure.checker.rules import FILE_RULES, GRAPH_RULES
from guide.procedure.checker.trace import Replay
from guide.procedure.compiler import compile_procedure
from guide.procedure.findings import ADVICE, ERROR, Finding
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded, load


@dataclass(slots=True)
class Report:
    """What a check found."""

    loaded: Loaded
    graph: Graph | None
    findings: list[Finding]
    proved: bool = False
    """Whether every property was proved or disproved, over every combination of answers."""
    accepted: list[tuple[Finding, str]] = field(default_factory=list)
    """Findings that the file itself accepts, each with its reason; they count no more."""

    kind: str = "procedure"
    """`procedure`, `sheet` or `scenario`."""

    @property
    def sound(self) -> bool:
        """Whether the procedure may be run: nothing of level error."""
        return self.graph is not None and all(f.level != ERROR for f in self.findings)

    @property
    def clean(self) -> bool:
        """Whether there is nothing but advice."""
        return all(f.level == ADVICE for f in self.findings)


def check(path: Path, text: str | None = None, replay: Replay | None = None) -> Report:
    """Check one procedure file with all that it includes; never raises for what a file holds.

    `replay` carries counter-examples through the real engine before they are told.
    """
    loaded = load(path, text)
    kind = kind_of(loaded.root.tree)
    if kind != "procedure":
        return Report(
            loaded, None, sorted(findings_of(kind, path, text), key=Finding.place), kind=kind
        )
    if loaded.facts_only:
        graph, findings = None, loaded.gather()
    else:
        graph, findings = compile_procedure(loaded)
    broken = any(finding.level == ERROR for finding in findings)
    proved = False
    if graph is not None and not broken:
        proof = Proof(graph, replay)
        findings += proof.findings
        proved = proof.proved
    if not broken:
        for file_rule in FILE_RULES:
            findings += file_rule(loaded)
        if graph is not None:
            for graph_rule in GRAPH_RULES:
                findings += graph_rule(graph)
    looked = loaded.facts_only or graph is not None
    kept, accepted = sift(loaded, findings, whole=looked and not broken)
    return Report(loaded, graph, sorted(set(kept), key=Finding.place), proved, accepted)
