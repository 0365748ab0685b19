"""How far a valve may still be turned: the turns its sheet gives it, wherever they began."""

from dataclasses import dataclass

from guide.trade.tuning.readings import Travel

EIGHTH = 0.125
"""[turns]"""


@dataclass(slots=True)
class ValveReach:
    """One valve of one door."""

    turns: float | None
    """From one end to the other; None if no sheet says."""
    closed: float = 0.0
    """The furthest closed it was advised to [turns since the start]; opening counts up."""
    opened: float = 0.0

    def has(self, place: float) -> bool:
        """Whether the valve can stand at `place` too [turns since the start]."""
        return self.turns is None or (
            max(self.opened, place) - min(self.closed, place) <= self.turns
        )

    def as_far(self, at: float, turn: float) -> float:
        """That turn from `at`, or as much of it as the valve has left, by eighths."""
        while turn and not self.has(at + turn):
            turn -= EIGHTH if turn > 0 else -EIGHTH
        return turn

    def note(self, place: float) -> None:
        """It was advised to `place`."""
        self.closed, self.opened = min(self.closed, place), max(self.opened, place)


def reaches(travel: Travel) -> tuple[ValveReach, ValveReach]:
    """Of the sweep valve and of the latch valve."""
    sweep, latch = (
        None if turns is None else float(turns) for turns in (travel.sweep, travel.latch)
    )
    return ValveReach(sweep), ValveReach(latch)
