"""The app carried on by recordings alone: the real ear in its own process, the talk, the screen."""

import asyncio
import queue
import time
from collections import Counter
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager
from pathlib import Path
from types import TracebackType

import pytest
from textual.pilot import Pilot

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.facts import Value
from guide.procedure.scenario_file import ScenarioShape, load_scenario
from guide.procedure.sheet_cache import sheet_of
from guide.run.listening import offered
from guide.run.rehearse import rehearse
from guide.run.schedule_values import supplied_values
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.state import label
from guide.run.store import begin_run
from guide.run.talk import Talk
from guide.screens.hingeside_app import HingesideApp
from guide.screens.voice_line import VoiceLine
from guide.speech.audio import open_wav
from guide.speech.ear import Report, Speaking
from guide.speech.listener import EarApart
from guide.speech.microphone import NoMicrophone
from guide.speech.rehearse_voice import Sayings
from guide.speech.run_voice import RunVoice
from guide.words import by_name
from guide.words.spoken import language, say, spelled
from tests.screens.seen import seen
from tests.speech.sounds import frames_of, hiss

pytestmark = pytest.mark.needs("flite")

ENGLISH = language("english")
ROOM = frames_of(hiss(2.4, 8))
"""A quiet room for as long as the rest of a measure is waited for."""
BEFORE, AFTER = 10, 14
"""Frames of it before a recording, and at least after it: a little more than the pause that ends a measure."""
MOST_SAYINGS = 400
GONE = "The microphone has gone; plug it in again, or use the keys."


class Recordings:
    """A microphone before which recordings are played, each in a quiet room."""

    def __init__(self) -> None:
        self._wanted: queue.Queue[list[bytes] | None] = queue.Queue()
        self._loop = asyncio.get_running_loop()
        self._heard = asyncio.Event()
        self._reports: list[Report] = []

    def ear(self) -> EarApart:
        """The ear that they are played to."""
        reports = self._reports

        class Ear(EarApart):
            def feed(self, frame: bytes) -> Iterator[Report]:
                told = list(super().feed(frame))
                reports.extend(told)
                return iter(told)

        return Ear()

    def __enter__(self) -> "Recordings":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Nothing is held."""

    def frames(self) -> Iterator[bytes]:
        while (recording := self._wanted.get()) is not None:
            self._reports.clear()
            yield from recording
            for frame in ROOM[AFTER:]:
                if self._reports and not isinstance(self._reports[-1], Speaking):
                    break  # it has been judged, and nothing more was begun
                yield frame
            # Come back for more: everything that was to be heard in it has been told.
            self._loop.call_soon_threadsafe(self._heard.set)
        raise NoMicrophone(GONE)

    async def play(self, path: Path) -> None:
        """Play a recording, and wait until it has been heard."""
        self._heard.clear()
        self._wanted.put([*ROOM[:BEFORE], *open_wav(path).frames(), *ROOM[:AFTER]])
        await asyncio.wait_for(self._heard.wait(), 60)

    def unplug(self) -> None:
        """No more sound comes."""
        self._wanted.put(None)


class Paper:
    """A mouth that writes down what it is told to say."""

    speaking = False
    trouble = ""

    def __init__(self) -> None:
        self.said: list[str] = []

    def say(self, text: str) -> None:
        self.said.append(text)

    def hush(self) -> None:
        """It is silent already."""

    def close(self) -> None:
        """Nothing is held."""


class Fitter:
    """Somebody who carries a job through by speaking."""

    def __init__(self, app: HingesideApp, pilot: Pilot[int], source: Recordings, folder: Path):
        self.app, self.pilot, self.source = app, pilot, source
        self.sayings = Sayings(folder)
        self.mouth: list[str] = []
        self.spoken = 0
        self.by_keys = 0

    @property
    def screen(self) -> str:
        return seen(self.app)

    @property
    def session(self) -> Session:
        assert self.app.run_view is not None
        return self.app.run_view.session

    @property
    def talk(self) -> Talk:
        talking = self.app.screen.query_one(VoiceLine).talking
        assert talking is not None
        return talking.talk

    async def says(self, words: str, attempt: int = 0) -> str:
        """Say something; what the screen shows when it has been heard."""
        self.spoken += 1
        await self.source.play(self.sayings.wav(words, attempt))
        await self.pilot.pause()
        return self.screen

    async def carry_through(self, scenario: ScenarioShape, slips: dict[str, str]) -> None:
        """Speak every answer of a scenario; at some blocks, at first, words that mean another value."""
        values = {one.at: one.value for one in scenario.answers if one.value is not None}
        tried: Counter[tuple[int, str]] = Counter()
        while not self.session.state.ended and self.spoken < MOST_SAYINGS:
            if self.talk.by_keys:
                self.by_keys += 1
                await self.pilot.press("v", "v")  # the ear shut and open again
            at = label(self.session.state.graph, self.session.state.at)
            words = slips.pop(at, "") or self._words(values, scenario.door, tried.total())
            turn = self.session.state.seq, words
            await self.says(words, tried[turn])
            tried[turn] += 1

    def _words(self, values: dict[str, str], door: dict[str, str], tries: int) -> str:
        """What to say where the run stands."""
        assert self.app.run_view is not None
        state = self.session.state
        kind = self.app.run_view.desk.accepts.kind
        command = {"begin": "cut", "hold": "hold", "end": "yes"}.get(kind, "done")
        if state.pending is None and kind not in ("choice", "measure", "count"):
            return by_name(command).word
        fact = state.graph.facts[state.node.body["fact"]]
        return self.words_for(values.get(label(state.graph, state.at)) or door[fact.name], tries)

    def words_for(self, text: str, tries: int) -> str:
        """What to say so that the question comes to the answer `text`; by its number at every other try."""
        state, talk = self.session.state, self.talk
        fact = state.graph.facts[state.node.body["fact"]]
        value: Value = fact.read(text, state.units)
        waiting = state.pending.value if state.pending is not None else talk.offered
        if waiting is not None:
            return by_name("yes" if waiting == value else "no").word
        if not isinstance(value, str):
            return spelled(value, ENGLISH) if talk.wants_digits else say(value, ENGLISH)
        choices = offered(fact)
        number, choice = next((n, one) for n, one in enumerate(choices, 1) if one.value == value)
        return choice.says[0] if tries % 2 == 0 else f"number {say(number, ENGLISH)}"


@asynccontextmanager
async def fitter(
    session: Session, folder: Path, clock: Callable[[], float] = time.monotonic
) -> AsyncIterator[Fitter]:
    """The app with a real ear and recordings before it; its stopwatch goes by `clock`."""
    source, paper = Recordings(), Paper()
    app = HingesideApp(
        session,
        Settings(),
        clock=clock,
        open_voice=lambda: RunVoice(source.ear, lambda: source, paper),
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        at = Fitter(app, pilot, source, folder)
        at.mouth = paper.said
        yield at
        source.unplug()


def demo() -> tuple[ScenarioShape, Session]:
    """The shipped job at its shipped opening, just begun."""
    scenario = load_scenario(find("scenario", "demo"))
    graph = graph_of(find("procedure", scenario.procedure))
    session = begin_run(
        graph,
        units=scenario.units,
        sheet=sheet_of(find("sheet", scenario.sheet)).to_json(),
        supplied=supplied_values(graph, scenario.door, scenario.units),
    )
    return scenario, session


async def test_an_answer_is_spoken_read_back_denied_and_given_right(tmp_path: Path) -> None:
    _, session = demo()
    async with fitter(session, tmp_path) as at:
        fact = session.state.graph.facts[session.state.node.body["fact"]]
        other = next(one for one in offered(fact) if one.value != "ordinary")
        shown = await at.says(other.says[0])
        assert "Say yes or no." in " ".join(shown.split())
        assert fact.name not in session.state.env
        await at.says("no")
        right = next(one for one in offered(fact) if one.value == "ordinary")
        await at.says(right.says[0])
        await at.says("yes")
        assert session.state.env[fact.name] == "ordinary"
        kinds = [event.kind for event in session.journal.events()]
        assert kinds.count("heard") == kinds.count("confirmed") == 2
        assert "answered" not in kinds


async def test_a_microphone_pulled_out_leaves_the_keys(tmp_path: Path) -> None:
    _, session = demo()
    async with fitter(session, tmp_path) as at:
        await at.says("next")
        at.source.unplug()
        while "VOICE OFF" not in at.screen:
            await at.pilot.pause()
        assert "The microphone has gone" in at.screen
        await at.pilot.press("question_mark")
        assert "Keys and words" in at.screen


@pytest.mark.whole
async def test_the_whole_job_is_carried_through_by_recordings(tmp_path: Path) -> None:
    """One thickness is said wrong, read back, denied, and said right."""
    scenario, session = demo()
    async with fitter(session, tmp_path) as at:
        await at.carry_through(scenario, {"material/wood-thickness": "one and one quarter inches"})
        assert session.state.ended == "finished"
        assert at.by_keys == 0
        events = session.journal.events()
    by_keys = rehearse(scenario, session.state.graph, session.state.sheet)
    assert by_keys.session is not None
    assert session.state.env.asked == by_keys.session.state.env.asked
    unheard = [event for event in events if event.kind in ("answered", "timed")]
    assert [event.body["value"] for event in unheard] == ["not given"]
    denied = [event for event in events if event.kind == "confirmed" and not event.body["yes"]]
    assert "material/wood-thickness" in [event.body["at"] for event in denied]
