"""`hingeside site [NAME [DOOR]]`, `site new NAME [SCHEDULE]`, `site NAME add|remove|schedule|round ...`"""

import argparse
import json
import shutil
import sys
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.cli.messages import Usage, say
from guide.errors import DONE
from guide.files.library import find
from guide.files.writing import write_beside
from guide.papers import round_paper, site_report
from guide.papers.site_list import WIDTH, door_data, round_lines, site_data, site_lines, text_of
from guide.procedure.outcomes import INSPECTION
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
from guide.site.round_state import RoundState, round_state
from guide.site.site import (
    PROCEDURE,
    WORDS,
    Round,
    Site,
    need_name,
    quoted,
    to_inspect,
    with_door,
    with_round,
    without_door,
)
from guide.site.site_files import change, find_site, keep_new, list_sites, read_site

CHECK = "inspect-a-closing-door"
"""The inspection of a round, if no other is named."""
HTML, PDF = "html", "pdf"
OTHER = (HTML, PDF)
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
        " NAME remove DOOR; NAME schedule FILE; NAME plan; NAME round [TITLE]; NAME round new TITLE",
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
    (number,) = _one(words, "DOOR", "remove")
    site = change(path, lambda site: without_door(site, number))
    say(f"{site.name}: {len(site.doors)} doors. Jobs at the door that was removed are kept.")
    return DONE


def _schedule(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    (name,) = _one(words, "FILE", "schedule")
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
    from guide.cli.plan import planned
    from guide.papers import plan as plan_paper
    from guide.procedure.sheet_cache import sheet_of
    from guide.site.from_schedule import schedule_of
    from guide.site.schedule.schedule import schedule_facts

    site = read_site(path)
    doors = [site.door(number) for number in _listed(options.doors)]
    if not doors:
        states = door_states(site, list_runs())
        doors = [one.door for one in states if one.state == NOT_STARTED]
    if not doors:
        raise Usage(f"{site.name} has no door left to start; name some: --doors 101,102.")
    graph = graph_of(find("procedure", PROCEDURE))
    name = options.sheet or site.sheet
    sheet = sheet_of(find("sheet", name)) if name else None
    made = planned(graph, schedule_of(site, doors, schedule_facts(graph)), sheet)

    def pdf(_: str) -> bytes:
        from guide.papers.plan_pdf import plan_pdf  # a PDF's library takes a while

        return plan_pdf(made)

    form = "json" if options.json else options.format or "text"
    if form == HTML:
        raise Usage("A plan is written as text, json, csv or pdf.")
    return write_paper(form, options.output, lambda form: plan_paper.FORMATS[form](made), pdf)


def _listed(doors: str | None) -> list[str]:
    return [one.strip() for one in (doors or "").split(",") if one.strip()]


def _one(words: list[str], what: str, word: str) -> list[str]:
    if len(words) != 1:
        raise Usage(f"Give one {what}: hingeside site NAME {word} {what}.")
    return words


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
    lines = site_lines(site, states, shown, day_of(states), _width())
    astray = strays(site, runs)
    if astray:
        doors = ", ".join(dict.fromkeys(run.door or "no name" for run in astray))
        lines += ["", f"Jobs at doors that are not on the list: {doors}."]
    sys.stdout.write(text_of(lines))
    return DONE


def _width() -> int:
    """Columns of the terminal; those of a paper if there is none."""
    return shutil.get_terminal_size((WIDTH, 24)).columns if sys.stdout.isatty() else WIDTH


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


# --- rounds ---


def _round(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    if words[:1] == ["new"]:
        return _new_round(options, path, words[1:])
    if len(words) > 1:
        raise Usage("Give one title of a round, in quotes if it has blanks.")
    site = read_site(path)
    one = site.round(words[0] if words else "")
    found = round_state(site, one, door_states(site, list_runs()))
    form = "json" if options.json else options.format
    if options.next:
        return _next_of_round(options, found)
    if form is None and options.output is None:
        sys.stdout.write(text_of(round_lines(found, _width())))
        return DONE
    return write_paper(
        form or "text",
        options.output,
        lambda form: round_paper.FORMATS[form](found),
        lambda form: _round_rendered(found, form),
    )


def _next_of_round(options: argparse.Namespace, found: RoundState) -> int:
    following = found.next
    if options.json:
        print(json.dumps(following and door_data(following.door), ensure_ascii=False))
    elif following is None:
        print("Every door of the round has passed.")
    else:
        door = following.door.door
        print(f"{door.number} {door.place}".strip() + f" ({following.words})")
    return DONE


def _round_rendered(found: RoundState, form: str) -> bytes:
    from guide.papers.site_paper import rendered, summary_paper

    return rendered(summary_paper(found), form)


def _new_round(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    (title,) = _one(words, "TITLE", "round new")
    graph = graph_of(find("procedure", options.procedure or CHECK))
    if graph.purpose != INSPECTION:
        raise Usage(f"{graph.name} is not an inspection: its file has no “purpose: inspection”.")
    doors = _listed(options.doors)
    begun, rules = _since(options.since), load_settings().rules
    site = change(
        path,
        lambda site: with_round(
            site, Round(title, graph.name, tuple(doors) or to_inspect(site), begun, rules)
        ),
    )
    say(f"{site.name}, round {title}: {len(site.round(title).doors)} doors.")
    return DONE


def _since(date: str | None) -> str:
    """UTC of the beginning of a day here; of now if none is given."""
    if date is None:
        return utc_now()
    try:
        day = datetime.strptime(date, "%Y-%m-%d").astimezone()
    except ValueError as error:
        raise Usage("Write the date as 2027-03-01.") from error
    from datetime import UTC

    return day.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def write_paper(
    form: str, output: str | None, text: Callable[[str], str], other: Callable[[str], bytes]
) -> int:
    """Print a paper, or write it to a file; `other` makes those of `OTHER`."""
    if form == PDF and output is None:
        raise Usage("Say where the PDF goes: -o FILE.pdf.")
    made = other(form) if form in OTHER else text(form).encode("utf-8")
    if output is None:
        sys.stdout.write(made.decode("utf-8"))
    else:
        write_beside(Path(output), made)
    return DONE


_DOES: dict[str, Callable[[argparse.Namespace, Path, list[str]], int]] = {
    "add": _add,
    "remove": _remove,
    "schedule": _schedule,
    "plan": _plan,
    "round": _round,
}
