"""The checker's findings held against every real run of the same file, both ways.

What is compared, block by block and code by code (a block of an included file is one block, however often
it is included):

- `case-missing`, `case-overlap`, `fact-not-known`, `cut-without-hold`, `input-out-of-domain`: what
  the engine meets. Where it refuses to go on (a gap, an unknown fact, an unheld cut), nothing behind it
  counts.
- `unreachable`, `case-never`, `condition-constant`, `limit-constant`: a block that shows an unknown
  fact or cuts unheld stops no case here, so that one mistake is told once; the real engine is walked on the
  same graph with those blocks made to show nothing and cut nothing. Of dead blocks one finding a
  dead part is enough, or the constant condition before it.
- `stranded`: standings from where no answers lead to an end; where the engine refuses counts as ended.
  Each such standing must lead to a block that is told of.

Where a file computes what no table can hold, or checks one fact against another, the sets hold more cases
than there are. There a block may be dead, a condition constant and a standing stranded without being told;
whatever is told must still be true, and no fault that a run meets may be passed over in silence.
"""

import json
import re
from collections import Counter
from collections.abc import Iterator
from copy import copy
from dataclasses import dataclass, field, replace
from pathlib import Path

from guide.checker.check import check
from guide.checker.model import CaseModel
from guide.files.findings import ERROR, Finding
from guide.procedure.conditions import facts_of, to_json
from guide.procedure.graph import Graph, Node
from guide.run.replay import replay
from tests.checker.real_runs import Broken, Explorer, Place, TooMany, Truth, every_condition, place
from tests.checker.small_files import ROOT

MET = (
    "case-missing",
    "case-overlap",
    "fact-not-known",
    "cut-without-hold",
    "input-out-of-domain",
)
CONSTANT = ("case-never", "condition-constant", "limit-constant")
CODES = (*MET, "unreachable", *CONSTANT, "stranded")
DETAIL = re.compile(
    r"the same answers \((?P<pair>[^)]*)\)|needs “(?P<fact>[^”]*)”|and “(?P<cut>[^”]*)” was not read"
    r"|computes “(?P<input>[^”]*)” past"
)
CLAIMED = {
    "pair": "case-overlap",
    "fact": "fact-not-known",
    "cut": "cut-without-hold",
    "input": "input-out-of-domain",
}


@dataclass
class Verdict:
    """How one file came out."""

    outcome: str
    """`compared`, `refused` (the compiler found it wrong) or `too large`."""
    loose: bool = False
    """Whether the sets hold more cases than there are."""
    wrong: list[str] = field(default_factory=list)
    """Every disagreement, in words."""
    broken: Counter[str] = field(default_factory=Counter)
    """By code: the blocks at which it is broken."""
    whole: Counter[str] = field(default_factory=Counter)
    """By code: the blocks that were put to the question and at which it is not broken."""
    abstained: Counter[str] = field(default_factory=Counter)
    """`true` and `false`: what `not-proved` was said of."""
    missed: Counter[str] = field(default_factory=Counter)
    """By code: what a loose file passed over, which it may."""
    standings: int = 0


def held_against(folder: Path, files: dict[str, str], most: int = 400) -> Verdict:
    """Check the files, walk them, and compare."""
    for name, text in files.items():
        (folder / name).write_text(text)
    report = check(folder / ROOT, replay=replay)
    compiled = [f for f in report.findings if f.code not in CODES and f.code != "not-proved"]
    if report.graph is None or any(f.level == ERROR for f in compiled):
        return Verdict("refused")
    explorer = Explorer(report.graph, most)
    try:
        truth = explorer.explore()
        lenient = _lenient(report.graph, truth, most)
    except TooMany:
        return Verdict("too large")
    verdict = Verdict("compared", _loose(report.graph), standings=truth.standings)
    comparison = Comparison(report.graph, report.findings, truth, lenient, verdict)
    comparison.compare(explorer)
    return verdict


def _loose(graph: Graph) -> bool:
    untabled = CaseModel(graph).free_level
    return any(
        untabled.keys() & set(facts_of(c)) or "against" in json.dumps(to_json(c))
        for c in every_condition(graph)
    )


def _lenient(graph: Graph, truth: Truth, most: int) -> Truth:
    """What is true once the blocks that the engine refuses show nothing and cut nothing."""
    while truth.refused:
        refused = truth.refused
        nodes = [_silent(n) if n.index in refused else n for n in graph.nodes]
        graph = replace(graph, nodes=nodes)
        truth = Explorer(graph, most).explore()
    return truth


def _silent(node: Node) -> Node:
    still = copy(node)
    still.shows = ()
    still.body = {key: value for key, value in node.body.items() if key != "cuts"}
    return still


@dataclass
class Comparison:
    """One file's findings beside what is true."""

    graph: Graph
    findings: list[Finding]
    truth: Truth
    lenient: Truth
    verdict: Verdict

    def compare(self, explorer: Explorer) -> None:
        """Fill in the verdict."""
        self.kinds = {place(node): node.kind for node in self.graph.nodes}
        self.ids = {place(node): node.id for node in self.graph.nodes}
        self.told = {self._claim(f) for f in self.findings if f.code in CODES}
        self.doubted = {self._claim(f) for f in self.findings if f.code == "not-proved"}
        self._met()
        self._constant()
        self._dead()
        self._stranded(explorer)

    def _claim(self, finding: Finding) -> Broken:
        where = (finding.file, finding.line, finding.column)
        code, detail = finding.code, ""
        found = DETAIL.search(finding.message)
        if found is not None and found.lastgroup is not None:
            detail = found[found.lastgroup]
            code = CLAIMED[found.lastgroup] if code == "not-proved" else code
        elif code == "not-proved":
            code = "stranded" if "no answer leads" in finding.message else "case-missing"
        if code == "fact-not-known" and self.kinds.get(where) in ("by_case", "when", "repeat"):
            detail = ""
        if code == "case-never":
            found = re.search(r"the case “([^”]*)”", finding.message)
            detail = found[1] if found else ""
        return where, code, detail

    def _wrong(self, what: str, claim: Broken) -> None:
        where, code, detail = claim
        self.verdict.wrong.append(f"{what}: {code} at {self.ids.get(where, where)} ({detail})")

    def _count(self, code: str, broken: set[Place], asked: set[Place]) -> None:
        self.verdict.broken[code] += len(broken & asked)
        self.verdict.whole[code] += len(asked - broken)

    # --- what a run meets ---

    def _met(self) -> None:
        true = {claim for claim in self.truth.broken if claim[1] in MET}
        told = {claim for claim in self.told if claim[1] in MET}
        doubted = {claim for claim in self.doubted if claim[1] in MET}
        for claim in told - true:
            self._wrong("told and not so", claim)
        for claim in true - told - doubted:
            self._wrong("so and not told", claim)
        for claim in doubted:
            self.verdict.abstained["true" if claim in true else "false"] += 1
            if not self.verdict.loose:
                self._wrong("not proved though exact", claim)
        for code in MET:
            broken = {claim[0] for claim in true if claim[1] == code}
            self._count(code, broken, set(self._asked(code)))

    def _asked(self, code: str) -> Iterator[Place]:
        """The blocks that some run comes to and that the property is a question of."""
        for node in self.graph.nodes:
            if node.index not in self.truth.visited:
                continue
            decides = node.kind in ("by_case", "when", "repeat", "check")
            if (
                (code in ("case-missing", "case-overlap") and node.kind == "by_case")
                or (code == "fact-not-known" and (node.shows or decides))
                or (code == "cut-without-hold" and node.body.get("cuts"))
                or (code == "input-out-of-domain" and self._computes(node))
            ):
                yield place(node)

    def _computes(self, node: Node) -> bool:
        names = set(node.shows) | {f for e in node.edges if e.guard for f in facts_of(e.guard)}
        if node.index in self.graph.untils:
            names |= set(facts_of(self.graph.untils[node.index]))
        return any(self.graph.facts[name].worked for name in names)

    # --- conditions that are always the same ---

    def _constant(self) -> None:
        ways: dict[Place, set[int]] = {}
        nodes: dict[Place, Node] = {}
        for node in self.graph.nodes:
            if node.kind in ("when", "check", "by_case", "repeat"):
                nodes[place(node)] = node
                ways.setdefault(place(node), set()).update(
                    self.lenient.taken.get(node.index, set())
                )
        true: set[Broken] = set()
        asked: dict[str, set[Place]] = {code: set() for code in CONSTANT}
        for where, taken in ways.items():
            if taken:
                code = {"check": "limit-constant", "by_case": "case-never"}.get(
                    nodes[where].kind, "condition-constant"
                )
                asked[code].add(where)
                true |= {(where, code, detail) for detail in self._same(nodes[where], taken)}
        told = {claim for claim in self.told if claim[1] in CONSTANT}
        for claim in told - true:
            if ways[claim[0]] or not self.verdict.loose:  # else no run comes there at all
                self._wrong("told and not so", claim)
        for claim in true - told:
            if self.verdict.loose:
                self.verdict.missed[claim[1]] += 1
            else:
                self._wrong("so and not told", claim)
        for code in CONSTANT:
            self._count(code, {claim[0] for claim in true if claim[1] == code}, asked[code])

    def _same(self, node: Node, taken: set[int]) -> Iterator[str]:
        """One detail for each way never taken that counts as a fault."""
        if node.kind == "by_case":
            yield from (e.label for n, e in enumerate(node.edges) if n not in taken)
        elif node.kind == "repeat":
            if 0 not in taken or taken == {0}:
                yield ""
        elif len(taken) == 1:
            yield ""

    # --- dead blocks ---

    def _dead(self) -> None:
        every = {place(node) for node in self.graph.nodes if node.id != "end-of-part"}
        alive = {place(self.graph.nodes[index]) for index in self.lenient.visited}
        dead = every - alive
        told = {claim for claim in self.told if claim[1] == "unreachable"}
        for claim in told:
            if claim[0] not in dead:
                self._wrong("told and not so", claim)
        if self.verdict.loose:
            self.verdict.missed["unreachable"] += len(dead)
        else:
            for where in dead:
                if not self._accounted(where, dead):
                    self._wrong("so and not told", (where, "unreachable", ""))
        self._count("unreachable", dead, every)

    def _accounted(self, where: Place, dead: set[Place]) -> bool:
        """Whether a dead block is told of, or what leads to it is: a dead block, a constant condition,
        or a decision at which runs are refused."""
        told = {claim[0] for claim in self.told} | {claim[0] for claim in self.lenient.broken}
        seen = {where}
        todo = [where]
        while todo:
            here = todo.pop()
            if here in told:
                return True
            for node in self.graph.nodes:
                its = place(node)
                if its not in seen and any(
                    place(self.graph.nodes[edge.target]) == here for edge in node.edges
                ):
                    if its in dead:
                        seen.add(its)
                        todo.append(its)
                    elif its in told:
                        return True
        return False

    # --- no way to an end ---

    def _stranded(self, explorer: Explorer) -> None:
        lost = {index for passed in self.truth.lost.values() for index in passed}
        places = {place(self.graph.nodes[index]) for index in lost}
        told = {claim[0] for claim in self.told if claim[1] == "stranded"}
        doubted = {claim[0] for claim in self.doubted if claim[1] == "stranded"}
        for where in told - places:
            self._wrong("told and not so", (where, "stranded", ""))
        for where in doubted:
            self.verdict.abstained["true" if where in places else "false"] += 1
        known = {n.index for n in self.graph.nodes if place(n) in told | doubted}
        beside = explorer.lost_beside(known)
        if beside and self.verdict.loose:
            self.verdict.missed["stranded"] += 1
        elif beside:
            self.verdict.wrong.append(f"so and not told: {beside} standings are stranded")
        visited = {place(self.graph.nodes[index]) for index in self.truth.visited}
        self._count("stranded", places, visited)


def totals(verdicts: list[Verdict]) -> dict[str, tuple[int, int, int, int]]:
    """For each code: files in which it is broken, and not; blocks at which it is broken, and not."""
    found = {}
    for code in CODES:
        files = sum(1 for v in verdicts if v.broken[code])
        clean = sum(1 for v in verdicts if v.whole[code] and not v.broken[code])
        found[code] = (
            files,
            clean,
            sum(v.broken[code] for v in verdicts),
            sum(v.whole[code] for v in verdicts),
        )
    return found
