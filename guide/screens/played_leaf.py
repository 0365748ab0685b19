"""The leaf of a practice door: a swing or a push played in its own time, and the plan it is seen on."""

from collections.abc import Callable
from fractions import Fraction

from guide.drawing.for_step import DoorFacts
from guide.measures import Quantity
from guide.practice.door import PracticeDoor
from guide.practice.practice import PracticeSwing
from guide.practice.push import PushResult
from guide.run.step_drawing import PLAN, DrawnOpening


class PlayedLeaf:
    """Moves by the clock handed in."""

    def __init__(self, at: PracticeDoor, clock: Callable[[], float]) -> None:
        self.movement: PracticeSwing | PushResult | None = None
        """What is played, or was played last."""
        self._clock = clock
        self._began = 0.0
        self._door = DoorFacts(
            at.mount,
            at.knuckles,
            opening=Quantity(Fraction(round(at.opens_to)), "deg"),
            width=at.door.width / 0.0254,
            units=at.units,
        )

    def play(self, movement: PracticeSwing | PushResult) -> None:
        """Let it move from now on."""
        self.movement, self._began = movement, self._clock()

    def skip(self) -> None:
        """Let the movement be over."""
        if self.movement is not None:
            self._began = self._clock() - self.movement.seconds

    @property
    def over(self) -> bool:
        """Whether the time of the movement has passed."""
        return self.movement is None or self._clock() - self._began >= self.movement.seconds

    @property
    def angle(self) -> float:
        """How far the leaf is open [deg]."""
        return 0.0 if self.movement is None else self.movement.angle(self._clock() - self._began)

    def picture(self, angle: float) -> DrawnOpening:
        """The plan with the leaf open so far, in whole degrees."""
        return DrawnOpening(self._door, PLAN, float(round(angle)), swinging=True)
