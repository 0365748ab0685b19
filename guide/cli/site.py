"""`hingeside site [NAME [DOOR]]`, `site new NAME [SCHEDULE]`, and `site NAME add`, `remove`, `schedule`, `rename`..."""

import argparse
import json
import sys
from collections.abc import Callable
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.cli.messages import Usage, say
from guide.cli.paper_output import HTML, OTHER, width
from guide.cli.site_round import show_round
from guide.cli.site_words import listed, only
from guide.errors import DONE
from guide.files.library import find
from guide.papers.site import round_paper, site_report
from guide.papers.site.site_list import door_data, site_data, site_lines, text_of
from guide.run.catalogue import RunSummary
from guide.run.run_list import list_runs
from guide.run.session import utc_now
from guide.run.settings import load_settings
from guide.site.day import day_of
from guide.site.door_state import (
    NOT_STARTED,
    STATES,
    DoorState,
    chosen,
    door_states,
    next_door,
    strays,
)
from guide.site.site import (
    PROCEDURE,
    WORDS,
    Site,
    need_name,
    quoted,
    with_door,
    without_door,
)
from guide.site.site_files import (
    change,
    delete,
    find_site,
    keep_new,
    list_sites,
    read_site,
    rename,
)

EXAMPLES = """\
  hingeside site new "Elm Lane School" elm-lane-school --sheet generic-a
  hingeside site elm --state not-started          its doors, by the beginning of its name
  hingeside site elm 104                          one door over the years
  hingeside site elm round new 2027               begin a yearly check
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "words",
        nargs="*",
        metavar="WORD",
        help="nothing for all sites; NAME; NAME DOOR; new NAME [SCHEDULE]; NAME add DOOR [PLACE] [FACT=VALUE ...];"
        " NAME remove DOOR; NAME schedule FILE; NAME plan; NAME round [TITLE]; NAME round new TITLE;"
        " NAME rename NEW; NAME delete --yes",
    )
    parser.add_argument("--state", choices=list(STATES), help="only doors in this state")
    parser.add_argument("--rating", help="only doors of this rating: yes, no, or words of it")
    parser.add_argument("--find", metavar="WORDS", help="only doors with these words")
    parser.add_argument("--next", action="store_true", help="the door to go to")
    parser.add_argument("--json", action="store_true", help="as JSON")
    parser.add_argument("--map", metavar="FILE", help="what the headings of a schedule mean")
    parser.add_argument("--sheet", metavar="NAME", help="the closer's sheet of a new site")
    parser.add_argument(
        "--procedure", metavar="NAME", help="the job of a new site, or the inspection of a round"
    )
    parser.add_argument(
        "--doors", metavar="LIST", help="the doors of a round or a plan: 101,102,105"
    )
    parser.add_argument("--since", metavar="DATE", help="inspections of a round count from it on")
    parser.add_argument(
        "--format",
        choices=[*round_paper.FORMATS, *OTHER],
        help="the summary of a round, or a plan, as a paper",
    )
    parser.add_argument("-o", "--output", metavar="FILE", help="the file to write")
    parser.add_argument("--yes", action="store_true", help="yes, delete the site")


def run(options: argparse.Namespace) -> int:
    """Do what the words say."""
    words: list[str] = options.words
    if not words:
        return _sites(options)
    if words[0] == "new":
        return _new(options, words[1:])
    if words[0] in WORDS:
        raise Usage(f"Name the site first: hingeside site NAME {words[0]} ...")
    path = find_site(words[0])
    does: Callable[[argparse.Namespace, Path, list[str]], int] = _DOES.get(
        words[1] if len(words) > 1 else "", _show
    )
    return does(options, path, words[2:] if does is not _show else words[1:])


def _sites(options: argparse.Namespace) -> int:
    sites, runs = list_sites(), list_runs()
    found = [(site, door_states(site, runs)) for site in sites]
    if options.json:
        data = [site_data(site, states, (), day_of(states)) for site, states in found]
        print(json.dumps({"sites": data}, ensure_ascii=False))
        return DONE
    if not sites:
        print("No site yet. Make one: hingeside site new NAME SCHEDULE")
    for site, states in found:
        sys.stdout.write(text_of(site_lines(site, states, states, day_of(states))[:1]))
    return DONE


def _new(options: argparse.Namespace, words: list[str]) -> int:
    if not 1 <= len(words) <= 2:
        raise Usage("Name the site and its schedule: hingeside site new NAME [SCHEDULE].")
    name = need_name(words[0])
    procedure = graph_of(find("procedure", options.procedure or PROCEDURE)).name
    if len(words) == 2:
        from guide.cli.plan import plan_of  # planning loads the trade, which a list does without
        from guide.site.from_schedule import site_of_plan

        site = site_of_plan(
            name, utc_now(), plan_of(words[1], options.map, options.sheet), procedure
        )
    else:
        units = load_settings().units
        site = Site(name, utc_now(), units, options.sheet or "", procedure)
    keep_new(site)
    say(f"{site.name}: {len(site.doors)} doors. See them: hingeside site {quoted(name)}")
    unread = sum(len(door.not_understood) for door in site.doors) + len(site.beside)
    asked = sum(len(door.questions) for door in site.doors)
    if asked or unread:
        say(
            f"Questions of the schedule: {asked}; cells not understood: {unread}. Each is at its door."
        )
    return DONE


def _add(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    if not words:
        raise Usage("Name the door: hingeside site NAME add DOOR [PLACE] [FACT=VALUE ...].")
    number, *rest = words
    place = " ".join(word for word in rest if "=" not in word)
    typed = dict(word.split("=", 1) for word in rest if "=" in word)
    site = change(path, lambda site: with_door(site, number, place, _facts(site, typed)))
    say(f"{site.name}: {len(site.doors)} doors.")
    return DONE


def _facts(site: Site, typed: dict[str, str]) -> dict[str, str]:
    """Facts as they were typed, in exact writing."""
    from guide.procedure.facts import writing
    from guide.run.schedule_values import WrongDoor, supplied_values
    from guide.text import unknown

    graph = graph_of(find("procedure", site.procedure))
    known = [name for name, fact in graph.facts.items() if fact.schedule and not fact.worked]
    for name in typed:
        if name not in known:
            raise WrongDoor(unknown("a fact of a door", name, known))
    values = supplied_values(graph, typed, site.units)
    return {name: writing(value) for name, value in values.items()}


def _remove(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    (number,) = only(words, "DOOR", "remove")
    site = change(path, lambda site: without_door(site, number))
    say(f"{site.name}: {len(site.doors)} doors. Jobs at the door that was removed are kept.")
    return DONE


def _rename(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    (name,) = only(words, "NEW", "rename")
    before = read_site(path).name
    site = rename(path, name)
    say(f"{before} is called {site.name} now. Its jobs belong to it as before.")
    return DONE


def _delete(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    if words:
        raise Usage(f"To take one door off the list: hingeside site NAME remove {words[0]}.")
    site, runs = read_site(path), list_runs()
    jobs = sum(len(state.jobs) for state in door_states(site, runs)) + len(strays(site, runs))
    gone = f"its list of {len(site.doors)} doors and its rounds ({len(site.rounds)})"
    if not options.yes:
        raise Usage(f"This deletes {site.name}: {gone}. Its jobs ({jobs}) stay. Add --yes.")
    delete(path)
    say(f"{site.name} is deleted: {gone}. Its jobs ({jobs}) are kept.")
    return DONE


def _schedule(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    (name,) = only(words, "FILE", "schedule")
    from guide.cli.plan import plan_of
    from guide.site.from_schedule import with_schedule

    before = read_site(path)
    plan = plan_of(name, options.map, options.sheet or before.sheet or None)
    told = with_schedule(before, plan)[1]
    change(path, lambda site: with_schedule(site, plan)[0])
    say(f"{before.name}: {told}")
    return DONE


def _plan(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    """The plan of the doors that are left, or of those that are named: what goes into the van for a day."""
    if words:
        raise Usage(
            "Name the doors of a plan by --doors: hingeside site NAME plan --doors 101,102."
        )
    from guide.cli.plan import planned, write_plan
    from guide.procedure.sheet_cache import sheet_of
    from guide.site.from_schedule import schedule_of
    from guide.site.schedule.schedule import schedule_facts

    site = read_site(path)
    doors = [site.door(number) for number in listed(options.doors)]
    if not doors:
        states = door_states(site, list_runs())
        doors = [one.door for one in states if one.state == NOT_STARTED]
    if not doors:
        raise Usage(f"{site.name} has no door left to start; name some: --doors 101,102.")
    graph = graph_of(find("procedure", PROCEDURE))
    name = options.sheet or site.sheet
    sheet = sheet_of(find("sheet", name)) if name else None
    made = planned(graph, schedule_of(site, doors, schedule_facts(graph)), sheet)
    form = "json" if options.json else options.format or "text"
    if form == HTML:
        raise Usage("A plan is written as text, json, csv or pdf.")
    return write_plan(made, form, options.output)


# --- shown ---


def _show(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    site, runs = read_site(path), list_runs()
    if options.format is not None:
        raise Usage(f"A paper of the site: hingeside record {quoted(site.name)} --format FORMAT.")
    if words:
        return _door(options, site, runs, words)
    states = door_states(site, runs)
    if options.next:
        return _next(options, states)
    shown = chosen(
        states, state=options.state or "", rating=options.rating or "", words=options.find or ""
    )
    if options.json:
        print(json.dumps(site_data(site, states, shown, day_of(states)), ensure_ascii=False))
        return DONE
    lines = site_lines(site, states, shown, day_of(states), width())
    astray = strays(site, runs)
    if astray:
        doors = ", ".join(dict.fromkeys(run.door or "no name" for run in astray))
        lines += ["", f"Jobs at doors that are not on the list: {doors}."]
    sys.stdout.write(text_of(lines))
    return DONE


def _next(options: argparse.Namespace, states: list[DoorState]) -> int:
    following = next_door(states)
    if options.json:
        print(json.dumps(following and door_data(following), ensure_ascii=False))
    elif following is None:
        print("No door is left to start.")
    else:
        door = following.door
        print(f"{door.number} {door.place}".strip() + f" ({following.words})")
    return DONE


def _door(options: argparse.Namespace, site: Site, runs: list[RunSummary], words: list[str]) -> int:
    if len(words) > 1:
        raise Usage("Give one door, its number in quotes if it has blanks.")
    report = report_of(site, runs, words[0])
    form = "json" if options.json else "text"
    sys.stdout.write(site_report.DOOR_FORMATS[form](report))
    return DONE


def report_of(site: Site, runs: list[RunSummary], door: str | None = None) -> site_report.Report:
    """The report over a site's doors, or over the one of that number. Raises UnknownDoor."""
    states = door_states(site, runs)
    wanted = states
    if door is not None:
        key = site.door(door).key
        wanted = [one for one in states if one.door.key == key]
    facts = graph_of(find("procedure", site.procedure)).facts
    return site_report.Report(site, wanted, strays(site, runs), day_of(states), facts)


_DOES: dict[str, Callable[[argparse.Namespace, Path, list[str]], int]] = {
    "add": _add,
    "remove": _remove,
    "schedule": _schedule,
    "plan": _plan,
    "round": show_round,
    "rename": _rename,
    "delete": _delete,
}
