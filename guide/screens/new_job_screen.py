"""A new job: which procedure, which door, which sheet."""

from pathlib import Path

from guide.files.library import catalogue
from guide.files.titles import title_in
from guide.run.door_name import ASKS, EXAMPLE
from guide.screens.line_screen import LineScreen
from guide.screens.menu import Item
from guide.screens.pick_screen import PickScreen
from guide.site.new_job import NewJob
from guide.translation import _

INVENTED = _("An invented closer, to practise with: never drill from it")
"""Beneath the sheets that come with the program."""
LIKE = _("Its opening is offered again, for you to confirm at this door or at one like it.")


class NewJobScreen(LineScreen):
    """Asks one thing after the other; dismissed with a NewJob, or with None."""

    def __init__(
        self, job: NewJob | None = None, *, like: Path | None = None, door: str = ""
    ) -> None:
        """`job` has its procedure and sheet already, so only the door is asked; the opening of `like` is offered."""
        self._given = job
        self._job = job or NewJob(Path(), door, None, like)
        offered = LIKE if self._job.like is not None else ""
        super().__init__(_("A new job"), ASKS, self._job.door, f"{EXAMPLE}\n\n{offered}".strip())

    def on_mount(self) -> None:
        """First the procedure, unless it is given."""
        if self._given is None:
            self.action_before()

    def action_before(self) -> None:
        if self._given is None:
            self.app.push_screen(procedures(), self._procedure)
        else:
            super().action_before()

    def _procedure(self, procedure: Path | None) -> None:
        if procedure is None:
            self.dismiss(None)
        else:
            self._job = self._job._replace(procedure=procedure)

    def entered(self, text: str) -> None:
        """The door is named; the sheet is asked last."""
        self._job = self._job._replace(door=text)
        if self._given is None and catalogue("sheet"):
            self.ask_on(_sheets(), self._sheet)
        else:
            self.dismiss(self._job)

    def _sheet(self, sheet: Path | str) -> None:
        self.dismiss(self._job._replace(sheet=sheet if isinstance(sheet, Path) else None))


def procedures() -> PickScreen:
    """The procedures, to pick one."""
    items = []
    for entry in catalogue("procedure"):
        name = _("{name}, your own").format(name=entry.name) if entry.own else entry.name
        if (title := title_in(entry.path)) is not None:
            items.append(Item(title, entry.path, name))
    return PickScreen(_("A new job"), _("Which procedure?"), items)


def _sheets() -> PickScreen:
    none: Item[Path | str] = Item(_("No sheet: I have the paper from the box"), "none")
    sheets = (
        Item(entry.name, entry.path, "" if entry.own else INVENTED) for entry in catalogue("sheet")
    )
    return PickScreen(_("A new job"), _("Which closer's sheet?"), [none, *sheets])
