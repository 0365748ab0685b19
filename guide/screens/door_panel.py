"""What is known of this door, in the trade's short words, beside the questions."""

from guide.procedure.facts import Value
from guide.run.state import State
from guide.run.turns import later_turn
from guide.screens.words_shown import Piece, Words
from guide.translation import _

SHORT = {
    "width": _("Width"),
    "height": _("Height"),
    "thickness": _("Thick"),
    "knuckles": _("DIN hand"),
    "hinge": _("Hung on"),
    "leaf": _("Leaf"),
    "frame": _("Frame"),
    "rated": _("Fire door"),
    "exterior": _("Outdoors"),
    "accessible": _("Access"),
    "leaves": _("Leaves"),
    "mount": _("Mount"),
    "opening": _("Opens"),
    "head_item": _("Head"),
    "soffit": _("Soffit"),
    "size_now": _("EN size"),
}
"""The facts of the panel, with the trade's word for each; the key S shows all that is known."""
_IN_DOUBT = {"doubt": _("in doubt")}
_COLUMN = 10


class DoorPanel(Words):
    """The table of this door, and the minutes that are left."""

    def show(self, state: State, minutes: int) -> None:
        """Show what is known where the run is; `minutes` are those that are left, 0 where nobody knows."""
        turn = later_turn(state, state.at)
        pieces: list[Piece] = [(turn or _("This door"), "bold $secondary")]
        for name, word in SHORT.items():
            value = state.known(name) if name in state.graph.facts else None
            if turn and name == "leaves":
                continue  # it was asked of the first leaf
            if value is not None and name not in state.hidden:
                pieces += ["\n", f"{word:{_COLUMN}}", (_short(state, name, value), "bold")]
        if len(pieces) == 1:
            pieces.append(_("\nNothing is known yet."))
        if minutes:
            pieces += [
                "\n\n",
                (_("Left to do"), "bold $secondary"),
                _("\nat least {minutes} min").format(minutes=minutes),
            ]
        self.tell(*pieces)


def _short(state: State, name: str, value: Value) -> str:
    """The value in a word or two: a choice by its name in the file."""
    return (
        _IN_DOUBT.get(value, value.replace("-", " "))
        if isinstance(value, str)
        else state.graph.facts[name].show(value, state.units)
    )
