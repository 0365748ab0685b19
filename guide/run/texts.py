"""The words of a block and the name of a fact, filled in for this run: its facts, its measures in the run's units, its
limit."""

from collections.abc import Callable

from guide.measures import Quantity, show, shown_in
from guide.measures.in_text import AT_LEAST, AT_MOST, bound_in_units
from guide.procedure.conditions import Against, Between, Compare, moved, said_offset
from guide.procedure.graph import Node
from guide.run.state import HIDDEN, Occurrence, State, label
from guide.text import LIMIT, fill, is_quantity

LIMIT_WORDS = {
    "<=": "at most",
    "<": "less than",
    ">=": "at least",
    ">": "more than",
    "=": "exactly",
}
_SAFE_SIDE = {"<=": AT_MOST, "<": AT_MOST, ">=": AT_LEAST, ">": AT_LEAST}


def show_fact(state: State, name: str) -> str:
    """A fact's value for a person, where the run is."""
    if name in state.hidden:
        return HIDDEN
    fact = state.graph.facts[name]
    value = state.known(name)
    return "…" if value is None else fact.show(value, state.units)


def filled(state: State, text: str, node: Node) -> str:
    """A text of a block with its facts, its measures in the units of the run, and its limit."""
    return fill(text, lambda inner: show_piece(state, inner, node))


def show_piece(
    state: State, inner: str, node: Node, of_fact: Callable[[State, str], str] | None = None
) -> str:
    """What stands between two braces of a block's text, for a person."""
    if is_quantity(inner):
        return shown_in(inner, state.units)
    if inner == LIMIT:
        return limit_number(state, node)
    return (of_fact or show_fact)(state, inner)


def limit_in_words(state: State, node: Node) -> str:
    """The limit of a measured check, for a person, as `at most 5 lbf (22 N)`; a yes or no speaks for itself."""
    limit = state.graph.limits.get(node.index)
    number = limit_number(state, node)
    if not number or isinstance(limit, Between):
        return f"from {number}" if number else ""
    return f"{LIMIT_WORDS[limit.operator]} {number}" if isinstance(limit, Compare | Against) else ""


def limit_number(state: State, node: Node) -> str:
    """The number of a check's limit in its own unit, and in the run's; empty if it has none."""
    limit = state.graph.limits.get(node.index)
    if isinstance(limit, Compare) and isinstance(limit.value, Quantity):
        return bound_in_units(limit.value, _SAFE_SIDE.get(limit.operator, ""), state.units)
    if isinstance(limit, Compare):
        return str(limit.value)
    if isinstance(limit, Between) and isinstance(limit.low, Quantity):
        high = limit.high if isinstance(limit.high, Quantity) else limit.low
        low = bound_in_units(limit.low, AT_LEAST, state.units)
        return f"{low} to {bound_in_units(high, AT_MOST, state.units)}"
    if isinstance(limit, Between):
        return f"{limit.low} to {limit.high}"
    if isinstance(limit, Against):
        return _other_with_offset(state, limit)
    return ""


def _other_with_offset(state: State, limit: Against) -> str:
    """The other fact's value; with an offset the number it comes to, and how."""
    other = state.known(limit.other)
    shown_other = show_fact(state, limit.other)
    if limit.offset is None or other is None or isinstance(other, str):
        return shown_other
    comes_to = moved(other, limit.offset)
    number = show(comes_to, state.units) if isinstance(comes_to, Quantity) else str(comes_to)
    offset = said_offset(limit.offset).strip().replace("- ", "less ").replace("+ ", "and ")
    return f"{number} ({shown_other} {offset})"


def name_of(state: State, name: str) -> str:
    """The name of a fact for a person: its short question without the mark, else its own name."""
    fact = state.graph.facts[name]
    return fact.short_question(state.units).rstrip("?") if fact.say else name.replace("_", " ")


def block_words(state: State, at: Occurrence) -> str:
    """A block in its short words, without a full stop; its label if it has none."""
    node = state.graph.nodes[at[0]]
    fact = state.graph.facts.get(node.body.get("fact", ""))
    asked = (fact.say or fact.ask) if fact is not None else ""
    words = node.body.get("say") or asked or node.body.get("text") or label(state.graph, at)
    return filled(state, words, node).rstrip(".")
