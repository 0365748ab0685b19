"""The pages of a site's screen: a door over the years, the jobs whose records can be read, the rounds."""

from typing import Any

from guide.checker.graph_cache import graph_of
from guide.errors import HingesideError
from guide.files.library import find
from guide.papers.site.site_report import Report, door_text
from guide.run.when import when
from guide.screens.menu import Item
from guide.screens.pick_screen import PickScreen
from guide.screens.site_table import counts_of
from guide.screens.text_screen import TextScreen
from guide.site.day import day_of
from guide.site.door_state import DoorState, decided, result_of
from guide.site.round_state import round_state
from guide.site.site import Site
from guide.translation import _


def door_page(site: Site, one: DoorState) -> TextScreen:
    """What is known of a door, over the years."""
    try:
        facts = graph_of(find("procedure", site.procedure)).facts
    except HingesideError:
        facts = {}  # the site's own procedure is gone: its facts are shown by their names
    return TextScreen(site.name, door_text(Report(site, [one], (), day_of([one]), facts)))


def jobs_page(site: Site, one: DoorState) -> PickScreen:
    """The jobs of a door, to pick the file of one."""
    return PickScreen(
        site.name,
        _("The record of which job?"),
        [Item(run.title, run.path, f"{when(decided(run))}: {result_of(run)}") for run in one.jobs],
    )


NEW_ROUND = "new round"


def rounds_page(site: Site, states: list[DoorState], year: str) -> PickScreen:
    """The rounds of a site, the latest first, and a new one for a year that has none: picked is a Round, or
    `NEW_ROUND`."""
    items: list[Item[Any]] = [
        Item(
            _("Round {title}").format(title=one.title),
            one,
            counts_of(round_state(site, one, states)),
        )
        for one in reversed(site.rounds)
    ]
    if not any(one.title == year for one in site.rounds):
        items.append(Item(_("Begin round {year}").format(year=year), NEW_ROUND))
    return PickScreen(site.name, _("Which round of inspections?"), items)
