"""Hazards: what is dangerous at a step, and the caution that each demands. A file may declare more of them.

Signal words after ANSI Z535.6 (public text of 4.14): a notice is not about people; a caution is about what can hurt, a
warning about what can kill or maim, a danger about what will.
"""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

GRAVITY = ("notice", "caution", "warning", "danger")
"""Signal words, the mildest first."""

Cautions = tuple[tuple[str, str], ...]
"""Signal words, each with what it warns of."""


class Hazard(NamedTuple):
    """What is dangerous at a step."""

    cautions: Cautions
    """The usual caution, shown where the step writes none of its own."""
    least: str
    """The mildest signal word that a step's own caution may have."""


def declared(cautions: Iterable[tuple[str, str]]) -> Hazard:
    """A hazard of a file: a step's own caution must be as grave as the gravest that the file gives it."""
    usual = tuple(cautions)
    return Hazard(usual, max((word for word, _ in usual), key=GRAVITY.index))


def _one(word: str, text: str, least: str = "warning") -> Hazard:
    return Hazard(((word, text),), least)


USUAL: Mapping[str, Hazard] = {
    "drilling": _one(
        "warning",
        "Wear eye and ear protection. Drill with both hands, from a platform or with both feet braced on one step.",
    ),
    "ladder": _one("warning", "Three points of contact while you climb; keep off the top step."),
    "spring": _one("warning", "The spring is strong: keep fingers clear of the arm and its elbow."),
    "fire-door": _one(
        "caution", "A fire door: change nothing its listing does not allow.", "caution"
    ),
    "electrical": _one("danger", "Find and switch off what is live before you drill near it."),
    "hold-open-wiring": _one(
        "danger", "A holder's wires may be live: touch none until its supply is switched off."
    ),
    "dust": _one("warning", "Wear a dust mask; do not sweep the dust dry."),
    "silica": _one(
        "warning", "Mortar dust harms the lungs: wear a fitted mask and draw the dust off."
    ),
    "old-core": _one(
        "danger",
        "An old core may hold asbestos: make no dust until a survey says that it does not.",
    ),
    "lead-paint": _one(
        "warning", "Old paint may hold lead: keep it damp, wear a mask, and sand nothing dry."
    ),
    "hearing": _one("caution", "It is loud: wear ear protection.", "caution"),
    "oil": _one(
        "caution",
        "A valve opened too far sprays oil: stop when it turns freely, and wipe the floor at once.",
        "caution",
    ),
    "alone": _one(
        "caution", "Alone? Tell someone where you are, and when you will call.", "caution"
    ),
}
"""The hazards that are known everywhere. Common practice."""
