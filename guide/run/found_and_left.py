"""The readings of a job as the door was found and as it was left: for its end, and for its record."""

from guide.procedure.facts import Value
from guide.run.state import State
from guide.run.turn_views import turn_views
from guide.translation import _

READ = ("time", "force", "pressure")
"""Kinds of facts that are read off the door, and read again."""


def found_and_left(state: State, *, measured: bool = False) -> list[tuple[str, str, str]]:
    """Of each fact that was read off the door: its short question, the first value and the last.

    Marks measured again before a cut are left out; if `measured`, whatever no watch or gauge reads too.
    """
    values: dict[str, list[Value]] = {}
    for at in state.path if state.ended else state.path[:-1]:
        node, answer = state.graph.nodes[at[0]], state.answers.get(at)
        if answer is None:
            continue
        fact = state.graph.facts[node.body["fact"]]
        again = not measured and state.graph.tries_of(node) and not node.body.get("blind")
        if fact.kind in READ or again:
            values.setdefault(fact.name, []).append(answer.value)
    facts, units = state.graph.facts, state.units
    return [
        (
            facts[name].short_question(units).rstrip("?"),
            facts[name].show(read[0], units),
            facts[name].show(read[-1], units),
        )
        for name, read in values.items()
    ]


def readings_at_the_end(state: State) -> list[str]:
    """A line for each measured reading: the last value, and the first where it was another; turn by turn."""
    lines = []
    for label, view in turn_views(state) or [("", state)]:
        read = [_line(*one) for one in found_and_left(view, measured=True)]
        if read:
            lines += [_("{leaf}, as left:").format(leaf=label) if label else _("As left:"), *read]
    return lines


def _line(asked: str, found: str, left: str) -> str:
    if found == left:
        return f"{asked}: {left}"
    return str(_("{asked}: {left} (was {found})").format(asked=asked, left=left, found=found))
