"""Tuning sessions carried through by keys, from the first swing to the last test: one in the app, two without a window.

The door is the model's, its readings are taken by the stopwatch on a clock of our own, and the screws are turned
as the steps say. `door_to_tune.acts` is the session; another front end carries out the same acts.
"""

from dataclasses import replace
from typing import Protocol

from guide.run.session import Session
from guide.screens.hingeside_app import HingesideApp
from guide.trade.swing.model import SLAM_SPEED, close
from guide.trade.tuning.tune_next import SEEN
from tests.screens.back_door import Hand
from tests.screens.door_to_tune import (
    Act,
    DoorToTune,
    acts,
    office_door,
    tuning_run,
    tuning_session,
)
from tests.screens.seen import words_seen
from tests.screens.test_stopwatch import Clock


class Presses(Protocol):
    """What takes a key: the app's pilot, or a hand without a window."""

    async def press(self, *keys: str) -> None:
        """Press them."""


class Unseen:
    """Presses keys on a run without a window."""

    def __init__(self, hand: Hand) -> None:
        self._hand = hand

    async def press(self, *keys: str) -> None:
        """Press them."""
        self._hand.press(*keys)


class Keys:
    """Carries acts out by keys."""

    def __init__(self, session: Session, pressed: Presses, clock: Clock) -> None:
        self.session, self.pressed, self.clock = session, pressed, clock

    async def press(self, *keys: str, after: float = 2.0) -> None:
        for key in keys:
            self.clock.now += after
            await self.pressed.press(key)

    async def carry_out(self, act: Act) -> None:
        if act.kind == "go-on":
            await self.press("enter")
        elif act.kind == "time":
            await self.time(act.times)
        elif act.answer in SEEN:
            await self.press(str(SEEN.index(act.answer) + 1))
        else:
            await self.press(*("space" if char == " " else char for char in act.answer), "enter")
            await self.settle()

    async def time(self, parts: tuple[float, ...]) -> None:
        """Two swings where all of the swing is timed, one where it stops short; then take them."""
        for _ in range(len(parts)):
            await self.press("t")
            for part in parts:
                await self.press("t", after=part)
        for _ in parts:
            await self.press("enter")
            await self.settle()

    async def settle(self) -> None:
        """Say yes to a value that is unusual."""
        while self.session.state.pending is not None:
            await self.press("y")


async def carried(door: DoorToTune, **given: str) -> tuple[Session, str]:
    """The session after it, and what the screen shows."""
    clock, session = Clock(), tuning_session(**given)
    app = HingesideApp(session, clock=clock)
    async with app.run_test(size=(80, 24)) as pilot:
        keys = Keys(session, pilot, clock)
        for act in acts(session, door):
            await keys.carry_out(act)
        await pilot.pause()
        return session, words_seen(app)


async def carried_unseen(door: DoorToTune, **given: str) -> tuple[Session, str]:
    """The same without a window."""
    clock = Clock()
    hand = tuning_run(clock, **given)
    session = hand.view.session
    keys = Keys(session, Unseen(hand), clock)
    for act in acts(session, door):
        await keys.carry_out(act)
    return session, hand.look()


async def test_a_slamming_office_door_is_tuned_by_keys_until_it_is_done() -> None:
    """A quarter turn of the latch valve is not enough for a door that bangs so hard."""
    door = DoorToTune(office_door(size=3.0))
    assert close(door.door).edge_speed > SLAM_SPEED
    session, seen = await carried(door)
    assert session.state.route()[-1] == "tuned"
    assert "Turn nothing more" in seen
    assert door.tests <= 5
    closing = close(door.door)
    assert closing.latched
    assert closing.s_90_12 is not None
    assert 5 <= closing.s_90_12 <= 7
    assert closing.edge_speed < SLAM_SPEED
    assert all(close(door.door, start).latched for start in (45.0, 10.0))
    timed = [event.body for event in session.journal.events() if event.kind == "timed"]
    assert all(len(body["swings"]) == 2 for body in timed)


async def test_the_spring_is_turned_where_it_will_not_latch_and_the_force_is_asked_again() -> None:
    door = DoorToTune(replace(office_door(size=1.0), latch_force=25.0, pressure=-10.0, seal=2.0))
    session, _ = await carried_unseen(door, exterior="yes", size="1")
    assert session.state.route()[-1] == "tuned"
    springs = [said for said in door.turned if said.startswith("Spring")]
    assert springs
    places = [event.body.get("at", "") for event in session.journal.events()]
    assert sum(at.startswith("force-now") for at in places) == 1 + len(springs)


async def test_a_door_that_no_screw_can_cure_is_sent_to_the_fault_finder() -> None:
    """No spring that opens with 15 lbf latches it against 70 Pa, wherever the latch valve stands."""
    door = DoorToTune(replace(office_door(size=3.0), latch_force=60.0, pressure=-70.0, seal=3.0))
    session, seen = await carried_unseen(door, exterior="yes")
    assert door.tests <= 10
    assert session.state.node.id in ("ten-tests", "find-the-fault")
    assert "Next job" in seen
