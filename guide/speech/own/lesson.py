"""The lesson for speaker adaptation: each command twice, each digit alone and within a measure.

Measured on a Scottish voice: with the digits alone said twice, 13 of 24 lengths were understood after the lesson, with
five measures 19, with nine 22: fractions, units, teens and tens are otherwise heard for the first time at a door.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from guide.speech.audio import BadAudio
from guide.words import ANSWERS, COMMANDS, VOICE
from guide.words.spoken import Grammar, Meaning, grammar_for

DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
MEASURES = (
    "one and three eighths inches",
    "two and five sixteenths",
    "four and seven eighths inches",
    "six hundred eight millimeters",
    "zero point nine",
    "fifty and fifteen sixteenths inches",
    "eighty and thirteen sixteenths inches",
    "seventeen and a quarter inches",
    "thirty six and a half inches",
    "forty and a quarter inches",
    "three foot eleven and a half inches",
)
_NAMES = [one.name for one in (*COMMANDS, *ANSWERS, *VOICE)]
_NUMBERED = re.compile(r"[ _-]+\d+$")
_BETWEEN = re.compile(r"[\s_-]+")


@dataclass(frozen=True, slots=True)
class LessonLine:
    """One thing to be said."""

    words: str
    """As the recogniser's dictionary writes them."""
    kind: str
    """`nothing` for a command, or `length`: the kind of step it is said at."""

    @property
    def grammar(self) -> Grammar:
        """What may be said there."""
        return _grammar(self.kind)

    @property
    def meaning(self) -> Meaning | None:
        """What it means there."""
        return self.grammar.parse(self.words).meaning


@lru_cache(maxsize=4)
def _grammar(kind: str) -> Grammar:
    return grammar_for(kind, commands=_NAMES)


def lesson() -> tuple[tuple[LessonLine, ...], tuple[LessonLine, ...]]:
    """The two rounds: what is learned from the first can be tried on the second."""
    commands = [LessonLine(one.word.casefold(), "nothing") for one in (*COMMANDS, *ANSWERS, *VOICE)]
    digits = [LessonLine(word, "length") for word in DIGITS]
    measures = [LessonLine(words, "length") for words in MEASURES]
    return (*commands, *digits), (*commands, *measures)


def recorded(folder: Path) -> list[tuple[LessonLine, Path]]:
    """The recordings of a folder, each a WAV file named by its words: `go-back.wav`, `go-back-2.wav`.

    Raises BadAudio for a folder that is not there or a name that is not a saying of the lesson.
    """
    if not folder.is_dir():
        raise BadAudio(f"{folder} is not a folder; name the one with the recordings.")
    known = {_plain(one.words): one for part in lesson() for one in part}
    found = []
    for path in sorted(folder.iterdir()):
        if path.suffix.casefold() != ".wav":
            continue
        asked = known.get(_plain(path.stem)) or known.get(_plain(_NUMBERED.sub("", path.stem)))
        if asked is None:
            raise BadAudio(
                f"{path} is not named after a saying of the lesson; name it by its words, such as go-back-2.wav."
            )
        found.append((asked, path))
    return found


def in_rounds(found: Sequence[tuple[LessonLine, Path]]) -> list[list[tuple[LessonLine, Path]]]:
    """Recordings as two rounds: each saying's first, and whatever comes after it."""
    rounds: list[list[tuple[LessonLine, Path]]] = [[], []]
    seen: set[LessonLine] = set()
    for asked, path in found:
        again = asked in seen or asked.words in MEASURES
        rounds[again].append((asked, path))
        seen.add(asked)
    return rounds


def _plain(name: str) -> str:
    return _BETWEEN.sub(" ", name.casefold().replace("'", "").replace("’", "")).strip()
