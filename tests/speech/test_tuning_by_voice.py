"""One tuning session carried through in the app by recordings alone, and held against the same session by keys.

The door, its readings and what is done at each step are those of `door_to_tune`. The words are spoken by a
synthesiser and heard by the real ear. Only the stopwatch goes by a clock of our own, so that no swing is waited for.
"""

from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.measures import parse
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.screens.run_view import RunView
from guide.words.spoken import language, say
from tests.screens.door_to_tune import GIVEN, Act, DoorToTune, acts, office_door
from tests.screens.test_stopwatch import Clock
from tests.screens.test_tuning_session import carried
from tests.speech.test_app_by_wav import Fitter, fitter

pytestmark = pytest.mark.needs("flite")

ENGLISH = language("english")
MOST_TRIES = 4
SLIPS = {"let-go": "short of the latch", "force-now": "nine pounds"}
"""What is said by mistake the first time, of a door that slams and opens with less than 9 lbf."""


class Voice:
    """Carries acts out by words alone."""

    def __init__(self, fitter: Fitter, clock: Clock) -> None:
        self.fitter, self.clock = fitter, clock
        self.slips = dict(SLIPS)
        self.missed = 0
        """Sayings that did nothing, and were said again."""
        self.misheard: list[str] = []
        """Values that were heard as others."""
        self.watched = 0
        """Steps that were timed by the stopwatch; after the first the seconds are spoken."""

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

    async def next(self) -> None:
        """The step is done, what the stopwatch has taken is to count, or the job is to end."""
        state = self.fitter.session.state
        before, words = state.seq, "yes" if state.node.kind == "end" else "next"
        await self.until(words, lambda: self.fitter.session.state.seq > before)

    async def answer(self, text: str) -> None:
        """Say it, perhaps another at first, until it was read back right and confirmed."""
        session = self.fitter.session
        state = session.state
        began, fact = state.at, state.graph.facts[state.node.body["fact"]]
        value = fact.read(text, state.units)
        slip = self.slips.pop(state.node.id.rpartition("/")[2], "")
        for tries in range(2 * MOST_TRIES):
            before = session.state.seq, self._offered()
            words = slip or self.fitter.words_for(text, tries)
            await self.fitter.says(words, tries // 2)
            if session.state.at != began:
                return
            pending = session.state.pending
            self.missed += (session.state.seq, self._offered()) == before
            if not slip and pending is not None and pending.value != value:
                self.misheard.append(words)
            slip = ""
        raise AssertionError(f"{text} was not understood: {self.fitter.screen}")

    def _offered(self) -> object:
        return self.fitter.talk.offered

    async def watch(self, parts: tuple[float, ...]) -> None:
        """Two swings by the stopwatch: “go” as the leaf is let go and at the mark, “shut” at the click."""
        assert self.fitter.app.run_view is not None
        view, watch = self.fitter.app.run_view, self.fitter.app.run_view.watch
        self.watched += 1

        def marked(left: int) -> Callable[[], bool]:
            return lambda: watch.parts_left == left if left else not watch.running

        for _ in range(2):
            await self.until("go", lambda: watch.running)
            for left, part in zip(reversed(range(len(parts))), parts, strict=True):
                self.clock.now += part
                await self.until("go" if left else "shut", marked(left))
        for _ in parts:
            taken = parse(view.text, "time")
            assert self.fitter.mouth[-1].endswith(f"{say(taken, ENGLISH)}.")
            await self.next()

    async def until(self, words: str, done: Callable[[], bool]) -> None:
        """Say words, and again more slowly, until they have done what they are for."""
        for attempt in range(MOST_TRIES):
            await self.fitter.says(words, attempt)
            if done():
                return
            self.missed += 1
        raise AssertionError(f"“{words}” did nothing: {self.fitter.screen}")


def everything(session: Session, door: DoorToTune) -> Iterator[Act]:
    """What is told of the door, the tuning, and what follows it to the end of the part."""
    while session.state.node.id.startswith("counts-on/"):
        yield Act("answer", GIVEN[session.state.node.body["fact"]])
    yield from acts(session, door, last="")
    yield Act("go-on")


def readings(session: Session) -> dict[str, str]:
    """What was at last answered at each block."""
    kinds = ("answered", "heard", "timed")
    events = [event.body for event in session.journal.events() if event.kind in kinds]
    return {body["at"]: body["value"] for body in events}


@pytest.mark.whole
async def test_a_slamming_office_door_is_tuned_by_voice_alone_as_it_is_by_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What a door does and a force are said wrong, denied, and said right."""
    door_by_keys = DoorToTune(office_door(size=3.0))
    by_keys, _ = await carried(door_by_keys)
    pressed: list[str] = []
    monkeypatch.setattr(RunView, "press", lambda _, key, __: pressed.append(key))
    door, clock = DoorToTune(office_door(size=3.0)), Clock()
    graph = graph_of(find("procedure", "tune-door"))
    session = Session.begin(MemoryJournal(), graph, device="bench", units="inch")
    async with fitter(session, tmp_path, clock) as at:
        voice = Voice(at, clock)
        for act in everything(session, door):
            await voice.carry_out(act)
    assert session.state.ended == "finished"
    assert door.turned == door_by_keys.turned
    assert readings(session) == readings(by_keys)
    assert session.state.env.asked == by_keys.state.env.asked
    assert pressed == []
    assert voice.slips == {}
    assert voice.misheard == []
    events = session.journal.events()
    kinds = [event.kind for event in events]
    assert "answered" not in kinds
    assert kinds.count("timed") == 2
    after_hearing = [
        (heard.body["at"].rpartition("/")[2], settled.body["yes"])
        for heard, settled in pairwise(events)
        if heard.kind == "heard" and settled.kind == "confirmed"
    ]
    assert len(after_hearing) == kinds.count("heard")
    assert [block for block, yes in after_hearing if not yes] == ["let-go", "force-now"]
