"""Rules of what stands side by side: holds of one choice, inputs of one computation, a range and what is usual."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from guide.checker.every_way import EveryWay
from guide.checker.manual import at_block, at_part
from guide.files.findings import Finding
from guide.measures import Quantity
from guide.procedure.facts import Fact
from guide.procedure.graph import Graph, Node
from guide.procedure.load import Loaded, includes_in
from guide.procedure.schema import ProcedureShape
from guide.trade import registry
from guide.trade.computation import Input

TIMES_USUAL = 10
"""How often what is usual a range may go up to before it looks like a slip of the decimal point or the unit."""
FEWEST_SHARED = 3
"""Facts that two holds must share to count as siblings."""
MOST_LACKED = 2
"""Facts that a hold may lack by a slip; one that lacks more is another hold."""

Using = frozenset[tuple[str, str]]
"""The inputs of a computation, each with what fills it."""


def hold_short(graph: Graph) -> Iterator[Finding]:
    """Each hold in one case that does not read back a fact, known there, which the hold in a sibling case does."""
    ways: EveryWay | None = None
    for node in graph.nodes:
        holds = _sibling_holds(graph, node) if node.kind == "by_case" else []
        for one in holds:
            for other in holds:
                lacked = [name for name in other.shows if name not in one.shows]
                shared = len(set(one.shows) & set(other.shows))
                if not lacked or shared < FEWEST_SHARED:
                    continue
                ways = ways or EveryWay(graph)
                bits = ways.always[one.index]
                lacked = [n for n in lacked if bits is not None and ways.knows(bits, n)]
                if 0 < len(lacked) <= MOST_LACKED:
                    message = (
                        f"“{one.id}” does not read back “{lacked[0]}”, and “{other.id}” does; "
                        "read it back in both, or accept this with the reason."
                    )
                    yield at_block(one, "hold-short", message)
                    break


def _sibling_holds(graph: Graph, node: Node) -> list[Node]:
    """The first hold of each case, if it stands in no further case."""
    found = []
    for edge in node.edges:
        holds = [n for n in graph.nodes[slice(*edge.inside)] if n.kind == "hold"]
        found += holds[:1]
    return found


def input_crossed(loaded: Loaded) -> Iterator[Finding]:
    """Each input of a computation that is filled by the fact named like another of its inputs."""
    for name, fact in loaded.facts.items():
        source, path = loaded.declared[name]
        for wanted, filler in fact.using.items():
            if _crossed(loaded, fact, wanted, filler):
                message = (
                    f"The input “{wanted}” is filled by “{filler}”, and there is a fact “{wanted}”; "
                    "fill each by its own."
                )
                place = (*path, "using", wanted)
                yield at_part(source, place, "input-crossed", message, key=True)
        offer = fact.offer
        other = _other_offer(loaded, name) if offer is not None else ""
        if other:
            message = f"“{name}” has the sheet's number for “{other}”; name its own computation."
            yield at_part(source, (*path, "sheet"), "input-crossed", message, key=True)


def input_left_out(loaded: Loaded) -> Iterator[Finding]:
    """Each computed fact that alone leaves out one input, known to its computation, which two or more others of its
    file have beside the same inputs."""
    of_file: dict[int, dict[str, Using]] = {}
    for name, fact in loaded.facts.items():
        source, _ = loaded.declared[name]
        of_file.setdefault(id(source), {})[name] = frozenset(fact.using.items())
    alike = {file: Counter(named.values()) for file, named in of_file.items()}
    for name, fact in loaded.facts.items():
        source, path = loaded.declared[name]
        beside, counted = of_file[id(source)], alike[id(source)]
        own = beside[name]
        if not fact.computation or counted[own] > 1:
            continue
        for other, using in beside.items():
            if len(using) != len(own) + 1 or counted[using] < 2 or not own < using:
                continue
            ((left, _),) = using - own
            if any(one.name == left for one in _inputs(fact)):
                message = (
                    f"“{name}” does not give “{fact.computation}” the input “{left}”, and “{other}” has it; "
                    "give it, or accept this with the reason."
                )
                yield at_part(source, (*path, "using"), "input-left-out", message, key=True)
                break


FEW = 3
"""Choices of an input from which one that a fact lacks looks like a slip."""


def option_lacking(loaded: Loaded) -> Iterator[Finding]:
    """Each fact that lacks one of the choices of the input it fills, and has all the others."""
    told: set[tuple[str, str]] = set()
    for fact in loaded.facts.values():
        for wanted, filler in fact.using.items():
            filled = loaded.facts.get(filler)
            choices = _choices(fact, wanted) if filled is not None and filled.options else ()
            if filled is None or len(choices) < FEW:
                continue
            lacking = [one for one in choices if one not in filled.options]
            if len(lacking) == 1 and (filler, lacking[0]) not in told:
                told.add((filler, lacking[0]))
                source, path = loaded.declared[filler]
                message = (
                    f"“{filler}” has no option “{lacking[0]}”, and “{fact.computation}” knows one; "
                    "add it, or accept this with the reason."
                )
                yield at_part(source, path, "option-lacking", message, key=True)


def _choices(fact: Fact, wanted: str) -> tuple[str, ...]:
    """The choices of an input of this fact's computation; empty if it has none."""
    return next((tuple(one.options or ()) for one in _inputs(fact) if one.name == wanted), ())


def _inputs(fact: Fact) -> Sequence[Input]:
    """The inputs of this fact's computation; none if there is no computation of that name."""
    try:
        return registry.find(fact.computation).inputs
    except LookupError:
        return ()


def _crossed(loaded: Loaded, fact: Fact, wanted: str, filler: str) -> bool:
    own = loaded.facts.get(wanted)
    if filler in (wanted, "") or filler.startswith("=") or own is None or not fact.computation:
        return False
    return filler in loaded.facts and any(filler == one.name for one in _inputs(fact))


def _other_offer(loaded: Loaded, name: str) -> str:
    """The fact whose name the computation of this one's offer ends with; empty if it is this one's, or nobody's."""
    offer = loaded.facts[name].offer
    ending = offer.computation.removeprefix("sheet-").replace("-", "_") if offer is not None else ""
    return ending if ending != name and ending in loaded.facts else ""


def range_wide(loaded: Loaded) -> Iterator[Finding]:
    """Each measured fact whose range goes far past what is usual, and no other fact's of its file goes as far."""
    for name, fact in loaded.facts.items():
        source, path = loaded.declared[name]
        high = fact.high
        if fact.usual is None or not isinstance(high, Quantity):
            continue
        alike = any(
            other is not fact and other.high == high and loaded.declared[one][0] is source
            for one, other in loaded.facts.items()
        )
        if not alike and high.base >= TIMES_USUAL * fact.usual[1].base > 0:
            message = (
                f"“{name}” may go up to {high}, and {fact.usual[1]} is the most that is usual; "
                "correct the number or the unit of one of them."
            )
            yield at_part(source, (*path, fact.kind, "to"), "range-wide", message)


# --- parts ---

MOST_NEIGHBOURS = 200
LARGEST_NEIGHBOUR = 2 * 1024 * 1024


def part_unused(loaded: Loaded) -> Iterator[Finding]:
    """A part, checked by itself, that no file of its folder includes although others there include parts."""
    shape = loaded.root.shape
    if not isinstance(shape, ProcedureShape) or "counts_on" not in shape.model_fields_set:
        return
    own = loaded.root.path.name
    named: set[str] = set()
    try:
        beside = sorted(loaded.root.path.resolve().parent.glob("*.yaml"))
        for path in beside if len(beside) <= MOST_NEIGHBOURS else ():
            if path.name != own and path.stat().st_size <= LARGEST_NEIGHBOUR:
                text = path.read_text("utf-8", "replace")
                named.update(re.findall(r"\bfile:\s*[\"']?([\w.-]+\.yaml)", text))
    except OSError:
        return
    inner = {name for name, _ in includes_in(shape.steps, ("steps",))}
    if named - inner - {own} and own not in named:
        message = f"No file of this folder includes “{own}”; include it again, or take it away."
        yield at_part(loaded.root, ("counts_on",), "part-unused", message, key=True)
