"""One tuning session carried through in the app by recordings alone, and held against the same session by keys.

The door, its readings and what is done at each step are those of `door_to_tune`. The words are spoken by a
synthesiser and heard by the real ear; only the stopwatch goes by a clock of our own, since a recording of seven
seconds tells no more than one of one.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from door_to_tune import GIVEN, Act, DoorToTune, acts, office_door
from test_app_by_wav import Fitter, fitter
from test_stopwatch import Clock
from test_tuning_session import carried

from guide.procedure.cache import graph_of
from guide.procedure.library import find
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.state import label
from guide.screens.run_view import RunView
from guide.screens.stopwatch import Stopwatch

pytestmark = pytest.mark.needs("flite")

MOST_TRIES = 4
SLIPS = {"let-go#1": "short of the latch", "force-now#1": "nine pounds"}
"""What is said first, by mistake, of a door that slams and takes another force."""


class Voice:
    """Carries acts out by words alone."""

    def __init__(self, fitter: Fitter, clock: Clock) -> None:
        self.fitter, self.clock = fitter, clock
        self.slips = dict(SLIPS)
        self.slipped: list[str] = []
        self.again = 0
        """Sayings that did not do what they were said for, and were said again."""
        self.misheard: list[str] = []
        """Values that were heard for others."""
        self.watched = 0
        """Steps timed by the stopwatch."""

    async def carry_out(self, act: Act) -> None:
        if act.kind == "go-on":
            await self.next()
        elif act.kind == "answer":
            await self.answer(act.answer)
        elif self.watched == 0:
            await self.watch(act.times)
        else:
            for seconds in act.times:
                await self.answer(f"{seconds:.1f} s")

    async def answer(self, text: str) -> None:
        """Say it, perhaps something else at first, until it was read back right and confirmed."""
        session = self.fitter.session
        state = session.state
        began, fact = state.at, state.graph.facts[state.node.body["fact"]]
        value, tries = fact.read(text, state.units), 0
        slip = self.slips.pop(label(state.graph, began), "")
        while session.state.at == began:
            assert tries < 2 * MOST_TRIES, f"{text} was never understood: {self.fitter.screen}"
            words = slip or self.fitter.words_for(text, tries)
            before = session.state.seq
            await self.fitter.says(words, min(tries // 2, 2))
            if session.state.seq == before and not self.offered:
                self.again += 1
            pending = session.state.pending
            if slip:
                assert pending is not None, f"“{slip}” was not heard"
                assert pending.value != value
                self.slipped.append(slip)
            elif pending is not None and pending.value != value:
                self.misheard.append(f"{words}: {pending.value}")
            slip, tries = "", tries + 1

    @property
    def offered(self) -> bool:
        talking = self.fitter.app.talking
        assert talking is not None
        return talking.talk.offered is not None

    async def next(self) -> None:
        """The step is done, or what the stopwatch has taken is to count."""
        session = self.fitter.session
        before = session.state.seq
        await self.until("next", lambda: session.state.seq > before)

    async def watch(self, parts: tuple[float, ...]) -> None:
        """Two swings timed by the words, each told in seconds; then take them."""
        self.watched += 1
        for swing in range(1, 3):
            await self.until("go", lambda: self.stopwatch.running)
            for left in range(len(parts) - 1, -1, -1):
                self.clock.now += parts[len(parts) - 1 - left]
                if left:
                    await self.until("go", lambda left=left: self.stopwatch.parts_left == left)
                else:
                    await self.until("shut", lambda: not self.stopwatch.running)
            assert len(self.stopwatch.swings) == swing
            assert self.fitter.mouth[-1].endswith("seconds.")
        for _ in parts:
            await self.next()

    @property
    def stopwatch(self) -> Stopwatch:
        assert self.fitter.app.run_view is not None
        return self.fitter.app.run_view.watch

    async def until(self, words: str, done: Callable[[], bool]) -> None:
        """Say words, and again more slowly, until they have done what they are for."""
        for attempt in range(MOST_TRIES):
            await self.fitter.says(words, attempt)
            if done():
                return
            self.again += 1
        raise AssertionError(f"“{words}” did nothing: {self.fitter.screen}")


def everything(session: Session, door: DoorToTune) -> Iterator[Act]:
    """What is told of the door, and then the tuning, to its end."""
    while session.state.node.id.startswith("given/"):
        yield Act("answer", GIVEN[session.state.node.body["fact"]])
    yield from acts(session, lambda: prompt(session.state).text, door, last="")


async def test_an_office_door_is_tuned_by_voice_alone_as_it_is_by_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    by_keys = DoorToTune(office_door(size=3.0))
    other, _ = await carried(by_keys)
    pressed: list[str] = []
    monkeypatch.setattr(RunView, "press", lambda _, key, __: pressed.append(key))
    door, clock = DoorToTune(office_door(size=3.0)), Clock()
    graph = graph_of(find("procedure", "tune-door"))
    session = Session.begin(MemoryJournal(), graph, device="bench", units="inch")
    async with fitter(session, tmp_path, clock) as at:
        voice = Voice(at, clock)
        import time
        t0=time.time()
        for act in everything(session, door):
            n=at.spoken
            await voice.carry_out(act)
            print(act, at.spoken-n, round(time.time()-t0,1), voice.again, voice.misheard)
        print(at.spoken, session.state.node.id, session.state.ended)
        print([e.kind for e in session.journal.events()])
        print(at.mouth)
    print(session.state.env.asked, other.state.env.asked)
    print(door.turned, by_keys.turned, pressed)
