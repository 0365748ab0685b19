"""`hingeside plan SCHEDULE [--sheet SHEET] [--format text|json|csv|pdf] [-o FILE] [--map MAP]`"""

import argparse
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.cli.messages import say
from guide.cli.paper_output import PDF, need_file, write_paper
from guide.cli.progress import Progress
from guide.files.library import find
from guide.files.writing import write_beside
from guide.papers.site.plan import FORMATS
from guide.procedure.graph import Graph
from guide.procedure.sheet_cache import sheet_of
from guide.run.settings import load_settings
from guide.site.plan.known import Planning
from guide.site.plan.site_plan import SitePlan, plan_site
from guide.site.schedule.schedule import Schedule, find_schedule, read_schedule, schedule_facts
from guide.trade.sheet.sheet import Sheet

PROCEDURE = "fit-surface-closer"
EXAMPLES = """\
  hingeside plan elm-lane-school --sheet generic-a                a shipped, invented school
  hingeside plan doors.xlsx --sheet my-closer --format pdf -o plan.pdf
  hingeside plan doors.csv --door-files doors                     a file for each door
  hingeside plan doors.csv --save-map office.yaml                 what its headings mean
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "schedule", metavar="SCHEDULE", help="a door schedule: CSV, XLSX or a building model (IFC)"
    )
    parser.add_argument("--sheet", metavar="NAME", help="the name of the closer's sheet, or a path")
    parser.add_argument("--format", choices=[*FORMATS, PDF], default="text")
    parser.add_argument("--json", action="store_true", help="the same as --format json")
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="the file to write; if left out, it is printed"
    )
    parser.add_argument("--map", metavar="FILE", help="what the headings mean, in a file of yours")
    parser.add_argument(
        "--door-files", metavar="FOLDER", help="write a door file for each door, to begin its job"
    )
    parser.add_argument(
        "--save-map", metavar="FILE", help="write how the headings were understood, to be corrected"
    )


def run(options: argparse.Namespace) -> int:
    """Plan every door of a schedule."""
    form = "json" if options.json else options.format
    need_file(form, options.output)
    plan = plan_of(options.schedule, options.map, options.sheet)
    if options.save_map is not None:
        _save_map(options.save_map, plan.schedule)
    if options.door_files is not None:
        _write_doors(Path(options.door_files), plan)
    return write_plan(plan, form, options.output)


def write_plan(plan: SitePlan, form: str, output: str | None) -> int:
    """Print a plan, or write it to a file; the exit status."""

    def pdf(_: str) -> bytes:
        from guide.papers.site.plan_pdf import plan_pdf  # a PDF's library takes a while

        return plan_pdf(plan)

    return write_paper(form, output, lambda form: FORMATS[form](plan), pdf)


def plan_of(name: str, map_file: str | None, sheet_name: str | None) -> SitePlan:
    """The plan of a schedule, with a closer's sheet and a map of its columns if they are named."""
    path = find_schedule(name)
    mapped = None
    if map_file is not None:
        from guide.site.schedule.map_file import load_map  # reads YAML, which no schedule needs

        mapped = load_map(Path(map_file))
    sheet = sheet_of(find("sheet", sheet_name)) if sheet_name is not None else None
    graph = graph_of(find("procedure", PROCEDURE))
    with Progress("reading row") as progress:
        schedule = read_schedule(path, schedule_facts(graph), mapped, progress.count)
    return planned(graph, schedule, sheet)


def planned(graph: Graph, schedule: Schedule, sheet: Sheet | None) -> SitePlan:
    """The plan of the doors of a schedule, by the rules of the settings."""
    settings = load_settings()
    own = {"rules": settings.rules, "nfpa_80": settings.nfpa_80, "ibc": settings.ibc}
    with Progress("planning door") as progress:
        return plan_site(Planning(graph, schedule.units, sheet, own), schedule, progress.count)


def _write_doors(folder: Path, plan: SitePlan) -> None:
    from guide.site.schedule.door_file import door_file, file_names

    doors = [one.door for one in plan.planned if one.door.facts]
    folder.mkdir(parents=True, exist_ok=True)
    for door, name in zip(doors, file_names(doors), strict=True):
        text = door_file(door, plan.schedule.units, plan.sheet)
        write_beside(folder / name, text.encode("utf-8"))
    say(f"{folder}: {len(doors)} door files. Begin with: hingeside run {PROCEDURE} --door FILE")


def _save_map(name: str, schedule: Schedule) -> None:
    from guide.site.schedule.map_file import map_text

    path = Path(name)
    write_beside(path, map_text(path.stem, schedule.columns).encode("utf-8"))
    say(f"{name}: what the headings mean. Correct it, and give it by --map.")
