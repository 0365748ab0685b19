"""What facts and blocks are called before a person: their short words, not the names that a file has for them."""

from guide.run.state import Occurrence, State, label
from guide.text import fill


def show_fact(state: State, name: str) -> str:
    """A fact's value for a person, where the run stands."""
    fact = state.graph.facts[name]
    value = state.known(name)
    return "…" if value is None else fact.show(value, state.units)


def name_of(state: State, name: str) -> str:
    """What a fact is called: its short question without the mark, else its own name."""
    return state.graph.facts[name].say.rstrip("?") or name.replace("_", " ")


def block_words(state: State, at: Occurrence) -> str:
    """A block in its short words, without a full stop; its label where it has none."""
    node = state.graph.nodes[at[0]]
    fact = state.graph.facts.get(node.body.get("fact", ""))
    asked = (fact.say or fact.ask) if fact is not None else ""
    words = node.body.get("say") or asked or node.body.get("text") or label(state.graph, at)
    return fill(words, lambda name: show_fact(state, name)).rstrip(".")
