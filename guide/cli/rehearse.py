"""`hingeside rehearse SCENARIO...`"""

import argparse
import json
from typing import Any

from guide.cli.main import DONE, FOUND
from guide.procedure.cache import graph_of
from guide.procedure.library import find
from guide.procedure.scenario_file import load_scenario
from guide.procedure.sheet_file import load_sheet
from guide.run.rehearse import coverage, rehearse


def arguments(parser: argparse.ArgumentParser) -> None:
    """The verb's words."""
    parser.add_argument("scenarios", nargs="+", metavar="SCENARIO", help="a path, or a name")
    parser.add_argument("--coverage", action="store_true", help="say which ways were never taken")
    parser.add_argument("--json", action="store_true", help="one JSON object a scenario")


def run(options: argparse.Namespace) -> int:
    """Rehearse each scenario; 1 where one went otherwise than expected."""
    worst = DONE
    graphs: dict[str, Any] = {}
    edges: dict[str, set[tuple[int, int]]] = {}
    for name in options.scenarios:
        scenario = load_scenario(find("scenario", name))
        path = find("procedure", scenario.procedure)
        graph = graph_of(path)
        sheet = None
        if scenario.sheet != "none":
            sheet = load_sheet(find("sheet", scenario.sheet)).to_json()
        found = rehearse(scenario, graph, sheet)
        graphs[graph.name] = graph
        edges.setdefault(graph.name, set()).update(found.edges)
        if not found.met:
            worst = FOUND
        if options.json:
            print(json.dumps(found.to_json(), ensure_ascii=False))
        else:
            print(f"{scenario.scenario}: {'met' if found.met else 'NOT MET'} ({found.end})")
            for difference in found.differences:
                print(f"    {difference}")
    if options.coverage:
        totals = {name: coverage(graph, edges[name]) for name, graph in graphs.items()}
        if options.json:
            print(json.dumps({"coverage": totals}, ensure_ascii=False))
        else:
            for total in totals.values():
                print(
                    f"{total['procedure']}: {total['taken']} of {total['edges']} ways taken "
                    f"({total['percent']} %)"
                )
                for missed in total["missed"]:
                    print(f"    never taken: {missed}")
    return worst
