"""Which site, where there are several; how one is made, where there is none."""

from pathlib import Path

from guide.errors import HingesideError
from guide.screens.menu import Item
from guide.screens.page_screen import PageScreen
from guide.screens.pick_screen import PickScreen
from guide.site.site_files import read_site, site_paths
from guide.translation import _, ngettext

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
