"""Rules of hazards: a step that warns of nothing where its words tell of danger, or that warns too mildly."""

import re
from collections.abc import Iterator

from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.graph import Graph, Node
from guide.procedure.hazards import GRAVITY

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
    (
        "ladder",
        "a ladder",
        _words(rf"{_BEGIN}(?:climb\b(?! down)|(?:set up|check)(?: the)? ladder|the ladder\b)"),
    ),
    (
        "spring",
        "the spring or the arm under its load",
        _words(
            rf"{_BEGIN}(?:(?:set|turn|wind|raise|lower){_NEAR}springs?\b(?! hinge)"
            rf"|do{_NEAR}presets?\b|join{_NEAR}arms?\b)"
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
_OVERHEAD = _words(
    rf"{_BEGIN}(?:turn|screw|fit|set|check|adjust|tighten|undo|hang|open|close|start)"
    rf"{_NEAR}(?:valves?|body|shoe|forearm|main arm|arm's|cover|coordinator)\b"
)
"""Work on the closer, which is above the head: done from a ladder, of which not every procedure warns each time."""
FEWEST_WARNED = 2


def hazard_unnamed(graph: Graph) -> Iterator[Finding]:
    """Each step whose words tell of a hazard, and which has neither hazards nor a caution; of work on the closer only
    where most steps of that sort warn of something."""
    steps = [node for node in graph.nodes if node.kind == "do" and not node.body.get("cuts")]
    above = {(n.file, n.line): n for n in steps if _OVERHEAD.search(n.body.get("text", ""))}
    warned = sum(_warns(node) for node in above.values())
    usual = warned >= max(FEWEST_WARNED, len(above) - warned)
    for node in steps:  # a cut without hazards is a finding of its own
        told = _unnamed(node)
        if told is None and usual and (node.file, node.line) in above and not _warns(node):
            told = "ladder", "work on the closer, as others are that warn of something"
        if told is not None:
            hazard, about = told
            message = (
                f"“{node.id}” is about {about}, and warns of nothing; "
                f"add hazards: [{hazard}], or a caution."
            )
            yield at_block(node, "hazard-unnamed", message)


def _warns(node: Node) -> bool:
    return bool(node.body.get("hazards") or node.body.get("caution"))


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
