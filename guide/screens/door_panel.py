"""What is known of this door, in the trade's short words, beside the questions."""

from guide.procedure.facts import Value
from guide.run.state import State
from guide.screens.words_shown import Piece, Words

SHORT = {
    "width": "Width",
    "height": "Height",
    "thickness": "Thick",
    "knuckles": "Hinges",
    "hinge": "Hung on",
    "leaf": "Leaf",
    "frame": "Frame",
    "rated": "Fire door",
    "exterior": "Outdoors",
    "accessible": "Access",
    "leaves": "Leaves",
    "mount": "Mount",
    "opening": "Opens",
    "head_item": "Head",
    "soffit": "Soffit",
    "size_now": "EN size",
}
"""The facts of the panel, with the trade's word for each; the key S shows all that is known."""
_COLUMN = 10


class DoorPanel(Words):
    """The table of this door, and the minutes that are left."""

    def show(self, state: State, minutes: int) -> None:
        """Show what is known where the run is; `minutes` are those that are left, 0 where nobody knows."""
        pieces: list[Piece] = [("This door", "bold $secondary")]
        for name, word in SHORT.items():
            value = state.known(name) if name in state.graph.facts else None
            if value is not None and name not in state.hidden:
                pieces += ["\n", f"{word:{_COLUMN}}", (_short(state, name, value), "bold")]
        if len(pieces) == 1:
            pieces.append("\nNothing is known yet.")
        if minutes:
            pieces += ["\n\n", ("Left to do", "bold $secondary"), f"\nat least {minutes} min"]
        self.tell(*pieces)


def _short(state: State, name: str, value: Value) -> str:
    """The value in a word or two: a choice by its name in the file."""
    return (
        value.replace("-", " ")
        if isinstance(value, str)
        else state.graph.facts[name].show(value, state.units)
    )
