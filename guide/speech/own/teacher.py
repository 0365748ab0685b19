"""The lesson recorded: a segment of sound for each saying, from a microphone or from files."""

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from guide.speech.audio import in_a_room, open_wav
from guide.speech.confidence import scores, shipped_weights
from guide.speech.endpoint import Segment, Segmenter
from guide.speech.engine import Engine
from guide.speech.frontend import FrontEnd
from guide.speech.own.adapt import Said
from guide.speech.own.lesson import LessonLine, in_rounds, lesson, recorded

PATIENCE_SECONDS = 10.0
"""Silence after which the saying is shown again."""
_SHORTEST_A_LETTER = 0.04
"""Seconds; nobody says a word faster, so that what is shorter is a part of it."""
_SURELY = 0.95
_TRIES = 3

Rounds = tuple[list[Said], list[Said]]
Tell = Callable[[str], None]
"""Shows the person a line."""


def said_in(frames: Iterable[bytes]) -> Iterator[Segment | None]:
    """Each segment of a stream; None whenever nothing was said for a while."""
    front, segmenter = FrontEnd(), Segmenter()
    since = 0.0
    for frame in map(in_a_room, frames):
        segment = segmenter.push(*front.push(frame))
        if segment is not None:
            since = segmenter.now
            yield segment
        elif not segmenter.speaking and segmenter.now - since > PATIENCE_SECONDS:
            since = segmenter.now
            yield None
    last = segmenter.finish()
    if last is not None:
        yield last


def in_file(path: Path) -> Segment | None:
    """What is said in a recording, from its first segment to its last. Raises BadAudio."""
    front, segmenter = FrontEnd(), Segmenter()
    whole: Segment | None = None
    for frame in open_wav(path).frames():
        segment = segmenter.push(*front.push(frame))
        if segment is not None:
            whole = segment if whole is None else segmenter.joined(whole, segment)
    last = segmenter.finish()
    if last is None or whole is None:
        return whole or last
    return segmenter.joined(whole, last)


class Teacher:
    """Judges whether a saying can be learned from."""

    def __init__(self, engine: Engine) -> None:
        """`engine` is the one that hears without a voice of one's own."""
        self._engine = engine
        self.heard = ""
        """What was recognised in the last saying; empty if nothing was."""

    def fault(self, asked: LessonLine, segment: Segment) -> str:
        """One sentence if the saying cannot be learned from; empty if it can."""
        self.heard = ""
        weights = shipped_weights()
        if segment.endless or segment.snr < weights.quietest:
            return "It is too loud around you to learn from."
        if segment.spoken < _SHORTEST_A_LETTER * len(asked.words):
            return "That was too short to be all of it."
        self._engine.set_grammar(asked.grammar)
        found = self._engine.decode(segment.pcm, segment.plain)
        if found is None:
            return ""
        self.heard = found.text
        meaning = asked.grammar.parse(found.text).meaning
        if meaning is None or meaning == asked.meaning:
            return ""
        sure = weights.belief(scores(found, segment, asked.grammar), meaning.kind) >= _SURELY
        return f"That sounded like “{found.text}”." if sure else ""


def hear_lesson(frames: Iterable[bytes], teacher: Teacher, tell: Tell) -> Rounds:
    """The lesson, shown saying by saying and heard from a stream; a saying that stays unclear is left out."""
    asked_for = lesson()
    total = sum(map(len, asked_for))
    segments = said_in(frames)
    rounds: Rounds = ([], [])
    number = 0
    for asked_now, taken in zip(asked_for, rounds, strict=True):
        for asked in asked_now:
            number += 1
            tell(f"{number:>3} of {total}   {asked.words}")
            segment = _heard(asked, segments, teacher, tell)
            if segment is not None:
                taken.append(Said(asked, segment))
    return rounds


def _heard(
    asked: LessonLine, segments: Iterator[Segment | None], teacher: Teacher, tell: Tell
) -> Segment | None:
    tries = 0
    for segment in segments:
        if segment is None:
            tell(f"             say “{asked.words}”; Ctrl-C ends the lesson, and nothing is kept")
            continue
        fault = teacher.fault(asked, segment)
        if not fault:
            tell(
                f"             heard “{teacher.heard}”"
                if teacher.heard
                else "             accepted"
            )
            return segment
        tries += 1
        if tries == _TRIES:
            tell(f"             {fault} It is left out.")
            return None
        tell(f"             {fault} Say “{asked.words}” again.")
    return None


def read_lesson(folder: Path, teacher: Teacher, tell: Tell) -> Rounds:
    """The lesson from the recordings of a folder. Raises BadAudio."""
    rounds: Rounds = ([], [])
    for found, taken in zip(in_rounds(recorded(folder)), rounds, strict=True):
        for asked, path in found:
            segment = in_file(path)
            fault = (
                teacher.fault(asked, segment) if segment is not None else "Nothing is said in it."
            )
            if segment is None or fault:
                tell(f"{path.name}: {fault} It is left out.")
            else:
                taken.append(Said(asked, segment))
    return rounds
