"""Measures what a voice of one's own gains: errors before and after the lesson, speaker by speaker.

    python -m tests.campaigns.own_voice           everything, into own_voice.txt
    python -m tests.campaigns.own_voice fresh     the same, measured again

What was measured of a speaker is kept in a folder of the system's temporary files, so that a campaign that was ended
goes on where it stood; begin afresh after a change of the ear or of what is learned.

Each speaker says the lesson, its first round a little faster and its second a little slower than usual, in a quiet
room. What is judged is said at three other paces: the sayings of the campaign of the ear, of which the numbers and
lengths were drawn by lot and stand in no lesson. Needs what that campaign needs. The voices of eSpeak NG, whose
sounds are computed and not cut from a person's, are those that the acoustic model follows worst. The measures of the
lesson were chosen while the voices of Scotland and of the Caribbean were looked at, and none of the others.
"""

import pickle
import shutil
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from guide.speech.ear import Ear, Heard, Report
from guide.speech.engine import Engine
from guide.speech.own.adapt import Said, learned
from guide.speech.own.lesson import lesson
from guide.speech.own.model import read_model
from guide.speech.own.teacher import said_in
from guide.speech.own.voice_file import model_folder
from guide.speech.pocketsphinx_engine import PocketSphinx
from tests.campaigns.speech_corpus import (
    STATES,
    frames,
    grammar_of,
    heard_in,
    noise,
    pcm,
    sayings,
    spoken,
)

SEED_TAUGHT, SEED_JUDGED = 5, 7
EACH = 24
PACES = (0.95, 1.05)
FOLLOWED = ("rms", "slt", "kal16", "ked")
STRANGE = (
    "espeak:en-us",
    "espeak:en-gb-scotland",
    "espeak:en-gb-x-gbclan",
    "espeak:en-us+f3",
    "espeak:en-029",
)
PLAN = [
    *((voice, "clean", 0) for voice in (*STRANGE, "awb", *FOLLOWED)),
    *((voice, "pink", 20) for voice in ("awb", "rms", "kal16")),
]
ANOTHER = "espeak:en-gb-scotland"
"""Whose voice the ear was taught where somebody else speaks."""
NOISE_FOR = (*STRANGE[:2], "awb")
"""Whose ears are tried on noise alone: those that were moved furthest."""
NOISES = ("drill", "hammer", "wind")
NOISE_SECONDS = 100.0
WORK = Path(tempfile.gettempdir()) / "hingeside-speech"
HERE = Path(__file__).resolve().parent


@dataclass
class Count:
    """What became of some sayings."""

    said: int = 0
    right: int = 0
    wrong: int = 0

    @property
    def errors(self) -> int:
        """Sayings that were not understood, or wrongly."""
        return self.said - self.right

    def plus(self, other: "Count") -> "Count":
        return Count(self.said + other.said, self.right + other.right, self.wrong + other.wrong)


@dataclass
class Judged:
    """One speaker in one condition, heard by one engine."""

    inside: dict[str, Count] = field(default_factory=lambda: {state: Count() for state in STATES})
    outside: Count = field(default_factory=Count)

    @property
    def all(self) -> Count:
        total = Count()
        for one in self.inside.values():
            total = total.plus(one)
        return total


@dataclass
class Speaker:
    """What was measured of one speaker."""

    judged: dict[tuple[str, int], tuple[Judged, Judged]]
    """By condition: before the lesson, and after."""
    false: int | None
    """What was taken for a command in noise alone, after; None where that was not tried."""


def said_lesson(voice: str) -> tuple[list[Said], ...]:
    """The rounds of the lesson as `voice` says them in a quiet room; what falls apart in two is left out."""
    rng = np.random.default_rng(SEED_TAUGHT)
    rounds = []
    for asked_now, pace in zip(lesson(), PACES, strict=True):
        sounds = spoken([one.words for one in asked_now], voice, WORK, (pace,))
        taken = []
        for asked, sound in zip(asked_now, sounds, strict=True):
            found = [one for one in said_in(frames(heard_in(sound, "clean", 0, rng))) if one]
            if len(found) == 1:
                taken.append(Said(asked, found[0]))
        rounds.append(taken)
    return tuple(rounds)


def judged(engine: Engine, voice: str, kind: str, snr: int, each: int = EACH) -> Judged:
    """The sayings of the campaign of the ear, in one condition."""
    found = Judged()
    told = sayings(SEED_JUDGED + sum(map(ord, voice)), each)
    sounds = spoken([one.text for one in told], voice, WORK)
    for number, (saying, sound) in enumerate(zip(told, sounds, strict=True)):
        ear = Ear(engine)
        ear.listen_for(grammar_of(saying.state))
        rng = np.random.default_rng(SEED_JUDGED * 1000 + number)
        heard = [r for r in _reports(ear, heard_in(sound, kind, snr, rng)) if isinstance(r, Heard)]
        right = len(heard) == 1 and heard[0].meaning == saying.meaning
        count = found.inside[saying.state] if saying.meaning else found.outside
        count.said += 1
        count.right += right
        count.wrong += bool(heard) and not right
    return found


def _reports(ear: Ear, sound: bytes) -> list[Report]:
    return [*(report for frame in frames(sound) for report in ear.feed(frame)), *ear.finish()]


def taught(voice: str) -> Path:
    """The file of means of a speaker."""
    model = read_model(model_folder())
    path = WORK / f"means-{voice}"
    first, second = said_lesson(voice)
    learned(model, [*first, *second], path)
    return path


def speaker(voice: str) -> Speaker:
    """Every condition of one speaker before and after the lesson; and noise alone after."""
    kept = WORK / "own-voice" / voice
    if not kept.exists():
        path = taught(voice)
        found = {}
        for who, kind, snr in PLAN:
            if who == voice:
                before = judged(PocketSphinx(), voice, kind, snr)
                found[kind, snr] = before, judged(PocketSphinx(str(path)), voice, kind, snr)
        false = _false_in_noise(PocketSphinx(str(path))) if voice in NOISE_FOR else None
        kept.parent.mkdir(parents=True, exist_ok=True)
        kept.write_bytes(pickle.dumps(Speaker(found, false)))
    done: Speaker = pickle.loads(kept.read_bytes())
    return done


def by_anothers_voice(voice: str) -> str:
    """What becomes of a speaker where the ear was taught the voice of another."""
    path = taught(ANOTHER)
    before = judged(PocketSphinx(), voice, "clean", 0)
    return f"{voice} by {ANOTHER}: {_row(before.all, judged(PocketSphinx(str(path)), voice, 'clean', 0).all)}"


def _false_in_noise(engine: Engine) -> int:
    """What is taken for a command in drill, hammer and wind."""
    false = 0
    for number, kind in enumerate(NOISES):
        made = noise(kind, NOISE_SECONDS, np.random.default_rng(SEED_JUDGED + number))
        ear = Ear(engine)
        ear.listen_for(grammar_of("command"))
        false += sum(isinstance(one, Heard) for one in _reports(ear, pcm(0.1 * made)))
    return false


def main(*, fresh: bool) -> None:
    if fresh:
        shutil.rmtree(WORK / "own-voice", ignore_errors=True)
    voices = list(dict.fromkeys(voice for voice, _, _ in PLAN))
    with ProcessPoolExecutor(2) as pool:
        done = dict(zip(voices, pool.map(speaker, voices), strict=True))
    lines = [f"seeds {SEED_TAUGHT} (lesson) and {SEED_JUDGED} (judged); n sayings before and after"]
    groups: dict[str, tuple[Judged, Judged]] = {}
    for voice, kind, snr in PLAN:
        before, after = done[voice].judged[kind, snr]
        name = f"{voice} {kind}{f' {snr} dB' if snr else ''}"
        strange = voice in STRANGE or (voice == "awb" and kind == "pink")
        group = "followed badly" if strange else "others"
        total = groups.setdefault(group, (Judged(), Judged()))
        for sums, one in zip(total, (before, after), strict=True):
            for state in STATES:
                sums.inside[state] = sums.inside[state].plus(one.inside[state])
            sums.outside = sums.outside.plus(one.outside)
        lines += _rows(name, before, after)
    for group, (before, after) in groups.items():
        lines += _rows(group, before, after)
    lines += [by_anothers_voice(voice) for voice in FOLLOWED[1:]]
    minutes = NOISE_SECONDS * len(NOISES) / 60
    lines += [
        f"noise alone ({', '.join(NOISES)}), {minutes:.0f} min, {voice}, after: {one.false} false"
        for voice, one in done.items()
        if one.false is not None
    ]
    text = "\n".join(lines)
    (HERE / "own_voice.txt").write_text(text + "\n", "utf-8")
    print(text)


def _rows(name: str, before: Judged, after: Judged) -> list[str]:
    rows = [
        f"{name}, {state:<8} {_row(before.inside[state], after.inside[state])}" for state in STATES
    ]
    rows.append(f"{name}, all      {_row(before.all, after.all)}")
    taken = f"{before.outside.wrong} taken before, {after.outside.wrong} after"
    return [*rows, f"{name}, outside  n={before.outside.said:<4} {taken}"]


def _row(before: Count, after: Count) -> str:
    return (
        f"n={before.said:<4} right {before.right / before.said:6.1%} -> {after.right / after.said:6.1%}"
        f"   errors {before.errors} -> {after.errors}, of them wrong {before.wrong} -> {after.wrong}"
    )


if __name__ == "__main__":
    main(fresh="fresh" in sys.argv[1:])
