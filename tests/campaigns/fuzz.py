"""Spoilt files given to the checker: no exception, no file that takes long, no memory without end.

Run by hand: python -m tests.campaigns.fuzz [TEXTS]; it writes fuzz.txt beside itself. Half the spoiling is
blind (bytes, lines, indents); the other half works on the parsed file and writes it out again, so
that many texts get past the reading, to the shape, and to the proof. 1 where a target is missed.
"""

import hashlib
import random
import resource
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from guide.checker.check import check
from guide.files.findings import ERROR
from guide.procedure.compiler import compile_procedure
from guide.procedure.load import load
from guide.run.replay import replay
from tests.campaigns.slips import SHIPPED, Plain
from tests.checker.small_files import ROOT, written

HERE = Path(__file__).parent
SEED = 11
TEXTS = 100_000
LOT = 250
"""Texts that one process takes at a time."""
TIMES_SOUND = 2.0
"""How many times as long a spoilt file may take as the largest shipped one, unspoilt, in the same process."""
MOST_MEMORY = 1_500
"""Megabytes that a process may come to; its address space is bounded too."""
SMALL = 300
"""Small procedures that are spoilt beside the shipped files."""

HOSTILE = (
    "",
    " ",
    "~",
    "null",
    "yes",
    "-1",
    "0",
    "9" * 40,
    "1e400",
    "1/0 in",
    "1/3 in",
    "36",
    "36 in",
    "36 in to",
    "> ",
    "> > 3 in",
    ">= {width}",
    "{",
    "{{",
    "{nobody}",
    "{width}",
    "unsure",
    "none",
    "known",
    "all",
    "a" * 5000,
    "\u202e\u2066",
    "\x1b[2J",
    "½ in",
    "３６ in",
    "../part.yaml",
    "root.yaml",
    "/etc/hosts",
    "part.yaml",
    "*a",
    "&a b",
    "!!python/object:os.system x",
    "<<",
    "= ",
    "= 12 deg",
    "end-of-part",
    "counts_on",
    "5 s to 1 s",
    "0 in to 0 in",
)
HOSTILE_KEYS = (
    "id",
    "when",
    "steps",
    "go",
    "fact",
    "otherwise",
    "any",
    "not",
    "known",
    "<<",
    "=",
    "",
)


@cache
def seeds() -> list[str]:
    """Texts to spoil: the shipped files, and small procedures at random."""
    found = [path.read_text() for path in sorted(SHIPPED.glob("*.yaml"))]
    return found + [written(seed)[ROOT] for seed in range(SMALL)]


def digest() -> str:
    """What the seeds stand for: the same seed spoils another text once the shipped files change."""
    return hashlib.sha256("".join(seeds()).encode()).hexdigest()[:12]


# --- blind spoiling ---


def _bytes(rng: random.Random, text: str) -> str:
    data = list(text)
    for _ in range(rng.randint(1, 6)):
        place = rng.randrange(len(data))
        turn = rng.randrange(3)
        if turn == 0:
            data[place] = rng.choice("{}[]:,-#&*!|>'\"%@`\t\n\x00\u2028\ufeff 0azé")
        elif turn == 1:
            del data[place]
        else:
            data.insert(place, rng.choice("{}[]:,- \n'\"#|>&*\u00a0"))
        if not data:
            break
    return "".join(data)


def _lines(rng: random.Random, text: str) -> str:
    lines = text.split("\n")
    for _ in range(rng.randint(1, 3)):
        first, second = rng.randrange(len(lines)), rng.randrange(len(lines))
        turn = rng.randrange(3)
        if turn == 0:
            lines[first], lines[second] = lines[second], lines[first]
        elif turn == 1:
            lines.insert(first, lines[second])
        else:
            del lines[first]
        if not lines:
            lines = [""]
    return "\n".join(lines)


def _indents(rng: random.Random, text: str) -> str:
    lines = text.split("\n")
    for _ in range(rng.randint(1, 3)):
        place = rng.randrange(len(lines))
        if rng.random() < 0.5:
            lines[place] = " " * rng.randint(1, 4) + lines[place]
        else:
            lines[place] = lines[place].removeprefix(" " * rng.randint(1, 4))
    return "\n".join(lines)


def _splice(rng: random.Random, text: str) -> str:
    lines, others = text.split("\n"), rng.choice(seeds()).split("\n")
    place, low = rng.randrange(len(lines)), rng.randrange(len(others))
    return "\n".join([*lines[:place], *others[low : low + rng.randint(1, 30)], *lines[place:]])


# --- spoiling with an eye to the shape ---


def _places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [path] if path else []
    if isinstance(value, dict):
        for key, inner in value.items():
            found += _places(inner, (*path, key))
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            found += _places(inner, (*path, number))
    return found


def _at(value: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        value = value[key]
    return value


def _value(rng: random.Random, data: Any, path: tuple[Any, ...]) -> None:
    _at(data, path[:-1])[path[-1]] = rng.choice(HOSTILE)


def _drop(rng: random.Random, data: Any, path: tuple[Any, ...]) -> None:
    del _at(data, path[:-1])[path[-1]]


def _key(rng: random.Random, data: Any, path: tuple[Any, ...]) -> None:
    holder = _at(data, path[:-1])
    if isinstance(holder, dict):
        holder[rng.choice([*HOSTILE_KEYS, *holder])] = holder.pop(path[-1])
    else:
        holder.insert(rng.randrange(len(holder) + 1), holder.pop(path[-1]))


def _swap(rng: random.Random, data: Any, path: tuple[Any, ...]) -> None:
    """Two values of one kind change places: texts with texts, blocks with blocks."""
    here = _at(data, path)
    alike = [p for p in _places(data) if type(_at(data, p)) is type(here) and len(p) == len(path)]
    other = rng.choice(alike)
    if other[: len(path)] != path and path[: len(other)] != other:
        there = _at(data, other)
        _at(data, path[:-1])[path[-1]], _at(data, other[:-1])[other[-1]] = there, here


def _copy(rng: random.Random, data: Any, path: tuple[Any, ...]) -> None:
    """A list's item stands twice, or a text takes the place of another."""
    holder = _at(data, path[:-1])
    if isinstance(holder, list) and len(holder) < 200:
        holder.insert(rng.randrange(len(holder) + 1), holder[path[-1]])
        return
    texts = [p for p in _places(data) if isinstance(_at(data, p), str)]
    if isinstance(holder.get(path[-1]), str):
        holder[path[-1]] = _at(data, rng.choice(texts))


BLIND: tuple[Callable[[random.Random, str], str], ...] = (_bytes, _lines, _indents, _splice)
SHAPED: tuple[Callable[[random.Random, Any, tuple[Any, ...]], None], ...] = (
    _value,
    _drop,
    _key,
    _swap,
    _swap,
    _copy,
)


def spoilt(seed: int) -> bytes:
    """One spoilt text; the same seed gives the same text."""
    rng = random.Random(seed)
    text = rng.choice(seeds())
    if rng.random() < 0.4:
        data = bytearray(rng.choice(BLIND)(rng, text).encode())
        if data and rng.random() < 0.1:
            data[rng.randrange(len(data))] = rng.randrange(256)
        return bytes(data)
    return shaped(rng, text).encode()


def shaped(rng: random.Random, text: str) -> str:
    """Spoilt in its parts, and written out again as good YAML."""
    data = yaml.load(text, yaml.CBaseLoader)
    for _ in range(rng.choice((1, 1, 1, 2, 4))):
        places = _places(data)
        if places:
            rng.choice(SHAPED)(rng, data, rng.choice(places))
    return str(yaml.dump(data, Dumper=Plain, sort_keys=False, allow_unicode=True, width=200))


# --- giving it to the checker ---


@dataclass
class Lot:
    """What came of some texts."""

    reached: Counter[str] = field(default_factory=Counter)
    """How far texts came: `read`, `shape`, `graph`, `proof`."""
    seconds: dict[int, float] = field(default_factory=dict)
    """What each text took, by its seed."""
    slowest: float = 0.0
    """In times of the sound file's."""
    memory: int = 0
    wrong: list[str] = field(default_factory=list)
    """Exceptions."""
    past: list[str] = field(default_factory=list)
    """Texts that took too long, and lots that took too much memory."""


def given(folder: Path, seed: int, lot: Lot) -> None:
    """Give one text to the checker, once with the engine at hand."""
    path = folder / ROOT
    path.write_bytes(spoilt(seed))
    start = time.process_time()
    try:
        loaded = load(path)
        report = check(path, replay=replay)
    except Exception:  # noqa: BLE001 (whatever it is, it is what is looked for)
        lot.wrong.append(f"seed {seed}: {traceback.format_exc(limit=-3)}")
        return
    lot.seconds[seed] = time.process_time() - start
    lot.reached["texts"] += 1
    lot.reached["read"] += bool(getattr(loaded.root.tree, "entries", ()))
    if loaded.root.shape is not None or loaded.facts_only:
        lot.reached["shape"] += 1
    if report.graph is not None:
        lot.reached["graph"] += 1
        compiled = compile_procedure(loaded)[1]
        lot.reached["proof"] += not any(f.level == ERROR for f in compiled)


@cache
def sound_takes() -> float:
    """Seconds of processor time for the largest shipped procedure, as it is."""
    sound = SHIPPED / "fit-surface-closer.yaml"
    check(sound, replay=replay)  # what is imported and kept at a first check is no part of it
    start = time.process_time()
    check(sound, replay=replay)
    return time.process_time() - start


def lot_of(first: int) -> Lot:
    """Give a lot of texts to the checker, within a bounded address space."""
    lot = Lot()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path in SHIPPED.glob("*.yaml"):
            (folder / path.name).write_text(path.read_text())
        for seed in range(first, first + LOT):
            given(folder, seed, lot)
    lot.slowest = max(lot.seconds.values(), default=0.0) / sound_takes()
    for seed, seconds in lot.seconds.items():
        if seconds > TIMES_SOUND * sound_takes():
            lot.past.append(f"seed {seed}: took {seconds:.1f} s")
    lot.memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    if lot.memory > MOST_MEMORY:
        lot.past.append(f"seeds {first} to {first + LOT - 1}: {lot.memory} MB")
    return lot


def bounded() -> None:
    """Bound the address space of a worker: past it an allocation fails, which is told of."""
    most = 2 * MOST_MEMORY * 1024 * 1024
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def main() -> int:
    """Print and keep the figures."""
    texts = int(sys.argv[1]) if len(sys.argv) > 1 else TEXTS
    first = SEED * 1_000_000
    with ProcessPoolExecutor(2, initializer=bounded) as pool:
        lots = list(pool.map(lot_of, range(first, first + texts, LOT)))
    lines, good = report_of(lots, first)
    text = "\n".join(lines) + "\n"
    print(text, end="")
    (HERE / "fuzz.txt").write_text(text)
    return int(not good)


def report_of(lots: list[Lot], first: int) -> tuple[list[str], bool]:
    """The figures in lines, and whether the targets are met."""
    reached: Counter[str] = sum((lot.reached for lot in lots), Counter())
    wrong = [line for lot in lots for line in (*lot.wrong, *lot.past)]
    texts = reached["texts"]
    share = {key: 100 * reached[key] / max(texts, 1) for key in ("read", "shape", "graph", "proof")}
    slowest = max((lot.slowest for lot in lots), default=0)
    lines = [
        f"{texts} spoilt texts, seeds from {first}, made from {len(seeds())} texts of digest {digest()}",
        f"composed as YAML: {reached['read']} ({share['read']:.1f} %), target 30 %",
        f"of the right shape: {reached['shape']} ({share['shape']:.1f} %)",
        f"came to the proof: {reached['proof']} ({share['proof']:.1f} %), target 10 %",
        f"slowest file: {slowest:.2f} of what the largest sound one takes (target {TIMES_SOUND:.0f})",
        f"most memory of a process: {max((lot.memory for lot in lots), default=0)} MB",
        f"exceptions and files past a bound: {len(wrong)}",
        *(f"  {line}" for line in wrong[:20]),
    ]
    return lines, not wrong and share["read"] >= 30 and share["proof"] >= 10


if __name__ == "__main__":
    sys.exit(main())
