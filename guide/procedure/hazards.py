"""Hazards: what is dangerous at a step, and the caution that each demands. A file may declare more of them.

Signal words after ANSI Z535.6 (from memory): a notice is not about people; a caution is about what can hurt, a warning
about what can kill or maim, a danger about what will.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

GRAVITY = ("notice", "caution", "warning", "danger")
"""Signal words, the mildest first."""

Cautions = tuple[tuple[str, str], ...]
"""Signal words, each with what it warns of."""


@dataclass(frozen=True, slots=True)
class Hazard:
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
    "drilling": _one("warning", "Wear eye protection; hold the drill with both hands."),
    "ladder": _one("warning", "Three points on the ladder; keep off the top step."),
    "spring": _one("warning", "The spring is strong: keep fingers clear of the arm and its elbow."),
    "fire-door": _one(
        "caution", "A fire door: change nothing its listing does not allow.", "caution"
    ),
    "electrical": _one("danger", "Find and switch off what is live before you drill near it."),
    "dust": _one("warning", "Wear a dust mask; do not sweep the dust dry."),
}
"""The hazards that are known everywhere. Common practice."""
