"""Rules of hazards: a step that warns of nothing where its words tell of danger, or that warns too mildly."""

import re
from collections.abc import Iterator

from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.conditions import All, Is
from guide.procedure.graph import Graph, Node
from guide.procedure.hazards import GRAVITY, USUAL

_CURRENT = re.compile(r"\b(cables?|wires?|wiring|mains|circuits?|current|power)\b", re.IGNORECASE)
_LIVE = re.compile(
    r"\b(live|switch(ed|es)? (it )?off|isolate[ds]?|dead|disconnect(ed)?)\b", re.IGNORECASE
)

_BEGIN = r"(?:^|[.:;,] (?:and |then )?|\band |\bthen )"
"""Where an order begins: “Tighten”, and not “is tight”."""
_NEAR = r"(?: [\w'-]+){0,4}? "
"""The few words between an order and what it is about."""


def _words(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


TELLS_OF = (
    ("ladder", "a ladder", _words(rf"{_BEGIN}(?:climb\b(?! down)|(?:set up|check)(?: the)? ladder|the ladder\b)")),
    (
        "spring",
        "the spring or the arm under its load",
        _words(
            rf"{_BEGIN}(?:(?:set|turn|wind|raise|lower){_NEAR}springs?\b(?! hinge)"
            rf"|do{_NEAR}presets?\b|join{_NEAR}arms?\b)"
        ),
    ),
    (
        "ladder",
        "work on the closer, which is above the head",
        _words(
            rf"{_BEGIN}(?:turn|screw|fit|set|check|adjust|tighten|undo|hang|open|close|start)"
            rf"{_NEAR}(?:valves?|body|shoe|forearm|main arm|arm's|cover|coordinator)\b"
        ),
    ),
    (
        "fire-door",
        "a fire door out of order or handed over",
        _words(r"\b(?:this fire door|impairment notice|hold back a fire)\b"),
    ),
    ("dust", "chips and dust", _words(rf"{_BEGIN}(?:deburr|sand|vacuum{_NEAR}(?:chips|dust))\b")),
    ("drilling", "protection for eyes and ears", _words(r"\beye (?:and ear )?protection\b")),
)
"""A hazard, what of a text tells of it, and the words that do. Common practice."""


def hazard_unnamed(graph: Graph) -> Iterator[Finding]:
    """Each step whose words tell of a hazard, and which has neither hazards nor a caution."""
    for node in graph.nodes:
        if node.kind != "do" or node.body.get("cuts"):
            continue  # a cut without hazards is a finding of its own
        told = _unnamed(node) or _of_its_condition(graph, node)
        if told is not None:
            hazard, about = told
            message = (
                f"“{node.id}” is about {about}, and warns of nothing; "
                f"add hazards: [{hazard}], or a caution."
            )
            yield at_block(node, "hazard-unnamed", message)


def _unnamed(node: Node) -> tuple[str, str] | None:
    """The hazard that a step should name, and what tells of it; None if nothing does or it warns of something."""
    text, hazards = node.body.get("text", ""), node.body.get("hazards", ())
    if node.body.get("caution"):
        return None
    if "electrical" not in hazards and _CURRENT.search(text) and _LIVE.search(text):
        return "electrical", "a live cable"
    if hazards:
        return None
    return next(((name, about) for name, about, told in TELLS_OF if told.search(text)), None)


def _of_its_condition(graph: Graph, node: Node) -> tuple[str, str] | None:
    """The hazard named after the fact without whose yes a bare step is not done; None if there is none."""
    gate = graph.nodes[node.index - 1] if node.index else node
    guard = gate.edges[0].guard if gate.id == f"{node.id}?" and gate.edges else None
    if guard is None or node.body.get("hazards") or node.body.get("caution"):
        return None
    for hazard in USUAL:
        for part in guard.parts if isinstance(guard, All) else (guard,):
            if isinstance(part, Is) and part.labels == ("yes",) and part.fact == hazard.partition("-")[0]:
                return hazard, f"what is done where {part.fact} is yes"
    return None


def caution_weak(graph: Graph) -> Iterator[Finding]:
    """Each step whose gravest caution is milder than one of its hazards needs."""
    for node in graph.nodes:
        words = [word for caution in node.body.get("caution", ()) for word in caution]
        if not words:
            continue
        gravest = max(words, key=GRAVITY.index)
        for hazard in node.body.get("hazards", ()):
            least = graph.hazard(hazard).least
            if GRAVITY.index(gravest) < GRAVITY.index(least):
                message = (
                    f"“{node.id}” has the hazard {hazard}, and its own caution says no more than {gravest}; "
                    f"write {least} or graver."
                )
                yield at_block(node, "caution-weak", message)
                break


def hazard_missing(graph: Graph) -> Iterator[Finding]:
    """Each cut without hazards."""
    for node in graph.nodes:
        if node.body.get("cuts") and not node.body.get("hazards"):
            message = f"“{node.id}” cuts and names no hazard; add hazards."
            yield at_block(node, "hazard-missing", message)
