"""`hingeside rehearse SCENARIO...`"""

import argparse
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guide.checker.graph_cache import graph_of
from guide.cli.messages import say
from guide.cli.progress import Progress
from guide.errors import DONE, FOUND
from guide.files.findings import BadFile
from guide.files.library import NotFound, find
from guide.procedure.scenario_file import load_scenario
from guide.procedure.sheet_cache import sheet_of
from guide.run.rehearse import coverage, rehearse
from guide.run.settings import load_settings

if TYPE_CHECKING:
    from guide.procedure.graph import Graph
    from guide.procedure.scenario_file import ScenarioShape
    from guide.run.rehearse import Rehearsal

EXAMPLES = """\
  hingeside rehearse demo                               one scenario
  hingeside rehearse demo clinic-corridor --coverage     the ways that neither took
  hingeside rehearse demo --voice                       all answers by synthetic speech
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "scenarios", nargs="+", metavar="SCENARIO", help="the name of a scenario, or a path"
    )
    parser.add_argument(
        "--coverage",
        action="store_true",
        help="list the ways through the procedure that no scenario took",
    )
    parser.add_argument(
        "--voice", action="store_true", help="answer everything by synthetic speech"
    )
    parser.add_argument(
        "--own-voice",
        action="store_true",
        help="recognize speech by the voice you taught, for your own sound files",
    )
    parser.add_argument("--json", action="store_true", help="one JSON object a scenario")


def run(options: argparse.Namespace) -> int:
    """Rehearse each scenario; 1 where one went otherwise than expected."""
    worst = DONE
    graphs: dict[str, Any] = {}
    edges: dict[str, set[tuple[int, int]]] = {}
    with Progress("rehearsing scenario") as progress:
        for number, name in enumerate(options.scenarios, 1):
            progress.count(number, len(options.scenarios))
            try:
                scenario, found = _rehearsed(name, graphs, options)
            except (NotFound, BadFile) as error:
                progress.clear()
                say(f"hingeside: {error}")
                worst = max(worst, error.status)
                continue
            edges.setdefault(scenario.procedure, set()).update(found.edges)
            if not found.met:
                worst = max(worst, FOUND)
            progress.clear()
            _print(scenario.scenario, found, as_json=options.json)
    if options.coverage:
        totals = {graph.name: coverage(graph, edges[name]) for name, graph in graphs.items()}
        _print_coverage(totals, as_json=options.json)
    return worst


def _rehearsed(
    name: str, graphs: dict[str, Any], options: argparse.Namespace
) -> "tuple[ScenarioShape, Rehearsal]":
    """A scenario of that name, carried through. The graphs of procedures are kept in `graphs`.

    Raises NotFound and BadFile, and by voice what `_aloud` raises.
    """
    path = find("scenario", name)
    scenario = load_scenario(path)
    graph = graphs.get(scenario.procedure) or graph_of(find("procedure", scenario.procedure))
    sheet = None
    if scenario.sheet != "none":
        sheet = sheet_of(find("sheet", scenario.sheet)).to_json()
    graphs[scenario.procedure] = graph
    if scenario.aloud or options.voice:
        every, own = options.voice, options.own_voice
        return scenario, _aloud(scenario, graph, sheet, path.parent, every=every, own=own)
    return scenario, rehearse(scenario, graph, sheet)


def _print(name: str, found: "Rehearsal", *, as_json: bool) -> None:
    if as_json:
        print(json.dumps(found.to_json(), ensure_ascii=False))
        return
    print(f"{name}: {'met' if found.met else 'NOT MET'} ({found.end})")
    for difference in found.differences:
        print(f"    {difference}")
    if found.heard is not None:
        counts = ", ".join(f"{count} {what}" for what, count in found.heard.items())
        print(f"    by voice: {counts.replace('_', ' ')}")


def _print_coverage(totals: dict[str, dict[str, Any]], *, as_json: bool) -> None:
    if as_json:
        print(json.dumps({"coverage": totals}, ensure_ascii=False))
        return
    for total in totals.values():
        print(
            f"{total['procedure']}: {total['taken']} of {total['edges']} ways taken "
            f"({total['percent']} %)"
        )
        for missed in total["missed"]:
            print(f"    never taken: {missed}")


def _aloud(
    scenario: "ScenarioShape",
    graph: "Graph",
    sheet: dict[str, Any] | None,
    folder: Path,
    *,
    every: bool,
    own: bool,
) -> "Rehearsal":
    """A scenario by voice. Raises NoEngine, NoVoice or NoDecoder if the libraries for it are missing."""
    from guide.speech.engines import load_engine
    from guide.speech.own.voice_file import own_means
    from guide.speech.rehearse_voice import rehearse_aloud

    means, fault = own_means(load_settings().own_voice) if own else ("", "")
    if fault:
        say(f"hingeside: {fault}")
    engine = load_engine("built-in", own=means)
    try:
        return rehearse_aloud(scenario, graph, sheet, engine, folder=folder, every=every)
    finally:
        engine.close()
