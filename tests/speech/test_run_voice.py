"""Ear and mouth of a run together: the ear is shut while the mouth speaks, save for the word for silence."""

from collections.abc import Iterator
from contextlib import nullcontext

import pytest

from guide.run.listening import Takes
from guide.speech.ear import Heard, Missed, Report
from guide.speech.run_voice import RunVoice
from guide.words import by_name
from guide.words.spoken import Grammar, Meaning, grammar_for

FRAME = bytes(960)
STEP = grammar_for("nothing", commands=["done", "hush"])


class Mouth:
    """Speaks for as long as it is told to."""

    def __init__(self) -> None:
        self.speaking = False
        self.trouble = ""

    def say(self, text: str) -> None:
        self.speaking = True

    def hush(self) -> None:
        self.speaking = False

    def close(self) -> None:
        self.speaking = False


class Script:
    """An ear and a microphone of one: each frame carries the words that are said in it."""

    def __init__(self, mouth: Mouth, *lines: tuple[bool, str]) -> None:
        """Whether the mouth speaks, and what is said meanwhile."""
        self._mouth, self._lines = mouth, lines
        self._saying = ""
        self._grammar: Grammar | None = None

    def frames(self) -> Iterator[bytes]:
        for speaking, words in self._lines:
            self._mouth.speaking, self._saying = speaking, words
            yield b"\1" * 960

    def listen_for(self, grammar: Grammar, takes: Takes = lambda _: "") -> None:
        self._grammar = grammar

    def feed(self, frame: bytes) -> Iterator[Report]:
        if frame == FRAME or not self._saying or self._grammar is None:
            return
        meaning = self._grammar.parse(self._saying).meaning
        if meaning is None:
            yield Missed("nothing", "That was not caught.")
        else:
            yield Heard(self._saying, meaning, 0.9, 1.0)

    def finish(self) -> Iterator[Report]:
        return iter(())

    def close(self) -> None:
        """Nothing is held."""


class Told:
    """What the run was told."""

    def __init__(self) -> None:
        self.heards: list[tuple[str, object]] = []
        self.misses = 0
        self.troubles: list[str] = []
        self.readies = 0

    def ready(self) -> None:
        self.readies += 1

    def begins(self) -> None:
        """Somebody speaks."""

    def heard(self, meaning: Meaning, words: str, confidence: float, turn: object) -> None:
        self.heards.append((words, turn))

    def missed(self, why: str, told: str, confidence: float) -> None:
        self.misses += 1

    def trouble(self, sentence: str) -> None:
        self.troubles.append(sentence)


NEXT, STOP = by_name("done").word, by_name("hush").word


def told(*lines: tuple[bool, str], headset: bool = False, closed: bool = False) -> Told:
    """What comes of sayings, while the mouth speaks or not."""
    mouth, found = Mouth(), Told()
    script = Script(mouth, *lines)
    voice = RunVoice(lambda: script, lambda: nullcontext(script), mouth, headset=headset)
    voice.listen_for(STEP, lambda _: "", "turn 1")
    voice.shut(closed)
    voice.start(found)
    listener = voice._listener
    assert listener is not None
    assert listener.wait(30)
    voice.close()
    return found


def test_between_sayings_the_step_is_heard() -> None:
    found = told((False, NEXT))
    assert found.heards == [(NEXT, "turn 1")]
    assert (found.readies, found.troubles) == (1, [])


def test_while_the_mouth_speaks_nothing_is_heard() -> None:
    found = told((True, NEXT), (True, STOP), (False, NEXT))
    assert [words for words, _ in found.heards] == [NEXT]


def test_with_a_headset_the_word_for_silence_and_nothing_else_is_heard_while_it_speaks() -> None:
    found = told((True, NEXT), (True, STOP), (False, NEXT), headset=True)
    assert [words for words, _ in found.heards] == [STOP, NEXT]
    assert found.misses == 0


@pytest.mark.parametrize("headset", [False, True])
def test_a_shut_ear_hears_nothing(headset: bool) -> None:
    assert told((False, NEXT), closed=True, headset=headset).heards == []
