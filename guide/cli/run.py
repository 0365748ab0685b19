"""`hingeside run PROCEDURE [--door FILE|demo] [--plain] [--voice]`, `run PROCEDURE --site NAME [--door NUMBER]`,
and `hingeside run --resume JOB`."""

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guide.checker.graph_cache import graph_of
from guide.cli.messages import Usage, say
from guide.cli.terminal import app_can_open, person_types
from guide.cli.voice import LINE_BY_LINE, voice_wanted
from guide.errors import DONE, FOUND
from guide.files.library import find
from guide.run.device import arrival, device_id
from guide.run.door_name import ASKS, EXAMPLE, named
from guide.run.journal import Damaged, JournalError
from guide.run.log.writing import Log
from guide.run.session import Session
from guide.run.settings import Settings, keep_detail, load_settings
from guide.run.store import begin_run, find_run, open_run, recover

if TYPE_CHECKING:
    from guide.procedure.scenario_file import DoorShape, ScenarioShape
    from guide.site.door_state import DoorState
    from guide.site.site import Site

EXAMPLES = """\
  hingeside run fit-surface-closer                      a new job, in the app
  hingeside run fit-surface-closer --door demo          an invented door, to look around
  hingeside run fit-surface-closer --sheet my-closer    with your own sheet
  hingeside run --resume JOB --plain                    continue a job, line by line
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "procedure", nargs="?", metavar="PROCEDURE", help="the name of a procedure, or a path"
    )
    parser.add_argument(
        "--door",
        metavar="FILE",
        help="a file of what is known of the opening; “demo” is shipped; with --site the number of a door",
    )
    parser.add_argument("--site", metavar="NAME", help="a site that knows the door and its jobs")
    parser.add_argument("--sheet", metavar="NAME", help="the name of the closer's sheet, or a path")
    parser.add_argument("--resume", metavar="JOB", help="continue a job, by its name or its file")
    parser.add_argument("--plain", action="store_true", help="line by line, without the app")
    parser.add_argument("--voice", action="store_true", help="use speech, in the app")


def run(options: argparse.Namespace) -> int:
    """Start or go on with a run, in the app where there is a terminal and line by line elsewhere."""
    if came := arrival():
        say(f"hingeside: {came}")
    if options.resume is not None:
        if options.procedure is not None or options.door or options.sheet or options.site:
            raise Usage("Give --resume the job alone; its procedure, door and sheet are in it.")
        settings = load_settings()
        return _run_session(options, _resumed(options.resume, settings.name), None, settings)
    if options.procedure is None:
        raise Usage("Name a procedure, or --resume JOB.")
    path = find("procedure", options.procedure)
    settings = load_settings()
    if options.site is not None:
        return _run_session(options, _at_site(options, settings), None, settings)
    graph = graph_of(path)
    door = _door(options.door)
    if door is None and not _line_by_line(options):
        return _app_at_door_name(options, path, settings)
    units = (door.units if door is not None else None) or settings.units
    sheet = _sheet(options.sheet or (door.sheet if door is not None else "none"))
    supplied: dict[str, Any] = {}
    if door is not None:
        from guide.run.schedule_values import supplied_values

        supplied = supplied_values(graph, door.door, units)
    about = {
        **(_asked_name() if door is None else named(_door_name(options.door, door))),
        **settings.about(),
    }
    session = begin_run(graph, units=units, sheet=sheet, supplied=supplied, about=about)
    return _run_session(options, session, door, settings)


def _at_site(options: argparse.Namespace, settings: Settings) -> Session:
    """The job of a door of a site: the one that is open, else a new one that knows what the site knows."""
    from guide.run.run_list import list_runs
    from guide.site.begin import begin_at, to_go_on_with
    from guide.site.door_state import door_states, next_door
    from guide.site.site_files import find_site, read_site

    site = read_site(find_site(options.site))
    states = door_states(site, list_runs())
    procedure = graph_of(find("procedure", options.procedure)).name
    one = _next_of_round(site, states, procedure) or next_door(states)
    if options.door is not None:
        key = site.door(options.door).key
        one = next(state for state in states if state.door.key == key)
    if one is None:
        raise Usage(f"{site.name} has no door left to start; name one: --door NUMBER.")
    before = to_go_on_with(one, procedure)
    if before is not None:
        if options.sheet is not None:
            raise Usage(
                f"The job at {one.door.number} goes on with its own sheet; leave --sheet out."
            )
        say(f"hingeside: {one.door.number}: the job there goes on ({before.name}).")
        return _resumed(str(before.path), settings.name)
    session = begin_at(site, one, options.procedure, settings, options.sheet)
    if session.told and _line_by_line(options):
        from guide.plain.render import wrapped

        named = f"{one.door.number} {one.door.place}".strip()
        print("\n".join(wrapped(f"{named}. {session.told}")))
    return session


def _next_of_round(site: "Site", states: "list[DoorState]", procedure: str) -> "DoorState | None":
    """The next door of the latest round, if the procedure is its inspection."""
    from guide.site.round_state import round_state

    if not site.rounds or site.rounds[-1].procedure != procedure:
        return None
    following = round_state(site, site.rounds[-1], states).next
    return None if following is None else following.door


def _resumed(name: str, by: str) -> Session:
    """The run of that name; a damaged one is repaired, and what is sound of it gone on with."""
    path = find_run(name)
    try:
        session = open_run(path, by)
    except Damaged as error:
        sentence = recover(path, error, by)
        if not path.is_file():
            raise JournalError(sentence) from error
        say(f"hingeside: {sentence}")
        return open_run(path, by)
    if session.told:
        say(f"hingeside: {session.told}")
    return session


def _run_session(
    options: argparse.Namespace,
    session: Session,
    door: "DoorShape | ScenarioShape | None",
    settings: Settings,
) -> int:
    try:
        return _carry_on(options, session, door, settings)
    finally:
        session.close()


def _carry_on(
    options: argparse.Namespace,
    session: Session,
    door: "DoorShape | ScenarioShape | None",
    settings: Settings,
) -> int:
    answers = getattr(door, "answers", None)
    if answers and not person_types() and not options.plain:
        from guide.plain.rehearsed_run import carry_through

        differences = carry_through(session, door, print)  # type: ignore[arg-type]
        _print_record(session)
        for difference in differences:
            say(f"hingeside: {difference}")
        return FOUND if differences else DONE
    if _line_by_line(options):
        if options.voice:
            say(f"hingeside: {LINE_BY_LINE}")
        onward = _plain(session, settings.detail)
        if not onward:
            return DONE
        session.close()
        from guide.run.next_job import begin_after

        following = begin_after(session.state, onward)
        print()
        print(following.told)
        return _run_session(options, following, None, settings)
    from guide.screens.app import run_app

    open_voice = voice_wanted(settings, asked=options.voice)
    return run_app(session, settings, session.told, open_voice=open_voice)


def _line_by_line(options: argparse.Namespace) -> bool:
    """Whether there is no terminal for the app, or it is not wanted."""
    return bool(options.plain) or not app_can_open()


def _asked_name() -> dict[str, str]:
    """The door's number and place as the person gives them; empty where the line is, or where there is none."""
    from guide.cli.lines import TypedLines

    device_id()  # nothing is asked where no job can be kept
    print(f"{ASKS} {EXAMPLE}")
    with TypedLines("Door: ") as lines:
        return named(lines.read() or "")


def _app_at_door_name(options: argparse.Namespace, path: Path, settings: Settings) -> int:
    """Open the app where the door's number and place are asked before the run begins."""
    from guide.screens.app import run_app
    from guide.site.new_job import NewJob

    sheet = None
    if options.sheet is not None and options.sheet != "none":
        sheet = find("sheet", options.sheet)
    return run_app(
        None,
        settings,
        open_voice=voice_wanted(settings, asked=options.voice),
        job=NewJob(path, "", sheet),
    )


def _plain(session: Session, detail: str) -> str:
    """Carry a run on line by line; give the procedure to begin after it, or nothing."""
    from guide.cli.lines import TypedLines
    from guide.plain.loop import run_plain
    from guide.run.desk import Desk

    with TypedLines() as lines:
        ascii_only = only_ascii()
        desk = Desk(session, detail)
        run_plain(
            desk,
            lines.read,
            print,
            ascii_only=ascii_only,
            keep_detail=keep_detail,
            forget_typed=lines.forget,
        )
    if session.state.ended:
        _print_record(session)
    elif isinstance(session.journal, Log):
        print(f"Line by line: hingeside run --resume {session.journal.path.stem} --plain")
    return desk.onward


def only_ascii() -> bool:
    """Whether a drawing must do without other signs."""
    from guide.screens.glyphs import wants_ascii

    encoding = getattr(sys.stdout, "encoding", None) or "ascii"
    return wants_ascii(os.environ) or "utf" not in encoding.casefold()


def _print_record(session: Session) -> None:
    from guide.papers.record.record_forms import (
        record_text,  # only at an end, for the start-up time
    )

    print()
    print(record_text(session.state, session.journal.events()))


def _door(name: str | None) -> "DoorShape | ScenarioShape | None":
    if name is None:
        return None
    from guide.procedure.scenario_file import load_door

    return load_door(find("scenario", name))


def _door_name(name: str | None, door: Any) -> str:
    if door is None or name is None:
        return ""
    return getattr(door, "name", None) or getattr(door, "scenario", None) or Path(name).stem


def _sheet(name: str) -> dict[str, Any] | None:
    if name == "none":
        return None
    from guide.procedure.sheet_cache import sheet_of

    return sheet_of(find("sheet", name)).to_json()
