"""The practice doors, to pick one."""

from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual.binding import BindingType

from guide.files.library import catalogue
from guide.files.titles import PRACTICE, id_in, title_in
from guide.screens.menu import Item
from guide.screens.page_screen import key
from guide.screens.pick_screen import BACK, MOVE, NUMBERS, PICK, PickScreen
from guide.translation import _

if TYPE_CHECKING:
    from guide.practice.practice import Practice

RANDOM_DOOR = "random"


class PracticePick(PickScreen):
    """The practice doors; a key writes every result of this device for a trainer."""

    BINDINGS: ClassVar[list[BindingType]] = [
        PICK,
        MOVE,
        key("r", "results", _("Write results")),
        BACK,
        *NUMBERS,
    ]

    def action_results(self) -> None:
        from guide.run.practice_results import put_results

        self.say(put_results())


def practice_doors() -> PickScreen:
    """The practice doors, the easiest first and numbered as by the command; with what was reached at each. Dismissed
    with a file, or RANDOM_DOOR."""
    from guide.run.practice_results import best_of

    reached = best_of()
    items: list[Item[Any]] = []
    for entry in catalogue("practice door"):
        title = title_in(entry.path, PRACTICE) or entry.name
        items.append(Item(title, entry.path, reached.get(id_in(entry.path, PRACTICE), "")))
    items.append(Item(_("A door by chance"), RANDOM_DOOR))
    return PracticePick(
        _("Practice on a model door"), _("Which door? They begin with the easiest."), items
    )


def practice_of(path: Path | str) -> "Practice":
    """A practice door; a random one for RANDOM_DOOR. Raises BadFile."""
    from guide.practice.practice import Practice
    from guide.practice.random_door import any_seed, random_door

    if not isinstance(path, Path):
        return Practice(random_door(any_seed()))
    from guide.procedure.practice_file import load_practice

    return Practice(load_practice(path))
