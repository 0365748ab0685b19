"""The keys that matter now, along the bottom; each can be clicked."""

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import Static

from guide.screens.host import host
from guide.screens.key_hint import KeyHint
from guide.screens.words_shown import clean


class KeyBar(Static):
    """As many keys as have room; the last one, which leads to all the others, always stays."""

    def __init__(self, keys: Sequence[KeyHint] = ()) -> None:
        super().__init__(classes="keys", markup=False)
        self.keys = list(keys)
        self._made_for: tuple[object, ...] = ()

    def on_mount(self) -> None:
        """Show the keys it began with."""
        self.show(self.keys)

    def show(self, keys: Sequence[KeyHint]) -> None:
        """Show other keys, or the same in another window."""
        self.keys = list(keys)
        columns = self.app.size.width
        if (self.keys, columns) != self._made_for:
            self._made_for = (self.keys, columns)
            self.update(self._fitted(columns), layout=False)

    @property
    def text(self) -> str:
        """What is shown."""
        return str(self.content)

    def on_resize(self) -> None:
        """Fit them into another width."""
        self.show(self.keys)

    def _fitted(self, columns: int) -> Content:
        ascii_wanted = host(self.app).ascii
        kept = [(one.key, clean(one.shown, ascii=ascii_wanted), one.word) for one in self.keys]
        room = columns if columns < 50 else columns - 2
        while (
            len(kept) > 2 and sum(len(shown) + len(does) + 5 for _, shown, does in kept) > room + 2
        ):
            del kept[-2]
        return Content("  ").join(
            Content.assemble(
                (f" {shown} ", f"bold reverse @click=app.press('{key}')"),
                (f" {does}", f"@click=app.press('{key}')"),
            )
            for key, shown, does in kept
        )
