"""The pages before and over the screen of a site: which site, a door over the years, its jobs, the rounds."""

from pathlib import Path
from typing import Any

from guide.checker.graph_cache import graph_of
from guide.errors import HingesideError
from guide.files.library import find
from guide.papers.site.site_report import Report, door_text
from guide.run.when import when
from guide.screens.menu import Item
from guide.screens.page_screen import PageScreen
from guide.screens.pick_screen import PickScreen
from guide.screens.site_table import counts_of
from guide.screens.text_screen import TextScreen
from guide.site.day import day_of
from guide.site.door_state import DoorState, decided, result_of
from guide.site.round_state import round_state
from guide.site.site import Site
from guide.site.site_files import read_site, site_paths
from guide.translation import _, ngettext


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


HOW = _("No site yet. In a shell: hingeside site new NAME SCHEDULE (CSV, XLSX or IFC).")


def opens_site(screen: PageScreen) -> None:
    """Open the doors of a site from another screen; which one is asked if there are several."""
    paths = site_paths()
    if not paths:
        screen.say(HOW)
    elif len(paths) == 1:
        _open(screen, paths[0])
    else:
        sites = PickScreen(_("Sites"), _("The doors of which site?"), [*map(_item, paths)])
        screen.ask_on(sites, lambda path: _open(screen, path))


def _item(path: Path) -> Item[Path]:
    try:
        site = read_site(path)
    except (HingesideError, OSError) as error:
        return Item(path.name, path, str(error))
    count = len(site.doors)
    return Item(
        site.name, path, ngettext("{count} door", "{count} doors", count).format(count=count)
    )


def _open(screen: PageScreen, path: Path) -> None:
    from guide.screens.site_screen import SiteScreen

    try:
        site_screen = SiteScreen(path)
    except (HingesideError, OSError) as error:
        screen.say(str(error), refused=True)
        return
    screen.app.push_screen(site_screen)
