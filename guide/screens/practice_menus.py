"""The menus of a practice door."""

from guide.practice.door import CAUSES, REMEDIES
from guide.practice.practice import PLACES, RIGHT, STARTS, Practice, ways
from guide.practice.wording import SCREW_WORDS, turn
from guide.screens.menu import Item, Menu
from guide.translation import _

MAIN, START, SCREW, AMOUNT, INSPECT, PUT_RIGHT, VERDICT = (
    "main",
    "start",
    "screw",
    "amount",
    "inspect",
    "put-right",
    "verdict",
)
"""The name of each menu."""

Choice = str | float | tuple[str, float]

_INSPECTED = {
    "closer": _("The closer, its arm and its label"),
    "frame": _("The frame, the seal and the strike"),
    "air": _("The air, by a strip of paper in the gap"),
}
_VALVE_STEPS, _SPRING_STEPS = (0.5, 1.0, 2.0), (1.0, 2.0)
"""Quarter turns, and half EN sizes, that can be turned at once."""


def main_menu() -> Menu[Choice]:
    """The acts at the door."""
    return Menu(
        _("Next at this door"),
        [
            Item(_("Let the leaf go"), START),
            Item(_("Adjust a screw"), SCREW),
            Item(_("Inspect"), INSPECT),
            Item(_("Gauge the force to open it"), "gauge"),
            Item(_("Push it briskly open"), "push"),
            Item(_("Arm off: move the leaf by hand"), "feel"),
            Item(_("Have something put right"), PUT_RIGHT),
            Item(_("Give your verdict"), VERDICT),
        ],
    )


def menu_of(stage: str, practice: Practice, screw: str = "") -> Menu[Choice]:
    """The menu of a stage; `screw` is the one that is to be turned."""
    if stage == START:
        starts = sorted({*STARTS, practice.at.opens_to}, reverse=True)
        items: list[Item[Choice]] = [Item(_from(start, practice), start) for start in starts]
        return Menu(_("From where?"), items)
    if stage == SCREW:
        return Menu(_("Which screw?"), [Item(SCREW_WORDS[one], one) for one in practice.screws])
    if stage == AMOUNT:
        steps = _SPRING_STEPS if screw == "spring" else _VALVE_STEPS
        return Menu(
            _("Which way, and how far?"),
            [
                Item(_how_far(screw, way, step), (way, step))
                for way in ways(screw)
                for step in steps
            ],
        )
    if stage == INSPECT:
        return Menu(_("Inspect what?"), [Item(_INSPECTED[place], place) for place in PLACES])
    if stage == PUT_RIGHT:
        return Menu(_("Put what right?"), [Item(words, cause) for cause, words in REMEDIES.items()])
    if stage == VERDICT:
        right: Item[Choice] = Item(_("The door is right"), RIGHT)
        causes: list[Item[Choice]] = [
            Item(_("Cannot be done: {words}").format(words=words), cause)
            for cause, words in CAUSES.items()
        ]
        return Menu(_("Your verdict?"), [right, *causes])
    return main_menu()


def _how_far(screw: str, way: str, step: float) -> str:
    told = turn(screw, way, step).partition(": ")[2]
    return told[:1].upper() + told[1:]


def _from(start: float, practice: Practice) -> str:
    wide = _("wide open, ") if start == practice.at.opens_to else ""
    return _("From {wide}{start:g} degrees").format(wide=wide, start=start)
