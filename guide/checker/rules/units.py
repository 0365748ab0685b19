"""Rules of units: a measure in words is written so that it can be shown in the units of the job."""

import re
from collections.abc import Iterator

from guide.checker.contrast import NUMBERS
from guide.checker.manual import at_block, at_part
from guide.files.findings import Finding
from guide.measures.mentioned import measures_named, outside_braces, unit_asked_for, units_named
from guide.procedure.compiler import TEXT_KEYS
from guide.procedure.facts import MEASURED, Fact
from guide.procedure.graph import Graph, Node
from guide.procedure.load import Loaded

_WORD = re.compile(r"\b[A-Za-z]+\b(?! in\b)")
"""“One in three” is not an inch."""


def unit_of_one_system(graph: Graph) -> Iterator[Finding]:
    """Each block with a measure in its words that only those who work in one system understand."""
    for node in graph.nodes:
        found = next(filter(None, map(_of_one_system, _texts(node))), "")
        if found:
            message = f"“{node.id}” has {_advice(found)}"
            yield at_block(node, "unit-of-one-system", message)


def question_of_one_system(loaded: Loaded) -> Iterator[Finding]:
    """Each question with such a measure, or that names a unit for its answer, as in “Pounds to open?”."""
    for name, fact in loaded.facts.items():
        source, path = loaded.declared[name]
        told = next(filter(None, map(_of_one_system, (fact.ask, fact.say, fact.find_out))), "")
        unit = _unit_asked_for(fact)
        if told or unit:
            message = f"“{name}” has {_advice(told)}"
            if not told:
                message = (
                    f"“{name}” asks for “{unit}”, and a number without a unit is of the unit of the job; "
                    "ask without a unit."
                )
            yield at_part(source, path, "question-of-one-system", message, key=True)


def _advice(found: str) -> str:
    return (
        f"“{found}”, of one system of units; write {{{found}}}, or {{at most {found}}} or "
        f"{{at least {found}}} where a rule sets it."
    )


def _texts(node: Node) -> list[str]:
    body = node.body
    found = [body[key] for key in TEXT_KEYS if key in body]
    found += [text for caution in body.get("caution", ()) for text in caution.values()]
    found += [*body.get("tools", ()), *body.get("parts", ())]
    return [*found, body.get("picture", {}).get("says", "")]


def _of_one_system(text: str) -> str:
    """The first measure of one system in a text that has none of the other system beside it; empty if there is none."""
    plain = _WORD.sub(lambda found: NUMBERS.get(found[0].lower(), found[0]), outside_braces(text))
    found = list(measures_named(plain))
    beside = [unit for _, unit in (*found, *units_named(plain))]
    for said, unit in found:
        if not any(other.kind == unit.kind and other.systems != unit.systems for other in beside):
            return said
    return ""


def _unit_asked_for(fact: Fact) -> str:
    """A unit of one system that the question names for its answer; empty if it names none."""
    if fact.kind not in MEASURED:
        return ""
    found = unit_asked_for(fact.ask, fact.kind) or unit_asked_for(fact.say, fact.kind)
    return found[0] if found else ""
