"""Shipped scenarios carried through once, for the papers made of them."""

from functools import cache

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.scenario_file import load_scenario
from guide.run.rehearse import rehearse
from guide.run.session import Session
from tests.run.shipped_runs import shipped_sheet


@cache
def carried_through(name: str) -> Session:
    """A shipped scenario at its end; it must be met. It is shared, so nothing is sent to it."""
    scenario = load_scenario(find("scenario", name))
    graph = graph_of(find("procedure", scenario.procedure))
    found = rehearse(scenario, graph, shipped_sheet(scenario.sheet))
    assert found.met, found.differences
    assert found.session is not None
    return found.session
