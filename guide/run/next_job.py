"""The job that follows another at the same door."""

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.graph import Graph
from guide.run.carried import carried
from guide.run.session import Session
from guide.run.state import State
from guide.run.store import begin_run
from guide.translation import _, ngettext

WITHOUT_SHEET = "The sheet of the closer before is not used for new holes."


def begin_after(state: State, name: str) -> Session:
    """Begin the procedure of this name with what the ended run knows of the door; `told` says what was carried over.

    The sheet is carried too, but not into work that cuts: the closer may be another. Raises NotFound or BadFile where
    the procedure cannot be run, and JournalError where the run cannot be kept.
    """
    graph = graph_of(find("procedure", name))
    brought, sheet = carried(state, graph), None if _cuts(graph) else state.sheet
    session = begin_run(
        graph,
        units=state.units,
        sheet=sheet,
        supplied=brought.supplied,
        about=brought.about,
        carried=brought.used,
    )
    left_behind = state.sheet is not None and sheet is None
    session.told = _told(len(brought.supplied)) + (f" {WITHOUT_SHEET}" if left_behind else "")
    return session


def _cuts(graph: Graph) -> bool:
    return any(node.body.get("cuts") for node in graph.nodes)


def _told(count: int) -> str:
    if not count:
        return _("A new job at the same door.")
    told = ngettext(
        "A new job at the same door; {count} answer is carried over.",
        "A new job at the same door; {count} answers are carried over.",
        count,
    )
    return told.format(count=count)
