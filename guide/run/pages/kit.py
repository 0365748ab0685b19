"""The tools and parts to have at hand for what is left of a job, before the first climb.

From the steps of the ways that are still open, and from the setting-out of the opening: the accessory it needs, and
what is drilled into leaf and frame for which screws.
"""

from collections.abc import Iterable
from typing import NamedTuple

from guide.procedure.graph import Node
from guide.run.pages.page import Page, Section, page
from guide.run.pages.ways_ahead import ways_ahead
from guide.run.state import State
from guide.run.worked_ahead import ahead_of

SETTING_OUT = "setting-out"
"""The computation of where the holes go."""
CLIMBS = "ladder"
"""The hazard of a step that is done on a ladder."""


class Kit(NamedTuple):
    """What to have at hand."""

    tools: tuple[str, ...]
    """Those of the steps that every way to a finished job has."""
    parts: tuple[str, ...]
    """The same, with the accessories that the opening needs."""
    drilled: tuple[str, ...]
    """What is drilled into leaf and frame, and for which screws; a sentence for each."""
    perhaps: tuple[str, ...]
    """Tools and parts of steps that depend on answers still to come."""


def kit_of(state: State) -> Kit:
    """The tools and parts for what is left from where the run is."""
    # Before the mount is known a setting-out worked out ahead lacks what decides which holes there are.
    sure = _mount_known_since(state) is not None
    certain, some = ways_ahead(ahead_of(state) if sure else state)
    accessories, drilled = _of_the_opening(state, [*certain, *some])
    tools = tuple(_each(certain, "tools"))
    parts = tuple(dict.fromkeys([*accessories, *_each(certain, "parts")]))
    others = dict.fromkeys([*_each(some, "tools"), *_each(some, "parts")])
    perhaps = tuple(one for one in others if one not in {*tools, *parts})
    return Kit(tools, parts, drilled, perhaps)


def _each(nodes: Iterable[Node], key: str) -> dict[str, None]:
    return dict.fromkeys(one for node in nodes for one in node.body.get(key, ()))


def _of_the_opening(state: State, ahead: list[Node]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The accessories and what is drilled, if anything is still to be drilled here and the mount is known."""
    if state.known("mount") is None or not any(node.body.get("cuts") for node in ahead):
        return (), ()
    from guide.run.run_opening import setting_out_of_run  # with the trade's computations
    from guide.trade.holes.accessories import KIND_WORDS
    from guide.trade.holes.rows import drill_sentence

    so = setting_out_of_run(state)
    found = {(one.kind, one.carries): one.name for one in so.accessories.found}
    accessories = tuple(
        found.get((need.kind, need.carries), KIND_WORDS[need.kind]) for need in so.accessories.needs
    )
    said = [(part, drill_sentence(so, part, state.units)) for part, _ in so.fixings]
    drilled = tuple(f"{part[:1].upper()}{part[1:]}: {one}." for part, one in said if one)
    return accessories, drilled


def kit_lines(kit: Kit) -> list[str]:
    """The list in a few lines, to be read at the step before which it is fetched."""
    rows = (
        ("Tools", kit.tools),
        ("Parts", kit.parts),
        ("Perhaps", kit.perhaps),
    )
    return [*(f"{name}: {', '.join(some)}." for name, some in rows if some), *kit.drilled]


def kit_due(state: State, node: Node) -> list[str]:
    """The list, at the first step on a ladder, or that marks or cuts, once the mount is known; empty at any other.

    Where a procedure sets nothing out, the parts depend on no mount.
    """
    if not _begins_work(node):
        return []
    since = _mount_known_since(state)
    nodes = state.graph.nodes
    if since is None or any(_begins_work(nodes[index]) for index, _ in state.path[since:-1]):
        return []
    return kit_lines(kit_of(state))


def _mount_known_since(state: State) -> int | None:
    """The place in the path from which the mount is known; 0 where none is needed, None where it is still to come."""
    facts = state.graph.facts.values()
    asked_as = next(
        (one.using.get("mount", "") for one in facts if one.computation == SETTING_OUT), ""
    )
    if not any(node.body.get("fact") == asked_as for node in state.graph.nodes):
        return 0
    if state.known(asked_as) is None:
        return None
    asking = (place for place, at in enumerate(state.path) if at in state.answers)
    nodes = state.graph.nodes
    return next((p for p in asking if nodes[state.path[p][0]].body["fact"] == asked_as), 0)


def _begins_work(node: Node) -> bool:
    body = node.body
    return node.kind == "do" and bool(
        CLIMBS in body.get("hazards", ())
        or "step ladder" in body.get("tools", ())
        or "holes" in body
        or body.get("cuts")
    )


def kit_page(state: State) -> Page:
    """The tools and parts, one a line."""
    kit = kit_of(state)
    made = page(
        "Tools and parts for what is left",
        Section("Tools", kit.tools),
        Section("Parts", kit.parts),
        Section("Drilled here", kit.drilled),
        Section("Perhaps, by answers still to come", tuple(_in_one_line(kit.perhaps))),
    )
    return made if made.sections else page(made.title, Section("", (NONE_NAMED,)))


def _in_one_line(things: tuple[str, ...]) -> list[str]:
    """Many things as one sentence: early in a job there may be fifty."""
    return [f"{', '.join(things)}."] if things else []


NONE_NAMED = "The steps that are left name no tools and no parts."
