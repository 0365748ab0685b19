"""`check`: everything that can be found in a file, in reading order, and the findings as a SARIF log.

SARIF: Static Analysis Results Interchange Format, OASIS Standard, version 2.1.0.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePath
from typing import Any
from urllib.parse import quote

from guide.checker.manual import FindingPage, all_codes, at_part, page_of, printed
from guide.checker.proof import Proof
from guide.checker.reach import Replay
from guide.checker.rules import FILE_RULES, GRAPH_RULES
from guide.files.findings import ADVICE, ERROR, WARNING, BadFile, Finding, Mark, resolved
from guide.files.library import KINDS, shipped_folder
from guide.files.marks import Map, Node, Seq, Text
from guide.files.source import Path_, Source
from guide.procedure import schema
from guide.procedure.compiler import compile_procedure
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded, load
from guide.text import meant, short


@dataclass(slots=True)
class Report:
    """The result of a check."""

    loaded: Loaded
    graph: Graph | None
    findings: list[Finding]
    proved: bool = False
    """Whether every property was proved or disproved, over every combination of answers."""
    accepted: list[tuple[Finding, str]] = field(default_factory=list)
    """Findings that the file itself accepts, each with its reason; they no longer count."""

    kind: str = "procedure"
    """`procedure`, or one of `OTHER_KINDS`."""

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

    `replay` runs each counter-example through the real engine before it is reported.
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
        findings += _by_rules(loaded, graph)
    looked = loaded.facts_only or graph is not None
    kept, accepted = sift(loaded, findings, whole=looked and not broken)
    return Report(loaded, graph, sorted(set(kept), key=Finding.place), proved, accepted)


def _by_rules(loaded: Loaded, graph: Graph | None) -> Iterator[Finding]:
    """What the rules find, except in a shipped part that a file of another folder includes: its author
    cannot change the part, and it is checked by itself."""
    shipped = resolved(shipped_folder() / KINDS["procedure"])
    own = resolved(loaded.root.path).parent == shipped
    others = {
        source.shown
        for path, source in loaded.sources.items()
        if not own and path.parent == shipped
    }
    for file_rule in FILE_RULES:
        yield from (found for found in file_rule(loaded) if found.file not in others)
    if graph is not None:
        for graph_rule in GRAPH_RULES:
            yield from (found for found in graph_rule(graph) if found.file not in others)


# --- files that are not procedures ---

OTHER_KINDS = ("scenario", "sheet", "practice")
"""In the order in which they are recognised: a scenario names its sheet."""


def kind_of(tree: Node) -> str:
    """The kind of a file by its first keys: one of `OTHER_KINDS`, or else `procedure`."""
    keys = tree.entries.keys() if isinstance(tree, Map) else ()
    return next((kind for kind in OTHER_KINDS if kind in keys and "steps" not in keys), "procedure")


def findings_of(kind: str, path: Path, text: str | None) -> list[Finding]:
    """Everything wrong with a file of one of `OTHER_KINDS`, in reading order."""
    # Slow to import, and needed for these files only.
    from guide.procedure.practice_file import read_practice
    from guide.procedure.scenario_file import load_scenario
    from guide.procedure.sheet_file import read_sheet
    from guide.trade.sheet_check.check import check_sheet

    try:
        if kind == "scenario":
            load_scenario(path, text)
            return []
        if kind == "practice":
            read_practice(path, text)
            return []
        source, sheet = read_sheet(path, text)
    except BadFile as error:
        return error.findings
    return [
        Finding(source.shown, *source.mark(found.path), "sheet-unlikely", ADVICE, found.message)
        if found.advice
        else Finding(source.shown, *source.mark(found.path), "sheet-geometry", ERROR, found.message)
        for found in check_sheet(sheet)
    ]


# --- accepted findings ---

Accepted = tuple[Finding, str]
"""A finding, and why it is accepted."""


def sift(
    loaded: Loaded, findings: list[Finding], *, whole: bool
) -> tuple[list[Finding], list[Accepted]]:
    """The findings that remain, with those about the entries themselves; and those accepted.

    An entry of `accepted` covers its own file, no matter which file includes that. Whether it is still needed is
    said only when its file is checked by itself, since a part may have a finding in one procedure and not in another.
    `whole` says whether everything could be looked at; else no entry is called unused.
    """
    accepted: list[Accepted] = []
    more: list[Finding] = []
    for source in loaded.sources.values():
        entries: list[schema.AcceptedShape] = getattr(source.shape, "accepted", [])
        places = _places(source) if entries else {}
        for number, entry in enumerate(entries):
            path: Path_ = ("accepted", number)
            refusal = _refusal(source, path, entry, places)
            if refusal is not None:
                more.append(refusal)
                continue
            found = [f for f in findings if _covers(source, entry, places[entry.at], f)]
            accepted += [(finding, entry.because) for finding in found]
            if not found and whole and source is loaded.root:
                more.append(at_part(source, path, "accepted-unused", _unused(entry)))
    taken = {finding for finding, _ in accepted}
    return [f for f in findings if f not in taken] + more, sorted(
        accepted, key=lambda one: one[0].place()
    )


def _covers(source: Source, entry: schema.AcceptedShape, marks: set[Mark], found: Finding) -> bool:
    here = found.file == source.shown and (found.line, found.column) in marks
    return here and found.code == entry.code


def _unused(entry: schema.AcceptedShape) -> str:
    return f"There is no “{entry.code}” at “{short(entry.at)}” to accept; take the entry out."


def _refusal(
    source: Source, path: Path_, entry: schema.AcceptedShape, places: dict[str, set[Mark]]
) -> Finding | None:
    """Why an entry counts for nothing; None if it counts."""
    if entry.code not in all_codes():
        hint = meant(entry.code, all_codes(), "“hingeside check --explain” lists them all.")
        message = f"There is no finding “{short(entry.code)}”; {hint}"
        return at_part(source, (*path, "code"), "accepted-unknown", message)
    if not page_of(entry.code).acceptable:
        message = f"“{entry.code}” cannot be accepted; correct what is found."
        return at_part(source, (*path, "code"), "accepted-refused", message)
    if entry.at not in places:
        hint = meant(entry.at, places, "name a block by its id.")
        message = f"This file has no block and no fact “{short(entry.at)}”; {hint}"
        return at_part(source, (*path, "at"), "accepted-unknown", message)
    return None


def _places(source: Source) -> dict[str, set[Mark]]:
    """Every place of each block, without the blocks inside it, and of each declared fact."""
    found: dict[str, set[Mark]] = {}
    for owner, mark in _owned(source.tree, ""):
        found.setdefault(owner, set()).add(mark)
    facts = source.tree.entries.get("facts") if isinstance(source.tree, Map) else None
    if isinstance(facts, Map):
        for name, fact in facts.entries.items():
            marks = {mark for _, mark in _owned(fact, name)}
            found.setdefault(name, set()).update(marks, {facts.key_marks[name]})
    found.pop("", None)
    return found


def _owned(node: Node, owner: str) -> Iterator[tuple[str, Mark]]:
    """Every place below a node, with the block that it belongs to."""
    if isinstance(node, Map):
        owner = _block_id(node) or owner
        for key, value in node.entries.items():
            yield owner, node.key_marks[key]
            yield from _owned(value, owner)
    elif isinstance(node, Seq):
        for item in node.items:
            yield from _owned(item, owner)
    yield owner, node.mark


def _block_id(node: Map) -> str:
    """The id of a block; empty for a mapping that is not a block."""
    if len(node.entries) != 1:
        return ""
    ((kind, body),) = node.entries.items()
    named = body.entries.get("id") if kind in schema.BLOCK_KINDS and isinstance(body, Map) else None
    return named.value if isinstance(named, Text) else ""


# --- SARIF ---

SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"
LEVELS = {ERROR: "error", WARNING: "warning", ADVICE: "note"}
"""Our levels as SARIF names them."""


def sarif_log(
    findings: Sequence[Finding], version: str, accepted: Iterable[tuple[Finding, str]] = ()
) -> dict[str, Any]:
    """One log with one run: a rule for each page of the manual, and a result for each finding.

    `accepted` are findings that a file accepts, each with its reason; they are marked as suppressed.
    """
    index = {code: number for number, code in enumerate(all_codes())}
    results = [_result(finding, index) for finding in findings]
    for finding, reason in accepted:
        suppressed = {"kind": "inSource", "justification": reason}
        results.append({**_result(finding, index), "suppressions": [suppressed]})
    driver = {
        "name": "hingeside",
        "semanticVersion": version,
        "rules": [_rule(page_of(code)) for code in all_codes()],
    }
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": results}
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def _rule(page: FindingPage) -> dict[str, Any]:
    return {
        "id": page.code,
        "shortDescription": {"text": page.title},
        "fullDescription": {"text": page.about},
        "help": {"text": printed(page)},
        "defaultConfiguration": {"level": LEVELS[page.level]},
    }


def _result(finding: Finding, index: dict[str, int]) -> dict[str, Any]:
    text = finding.message
    if finding.example:
        text += f" For example: {finding.example}"
    return {
        "ruleId": finding.code,
        "ruleIndex": index[finding.code],
        "level": LEVELS[finding.level],
        "message": {"text": text},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": _uri(finding.file)},
                    "region": {"startLine": finding.line, "startColumn": finding.column},
                }
            }
        ],
    }


def _uri(file: str) -> str:
    path = PurePath(file)
    return path.as_uri() if path.is_absolute() else quote(path.as_posix())
