"""`hingeside site NAME round ...`"""

import argparse
import json
import sys
from datetime import UTC, datetime
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.cli.messages import Usage, say
from guide.cli.paper_output import width, write_paper
from guide.cli.site_words import listed, only
from guide.errors import DONE
from guide.files.library import find
from guide.papers.site import round_paper
from guide.papers.site.site_list import door_data, round_lines, text_of
from guide.procedure.outcomes import INSPECTION
from guide.run.run_list import list_runs
from guide.run.session import utc_now
from guide.run.settings import load_settings
from guide.site.door_state import door_states
from guide.site.round_state import RoundState, round_state
from guide.site.site import ROUND_PROCEDURE, Round, to_inspect, with_round
from guide.site.site_files import change, read_site


def show_round(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    """Show a round, write its summary, or begin a new one."""
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
        sys.stdout.write(text_of(round_lines(found, width())))
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
    from guide.papers.site.site_paper import rendered, summary_paper

    return rendered(summary_paper(found), form)


def _new_round(options: argparse.Namespace, path: Path, words: list[str]) -> int:
    (title,) = only(words, "TITLE", "round new")
    graph = graph_of(find("procedure", options.procedure or ROUND_PROCEDURE))
    if graph.purpose != INSPECTION:
        raise Usage(f"{graph.name} is not an inspection: its file has no “purpose: inspection”.")
    doors = listed(options.doors)
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
    return day.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
