"""A list to pick one line from: by arrow and Enter, by its number, or with the mouse."""

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList

from guide.files.library import catalogue
from guide.files.titles import PRACTICE, id_in, title_in
from guide.screens.key_hint import KeyHint
from guide.screens.menu import Item
from guide.screens.page_screen import PageScreen
from guide.screens.words_shown import Words, clean


class PickScreen(PageScreen):
    """Dismissed with the value of the line that was picked, or with None."""

    def __init__(self, heading: str, asks: str, items: Sequence[Item[object]]) -> None:
        super().__init__()
        self.heading = heading
        self.asks = asks
        self.items = list(items)

    def body(self) -> ComposeResult:
        """The question and the list."""
        yield Words(self.asks, classes="ask")
        options = OptionList(id="list", markup=False)
        options.add_options([self._line(n, item) for n, item in enumerate(self.items, 1)])
        yield options

    def keys(self) -> Sequence[KeyHint]:
        """How to pick, and how to leave."""
        pick = KeyHint("enter", "Enter", "Pick")
        return [pick, KeyHint("down", "↑↓", "Move"), KeyHint("escape", "Esc", "Back")]

    def on_mount(self) -> None:
        """Keys go to the list."""
        options = self.query_one("#list", OptionList)
        options.highlighted = 0 if self.items else None
        options.focus()

    def pressed(self, key: str, character: str | None) -> bool:
        """A number picks, Esc leaves."""
        if key in ("escape", "left"):
            self.dismiss(None)
            return True
        if character and character in "123456789" and int(character) <= len(self.items):
            self.dismiss(self.items[int(character) - 1].value)
            return True
        return False

    @on(OptionList.OptionSelected, "#list")
    def _picked(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self.items[event.option_index].value)

    def _line(self, number: int, item: Item[object]) -> Content:
        key = str(number) if number < 10 else " "
        said = clean(item.text)
        below = [(f"\n    {clean(item.below)}", "$secondary")] if item.below else []
        return Content.assemble(
            (f" {key} ", "bold reverse" if key.strip() else ""), f" {said}", *below
        )


class PracticePick(PickScreen):
    """The practice doors; a key writes every result of this device for a trainer."""

    def keys(self) -> Sequence[KeyHint]:
        """How to pick, to write the results, and to leave."""
        pick, move, back = super().keys()
        return [pick, move, KeyHint("r", "R", "Write results"), back]

    def pressed(self, key: str, character: str | None) -> bool:
        """R writes the results."""
        if key.lower() != "r":
            return super().pressed(key, character)
        from guide.run.practice_results import put_results

        self.say(put_results())
        return True


RANDOM_DOOR = "random"


def practice_doors() -> PickScreen:
    """The practice doors, the easiest first; with what was reached at each."""
    from guide.run.practice_results import best_of

    reached = best_of()
    items: list[Item[object]] = [Item("A door by chance", RANDOM_DOOR)]
    for entry in catalogue("practice door"):
        title = title_in(entry.path, PRACTICE) or entry.name
        items.append(Item(title, entry.path, reached.get(id_in(entry.path, PRACTICE), "")))
    return PracticePick(
        "Practice on a model door", "Which door? They begin with the easiest.", items
    )
