"""The values a door schedule gives for one opening, checked against the facts of a procedure."""

from collections.abc import Mapping

from guide.errors import UNKNOWN, HingesideError
from guide.procedure.facts import Value, WrongAnswer
from guide.procedure.graph import Graph
from guide.text import meant


class WrongDoor(HingesideError, ValueError):
    """A door file that does not fit the procedure; the message says where."""

    status = UNKNOWN


def supplied_values(graph: Graph, door: Mapping[str, str], units: str) -> dict[str, Value]:
    """The door's facts as values. Raises WrongDoor naming the first that does not fit."""
    found: dict[str, Value] = {}
    for name, text in door.items():
        fact = graph.facts.get(name)
        if fact is None or fact.worked:
            askable = [n for n, f in graph.facts.items() if not f.worked]
            raise WrongDoor(
                f"The door gives “{name}”, which {graph.name} does not ask; "
                f"{meant(name, askable, 'take it out.')}"
            )
        try:
            found[name] = fact.read(text, units)
        except WrongAnswer as error:
            raise WrongDoor(f"The door gives {name} as “{text}”: {error}") from error
    return found
