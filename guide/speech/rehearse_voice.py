"""Rehearsal by voice: a scenario spoken to the real recognition chain, parsed by the grammar, read back, confirmed.

Words are made into WAV files by flite if it is installed, whose voices the acoustic model follows best; else by
eSpeak NG.
"""

import shutil
import subprocess
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from guide.procedure.facts import Fact, Value, WrongAnswer, writing
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import AnswerShape, ScenarioShape
from guide.run import replies
from guide.run.desk import Desk
from guide.run.listening import offered
from guide.run.outcomes import Refusal
from guide.run.rehearse import Player, Rehearsal, rehearse
from guide.run.session import Session
from guide.run.state import Occurrence, State, occurrence_of
from guide.run.step import Refused
from guide.run.talk import Talk
from guide.speech.audio import FRAME_SECONDS, QUIET, BadAudio, open_wav
from guide.speech.ear import NOT_CAUGHT, Ear, Heard, Missed, Speaking
from guide.speech.engine import Engine
from guide.speech.synthesis import NoVoice, synthesise
from guide.words import by_name
from guide.words.spoken import in_words, language, say, spelled

BEFORE_SECONDS, AFTER_SECONDS = 0.3, 2.4
"""Quiet before and after a saying: the longest that the rest of a measure is waited for, and a little more."""
MOST_TRIES = 3
"""How often a person repeats one word that is not understood, before the key is pressed."""
MOST_SAID = 14
"""Sayings that one value may take, its yes and no with it."""

STRETCHED = (1.0, 1.12, 1.25)
"""How much slower each further try is spoken, as a person does who was not understood."""


class Sayings:
    """What has been spoken, each saying in a file of its own."""

    def __init__(self, folder: Path, voice: str = "rms") -> None:
        """Keep the files in `folder`; `voice` is one of flite's."""
        self._folder = folder
        self._voice = voice
        self._flite = shutil.which("flite")
        self._kept: dict[tuple[str, int], Path] = {}

    def wav(self, words: str, attempt: int = 0) -> Path:
        """The file of some words, spoken slower at a later attempt. Raises NoVoice."""
        attempt = min(attempt, len(STRETCHED) - 1)
        path = self._kept.get((words, attempt))
        if path is None:
            path = self._folder / f"{len(self._kept):04d}.wav"
            self._speak(words, STRETCHED[attempt], path)
            self._kept[words, attempt] = path
        return path

    def _speak(self, words: str, stretched: float, path: Path) -> None:
        if self._flite is None:
            path.write_bytes(synthesise(words, pace=1 / stretched))
            return
        stretch = f"duration_stretch={stretched}"
        call = [self._flite, "-voice", self._voice, "--setf", stretch, "-t", words, "-o", str(path)]
        made = subprocess.run(call, check=False, capture_output=True)
        if made.returncode != 0 or not path.is_file():
            raise NoVoice(f"flite cannot say “{words[:60]}”; look at its installation.")


def rehearse_aloud(
    scenario: ScenarioShape,
    graph: Graph,
    sheet: dict[str, Any] | None,
    engine: Engine,
    *,
    folder: Path,
    every: bool = False,
    sayings: Sayings | None = None,
) -> Rehearsal:
    """Carry a scenario through by voice; what is spoken in it, or with `every` all that can be spoken.

    Recordings lie in `folder`, that of the scenario. Raises NoVoice if words cannot be made into sound.
    """
    with tempfile.TemporaryDirectory(prefix="hingeside-said-") as made:
        spoken = sayings or Sayings(Path(made))

        def plays(session: Session, written: ScenarioShape, found: Rehearsal) -> Player:
            return _Speaker(session, written, found, Ear(engine), spoken, folder, every)

        return rehearse(scenario, graph, sheet, plays)


class _Speaker(Player):
    """Speaks a scenario's answers; a person who repeats what is not understood and says no to what is wrong."""

    def __init__(
        self,
        session: Session,
        scenario: ScenarioShape,
        found: Rehearsal,
        ear: Ear,
        sayings: Sayings,
        folder: Path,
        every: bool,
    ) -> None:
        super().__init__(session, scenario, found)
        self.talk = Talk(Desk(session))
        self.every = every
        self.counts: Counter[str] = Counter(
            dict.fromkeys(("spoken", "heard", "missed", "wrong", "denied", "by_keys"), 0)
        )
        self._ear = ear
        self._sayings = sayings
        self._folder = folder
        self._turn: object = None
        self._language = language("english")
        self._shown: object = None

    def play(self) -> None:
        """As by keys; what was heard is counted."""
        super().play()
        self.found.heard = dict(self.counts)

    def look(self) -> None:
        """Note the edges; and have a step that is new read aloud, as it is on the screen."""
        super().look()
        state = self.session.state
        shown = (state.seq, state.at)
        if shown != self._shown:
            self._shown = shown
            self.talk.say_step()

    def automatic(self, state: State) -> bool:
        """As by keys; but a value heard waits for its own yes."""
        return state.pending is None and super().automatic(state)

    def by_itself(self, state: State) -> bool:
        """Say “next” at a step, and yes to what the door supplies."""
        if not self.every or not self.automatic(state):
            moved = super().by_itself(state)
            if moved:
                self.talk.keyed()
            return moved
        if state.node.kind not in ("ask", "check"):
            self._until_moved("yes" if state.node.kind == "end" else "done")
            return True
        fact = state.graph.facts[state.node.body["fact"]]
        if fact.name in state.supplied:
            self._say_value(fact, state.supplied[fact.name])
        else:
            self._until_moved("done")  # it may be left out
        return True

    def give(self, answer: AnswerShape) -> bool:
        """Speak one written answer, if it is spoken; else give it by keys."""
        try:
            if answer.utterances:
                self._speak_as_written(answer)
            elif not self.every or not self._speak(answer):
                given = super().give(answer)
                self.talk.keyed()
                return given
        except (BadAudio, Refused, WrongAnswer) as error:
            self.found.differences.append(f"At “{answer.at}”: {error}")
            return False
        return True

    def _speak_as_written(self, answer: AnswerShape) -> None:
        for one in answer.utterances:
            if answer.wav is not None:
                self._hear(self._folder / one)
            else:
                self._say(one)

    def _speak(self, answer: AnswerShape) -> bool:
        """Turn a keyed answer into words and speak them; False for what is given by keys alone."""
        state = self.session.state
        expected = self.scenario.must_show
        if expected is not None and answer.at in expected.refused:
            return False
        if answer.value is not None or answer.revise is not None:
            return self._speak_value(answer, state)
        if answer.done is not None:
            if state.node.body.get("cuts") and state.open_cut() is None:
                self._until_moved("cut")
            self._until_moved("done")
        elif answer.hold is not None:
            self.talk.say_step()
            self._until_moved("hold")
        elif answer.report is not None:
            self._say_report(answer.report)
        else:
            return False
        return True

    def _speak_value(self, answer: AnswerShape, state: State) -> bool:
        at = state.at
        if answer.revise is not None:
            place = occurrence_of(state.graph, answer.at)
            assert place is not None  # it fits
            at = place
            self.talk.desk.look(at)
            self._say(by_name("change").word)
        fact = state.graph.facts[state.graph.nodes[at[0]].body["fact"]]
        if fact.kind == "text":
            self.talk.desk.look(None)
            return False
        value = fact.read(answer.value or answer.revise or "", state.units)
        self._say_value(fact, value, at if answer.revise is not None else None)
        return True

    # A person who repeats what is not understood, and says no to what is wrong

    def _say_value(self, fact: Fact, value: Value, at: Occurrence | None = None) -> None:
        """Speak a value until it counts; by keys if those take over."""
        place, begun = at or self.session.state.at, self.session.state.seq
        said: Counter[str] = Counter()
        for _ in range(MOST_SAID):
            state = self.session.state
            if self.talk.by_keys:
                break
            if place in state.answers and state.answers[place].seq > begun:
                return
            waiting = state.pending.value if state.pending is not None else self.talk.offered
            if waiting is None:
                if at is not None:
                    self.talk.desk.look(at, changing=True)
                words = self._words(fact, value, said.total())
            else:
                words = _said_for("yes" if waiting == value else "no", said.total())
                self.counts["denied"] += waiting != value and state.pending is not None
            known = self.session.state.seq, self.talk.offered
            self._say(words, said[words])
            said[words] += 1
            if (self.session.state.seq, self.talk.offered) != known:
                said.clear()
        self._by_keys(value, at)

    def _say_report(self, how: str) -> None:
        """Speak what was drilled, and yes to it; press the key if it is not understood."""
        begun = self.session.state.seq
        for attempt in range(MOST_TRIES):
            self._say(how, attempt)
            self._say(_said_for("yes", attempt), attempt)
            if self.session.state.seq != begun:
                return
        self.counts["by_keys"] += 1
        self.send(replies.report(self.session.state, how))

    def _words(self, fact: Fact, value: Value, tries: int) -> str:
        """What to say for a value at each try: its words one after the other, a length in inches and in feet;
        digit by digit if that is asked for."""
        if not isinstance(value, str):
            if self.talk.wants_digits:
                return spelled(value, self._language)
            return say(value, self._language, feet=tries % 2 == 1)
        choices = offered(fact)
        number, choice = next((n, c) for n, c in enumerate(choices, 1) if c.value == value)
        if tries > 2:
            return f"number {say(number, self._language)}"
        said = dict.fromkeys(" ".join(in_words(text, self._language)) for text in choice.says)
        return list(said)[tries % len(said)]

    def _by_keys(self, value: Value, at: Occurrence | None) -> None:
        """Give an answer by keys, in the place of one that was heard wrong."""
        self.counts["by_keys"] += 1
        pending = self.session.state.pending
        if pending is not None and pending.value != value:
            self.send(replies.confirm(self.session.state, False))
        if self.session.state.pending is None:
            self.send(replies.answer(self.session.state, writing(value), at))
        if self.session.state.pending is not None:
            self.send(replies.confirm(self.session.state, True))
        self.talk.keyed()

    def _until_moved(self, command: str) -> None:
        """Say the word of a command until the run has accepted it; press its key if it is not understood."""
        begun = self.session.state.seq
        for attempt in range(MOST_TRIES):
            if self.talk.by_keys:
                break
            self._say(_said_for(command, attempt), attempt)
            if self.session.state.seq != begun:
                return
        self.counts["by_keys"] += 1
        outcome = self.talk.desk.command(command)
        if isinstance(outcome, Refusal):
            raise Refused(outcome.told)
        self.talk.keyed()

    # Sound

    def _say(self, words: str, attempt: int = 0) -> None:
        self._hear(self._sayings.wav(words, attempt), words)

    def _hear(self, path: Path, words: str = "") -> None:
        """Play one recording to recognition, and carry out what was heard."""
        asked = self.talk.asked()
        if asked.turn != self._turn:
            self._turn = asked.turn
            self._ear.listen_for(asked.grammar, asked.takes)
        meant = asked.grammar.parse(words).meaning if words else None
        self.counts["spoken"] += 1
        for report in self._reports(path):
            if isinstance(report, Heard):
                self.counts["heard"] += 1
                self.counts["wrong"] += bool(words) and report.meaning != meant
                self.talk.heard(report.meaning, report.words, report.confidence, asked.turn)
            else:
                self.counts["missed"] += 1
                self.talk.missed(report.why, report.told)
            self.note_stop()
            return

    def _reports(self, path: Path) -> Iterator[Heard | Missed]:
        for frame in (*_quiet(BEFORE_SECONDS), *open_wav(path).frames(), *_quiet(AFTER_SECONDS)):
            for report in self._ear.feed(frame):
                if not isinstance(report, Speaking):
                    yield report
        for report in self._ear.finish():
            if not isinstance(report, Speaking):
                yield report
        yield Missed("nothing", NOT_CAUGHT)


def _said_for(command: str, tries: int) -> str:
    """The words of a command at each try: its first, then its others."""
    found = by_name(command)
    return (found.word, *found.also)[tries % (1 + len(found.also))]


def _quiet(seconds: float) -> tuple[bytes, ...]:
    """Frames of a quiet room."""
    return (QUIET,) * round(seconds / FRAME_SECONDS)
