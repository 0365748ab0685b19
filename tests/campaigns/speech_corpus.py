"""What is said to the ear in the campaign, by whom, and in what noise. Everything from one seed."""

import os
import random
import subprocess
import wave
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import numpy as np
import numpy.typing as npt

from guide.measures import Quantity
from guide.speech.audio import FRAME_BYTES, in_a_room
from guide.words import ANSWERS, COMMANDS, DECLINED, VOICE
from guide.words.spoken import Grammar, Meaning, grammar_for, language, say

Sound = npt.NDArray[np.float64]
RATE = 16000
STATES = ("command", "number", "length")
SAID = {one.name: (one.word, *one.also) for one in (*COMMANDS, *VOICE, *ANSWERS)} | {
    one.name: (one.word, *one.also) for one in DECLINED
}
"""What may be said for each command, and for what is understood only to be answered."""
STEP_COMMANDS = [
    one.name for one in (*COMMANDS, *VOICE) if one.name not in ("cut", "hold", "resume")
]
STRETCHES = (0.9, 1.0, 1.12)
DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")

OUTSIDE = """have you seen my coffee cup
the truck is parked round the back
somebody call the office before lunch
who left the radio on
it is raining again outside
hand me the other ladder please
the painter wants to get through here
this frame was never square
my brother in law bought a boat
turn the music down a little
there is a fly on the ceiling
did they deliver the wrong doors
mind your fingers over there
i think it is time for a break
we should order some sandwiches
the caretaker has the keys
put the screws in my pocket
nobody told me about the meeting
what a beautiful morning
that cable goes to the alarm
look at the size of this window
she works on the second floor
the elevator is out of order
bring a bigger hammer tomorrow
hello everybody
are you coming or not
the carpet needs a clean
leave it by the wall""".splitlines()


@dataclass(frozen=True)
class Saying:
    """Words, the step they are said at, and what they mean there (None: nothing that is asked)."""

    text: str
    state: str
    meaning: Meaning | None
    spelled: bool = False
    """A number said digit by digit."""

    @property
    def row(self) -> str:
        """The row of the result that it counts in."""
        if self.meaning is None:
            return "outside"
        return "digits" if self.spelled else self.state


def grammar_of(state: str) -> Grammar:
    """The grammar of a step: what it asks, and the commands."""
    kind = "nothing" if state == "command" else state
    return grammar_for(kind, commands=STEP_COMMANDS)


def sayings(seed: int, each: int) -> list[Saying]:
    """`each` sayings of every state, as many from outside, spread over the states, and half as many numbers said digit
    by digit."""
    rng = random.Random(seed)
    words = [(text, name) for name in STEP_COMMANDS for text in SAID[name]]
    found = [
        Saying(text, "command", Meaning("command", name))
        for text, name in rng.sample(words, min(each, len(words)))
    ]
    while len(found) < 2 * each:
        found.append(_number(rng))
    while len(found) < 3 * each:
        found.append(_length(rng))
    outside = rng.sample(OUTSIDE, min(each, len(OUTSIDE)))
    found += [Saying(text, STATES[n % 3], None) for n, text in enumerate(outside)]
    found += [_spelled(rng) for _ in range(each // 2)]
    return found


def _number(rng: random.Random) -> Saying:
    value = rng.choice(
        [
            Fraction(rng.randrange(1, 100)),
            Fraction(rng.randrange(100, 1000)),
            Fraction(rng.randrange(1, 400), 10),
            rng.randrange(1, 40) + Fraction(1, 2),
        ]
    )
    return Saying(say(value, language()), "number", Meaning("number", value))


def _length(rng: random.Random) -> Saying:
    value = rng.choice(
        [
            Quantity(rng.randrange(2, 48) + Fraction(rng.randrange(1, 16), 16), "in"),
            Quantity(rng.randrange(1, 60) + Fraction(rng.randrange(1, 8), 8), "in"),
            Quantity(Fraction(rng.randrange(1, 97)), "in"),
            Quantity(Fraction(rng.randrange(20, 1200)), "mm"),
        ]
    )
    feet = value.unit == "in" and value.magnitude >= 12 and rng.random() < 0.3
    return Saying(say(value, language(), feet=feet), "length", Meaning("measure", value))


def _spelled(rng: random.Random) -> Saying:
    value = rng.choice([Fraction(rng.randrange(20, 1300)), Fraction(rng.randrange(101, 400), 10)])
    figures = str(value) if value.denominator == 1 else f"{float(value):.1f}"
    words = ("point" if one == "." else DIGITS[int(one)] for one in figures)
    return Saying(" ".join(words), "number", Meaning("number", Fraction(figures)), spelled=True)


def spoken(
    texts: Sequence[str], voice: str, folder: Path, stretches: Sequence[float] = STRETCHES
) -> list[Sound]:
    """Each text as `voice` says it, in turn a little faster and slower; kept in `folder`.

    A voice is one of flite's, `ked` of festival, `espeak`, or `espeak:NAME` for another voice of eSpeak NG.
    """
    folder = folder / voice
    folder.mkdir(parents=True, exist_ok=True)
    found = []
    for number, text in enumerate(texts):
        stretch = stretches[number % len(stretches)]
        path = folder / f"{text.replace(' ', '-').replace(chr(39), '')[:80]}-{stretch}.wav"
        if not path.exists():
            # Another process may be at the same saying: nobody reads half a file.
            unfinished = path.with_suffix(f".{os.getpid()}")
            _synthesise(text, voice, stretch, unfinished)
            unfinished.rename(path)
        found.append(read(path))
    return found


def _synthesise(text: str, voice: str, stretch: float, path: Path) -> None:
    if voice == "ked":
        script = f"(voice_ked_diphone)(Parameter.set 'Duration_Stretch {stretch})"
        subprocess.run(
            ["text2wave", "-F", "16000", "-eval", script, "-o", str(path)],
            input=text,
            text=True,
            check=True,
        )
    elif voice.startswith("espeak"):
        from guide.speech.synthesis import synthesise

        _, _, name = voice.partition(":")
        path.write_bytes(synthesise(text, voice=name or "en-us", pace=1 / stretch))
    else:
        stretched = ["--setf", f"duration_stretch={stretch}"]
        subprocess.run(
            ["flite", "-voice", voice, *stretched, "-t", text, "-o", str(path)], check=True
        )


def read(path: Path) -> Sound:
    """A WAV file of 16 bits as numbers from -1 to 1, at 16 kHz."""
    with wave.open(str(path)) as file:
        raw = np.frombuffer(file.readframes(file.getnframes()), dtype="<i2")
        sound = raw.astype(np.float64) / 32768
        rate = file.getframerate()
    if rate != RATE:
        places = np.arange(0, len(sound), rate / RATE)
        sound = np.interp(places, np.arange(len(sound)), sound)
    return sound


def noise(kind: str, seconds: float, rng: np.random.Generator) -> Sound:
    """`pink`, `drill`, `hammer` or `wind`, at a root mean square of 1 (hammer: of the whole)."""
    count = int(seconds * RATE)
    at = np.arange(count) / RATE
    if kind == "pink":
        made = _shaped(rng, count, 0.5)
    elif kind == "wind":
        gusts = 1 + 0.8 * np.sin(2 * np.pi * 0.4 * at + rng.uniform(0, 6))
        made = _shaped(rng, count, 1.0) * gusts
    elif kind == "drill":
        pitch = 300 + 100 * np.sin(2 * np.pi * 0.25 * at + rng.uniform(0, 6))
        turn = 2 * np.pi * np.cumsum(pitch) / RATE
        made = sum((np.sin(n * turn) / n for n in range(1, 13)), np.zeros(count))
        made = made + 0.5 * rng.standard_normal(count)
    else:
        made = 0.01 * rng.standard_normal(count)
        place = 0
        while (place := place + int(RATE * rng.uniform(0.25, 0.9))) < count:
            length = min(count - place, int(0.12 * RATE))
            fade = np.exp(-np.arange(length) / (0.02 * RATE))
            ring = np.sin(2 * np.pi * rng.uniform(700, 2500) * np.arange(length) / RATE)
            made[place : place + length] += fade * (ring + rng.standard_normal(length))
    return np.asarray(made / np.sqrt(np.mean(made**2)))


def burst(rng: np.random.Generator) -> Sound:
    """Air let off, a board dragged, a sander set down: noise of a quarter to one and a half seconds."""
    count = int(RATE * rng.uniform(0.25, 1.6))
    made = _shaped(rng, count, rng.uniform(0, 1.2))
    if rng.random() < 0.5:
        middle = rng.uniform(500, 5000)
        wide = middle * rng.uniform(0.2, 0.8)
        away = (np.fft.rfftfreq(count, 1 / RATE) - middle) / wide
        made = np.fft.irfft(np.fft.rfft(made) * np.exp(-(away**2)), count)
    rise, fall = int(RATE * rng.uniform(0.005, 0.12)), int(RATE * rng.uniform(0.01, 0.12))
    made[:rise] *= np.linspace(0, 1, rise)
    made[-fall:] *= np.linspace(1, 0, fall)
    if rng.random() < 0.3:
        made *= 1 + 0.7 * np.sin(2 * np.pi * rng.uniform(2, 9) * np.arange(count) / RATE)
    return made


def _shaped(rng: np.random.Generator, count: int, power: float) -> Sound:
    spectrum = np.fft.rfft(rng.standard_normal(count))
    places = np.maximum(np.arange(len(spectrum)), 1 + 30 * count // RATE)
    return np.fft.irfft(spectrum / places**power, count)


def heard_in(sound: Sound, kind: str, snr: float, rng: np.random.Generator) -> bytes:
    """A saying with half a second before and after it, in noise `snr` dB below its speech."""
    quiet = np.zeros(int(0.6 * RATE))
    whole = np.concatenate([quiet, sound * 0.3 / max(0.01, np.abs(sound).max()), quiet])
    blocks = whole[: len(whole) // 480 * 480].reshape(-1, 480)
    energy = np.mean(blocks**2, axis=1)
    active = np.sqrt(np.mean(energy[energy > 0.01 * energy.max()]))
    room = 10 ** (-50 / 20)  # a quiet room: clean speech, 50 dB above it
    gain = room if kind == "clean" else 10 ** (-snr / 20)
    made = noise("pink" if kind == "clean" else kind, len(whole) / RATE + 0.01, rng)
    return pcm(whole + active * gain * made[: len(whole)])


def bare(sound: Sound) -> bytes:
    """A saying as it was synthesised, with no room around it, as `hear` takes it from a file."""
    made = pcm(sound * 0.3 / max(0.01, np.abs(sound).max()))
    made += bytes(-len(made) % FRAME_BYTES)
    around = bytes(10 * FRAME_BYTES)
    return around + b"".join(map(in_a_room, frames(made))) + around


def pcm(sound: Sound) -> bytes:
    """Numbers from -1 to 1 as 16-bit samples."""
    return (np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes()


def frames(sound: bytes) -> Iterator[bytes]:
    """16-bit samples as frames of 30 ms."""
    for start in range(0, len(sound) - FRAME_BYTES + 1, FRAME_BYTES):
        yield sound[start : start + FRAME_BYTES]
