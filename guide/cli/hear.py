"""`hingeside hear FILE.wav... --for KIND`: what speech recognition understands in sound files."""

import argparse
import json
import time
from collections.abc import Callable
from fractions import Fraction
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guide.cli.messages import Usage, say
from guide.errors import DONE
from guide.measures import Quantity
from guide.run.settings import ENGINES, load_settings
from guide.words.language_file import LANGUAGES

if TYPE_CHECKING:
    from guide.procedure.facts import Fact
    from guide.speech.ear import Heard
    from guide.words.spoken import Grammar, Meaning

_AROUND = 10
"""Frames of no sound before and after a recording, which may begin and end with speech: the ear needs a while to know
it for that, and takes no noise from them."""
ASKED = ("command", "number", "length", "angle", "time", "force", "any")

EXAMPLES = """\
  hingeside hear width.wav --for length                 a measure
  hingeside hear width.wav --for any --json             anything, for a program
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument("files", nargs="+", metavar="FILE", help="sound files (WAV)")
    parser.add_argument(
        "--for",
        dest="asked",
        default="any",
        metavar="KIND",
        help=f"what is expected: {', '.join(ASKED)} or choice:FACT",
    )
    parser.add_argument(
        "--units",
        choices=("inch", "metric"),
        default="inch",
        help="the system of a number without a unit",
    )
    parser.add_argument(
        "--procedure", metavar="FILE", help="the procedure that has the FACT of a choice"
    )
    parser.add_argument(
        "--language",
        choices=tuple(LANGUAGES),
        help="the language spoken, if not that of the settings; others than English need an added model",
    )
    parser.add_argument(
        "--engine",
        metavar="WHICH",
        help=f"{', '.join(ENGINES)}; if left out, the engine of the settings",
    )
    parser.add_argument("--json", action="store_true", help="one JSON object a file")


def run(options: argparse.Namespace) -> int:
    """Hear every file, in turn. What is not caught is of the kind “none”, and no error."""
    from guide.speech.audio import FRAME_BYTES, open_wav
    from guide.speech.ear import Ear
    from guide.speech.engines import load_engine
    from guide.speech.own.voice_file import own_means

    settings = load_settings()
    chosen = options.engine or settings.engine
    if chosen not in ENGINES:
        raise Usage(f"“{chosen[:40]}” is not an engine; choose {', '.join(ENGINES)}.")
    grammar, takes = _asked(options)
    recordings = [(name, open_wav(Path(name))) for name in options.files]
    own, fault = own_means(settings.own_voice)
    if fault:
        say(f"hingeside: {fault}")
    engine = load_engine(chosen, settings.model, own)
    try:
        for name, recording in recordings:
            if recording.cut_off:
                say(f"hingeside: {name} is cut off; only what is there was listened to.")
            start = time.monotonic()
            ear = Ear(engine)
            ear.listen_for(grammar, takes)
            nothing = [bytes(FRAME_BYTES)] * _AROUND
            sound = chain(nothing, recording.frames(), nothing)
            reports = [report for frame in sound for report in ear.feed(frame)]
            reports += ear.finish()
            _print(name, reports, options, engine.name, round(time.monotonic() - start, 3))
    finally:
        engine.close()
    return DONE


def _print(
    name: str, reports: list[Any], options: argparse.Namespace, engine: str, seconds: float
) -> None:
    from guide.speech.ear import Heard, Missed

    heard = [report for report in reports if isinstance(report, Heard)]
    missed = [report for report in reports if isinstance(report, Missed)]
    found: dict[str, Any] = {"heard": "", "kind": "none", "value": None, "unit": None}
    confidence = max((one.confidence for one in missed), default=0.0)
    if heard:
        best = heard[0]
        kind, value, unit = _value(best, options.asked)
        found = {"heard": best.words, "kind": kind, "value": value, "unit": unit}
        confidence = best.confidence
    if options.json:
        about = {"confidence": round(confidence, 3), "engine": engine, "seconds": seconds}
        print(json.dumps({"file": name, **found, **about}, ensure_ascii=False))
        return
    if heard:
        unit = f" {found['unit']}" if found["unit"] else ""
        print(f"{name}: “{found['heard']}”, {found['kind']} {found['value']}{unit}")
        return
    print(f"{name}: {missed[0].told if missed else 'Nothing was said.'}")


def _value(heard: "Heard", asked: str) -> tuple[str, str | int | float, str | None]:
    """Kind, value and unit as they are printed."""
    value = heard.meaning.value
    if isinstance(value, Quantity):
        return value.kind, _number(value.magnitude), value.unit
    if isinstance(value, Fraction | int):
        return "number", _number(Fraction(value)), None
    if heard.meaning.kind == "choice":
        return "choice", value, None
    from guide.words import ANSWERS, COMMANDS, DECLINED, VOICE

    words = {one.name: one.word for one in (*COMMANDS, *ANSWERS, *VOICE)}
    words |= {one.name: one.word for one in DECLINED}
    return "command", words[str(value)], None


def _number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else float(value)


def _asked(options: argparse.Namespace) -> "tuple[Grammar, Callable[[Meaning], str]]":
    from guide.words import ANSWERS, COMMANDS, DECLINED, VOICE
    from guide.words.spoken import grammar_for

    commands = [one.name for one in (*COMMANDS, *ANSWERS, *VOICE)]
    commands += [one.name for one in DECLINED]
    asked: str = options.asked
    spoken = LANGUAGES[options.language or load_settings().language]
    if asked.startswith("choice:"):
        from guide.run.listening import grammar_of_fact, takes

        fact = _fact(asked.removeprefix("choice:"), options.procedure)
        return grammar_of_fact(fact, options.units, in_language=spoken), takes(fact, options.units)
    if asked not in ASKED:
        raise Usage(f"--for cannot be “{asked[:40]}”; choose {', '.join(ASKED)} or choice:FACT.")
    if asked == "command":
        return grammar_for("nothing", commands=commands, in_language=spoken), lambda _: ""
    more = commands if asked == "any" else []
    grammar = grammar_for(asked, options.units, commands=more, in_language=spoken)
    return grammar, lambda _: ""


def _fact(name: str, procedure: str | None) -> "Fact":
    from guide.checker.graph_cache import graph_of
    from guide.files.library import find
    from guide.text import meant

    if procedure is None:
        raise Usage(f"The answers to “{name[:40]}” are in a procedure; add --procedure FILE.")
    facts = graph_of(find("procedure", procedure)).facts
    if name not in facts:
        hint = meant(name, facts, f"there are {', '.join(facts)}.")
        raise Usage(f"{procedure} has no fact “{name[:40]}”; {hint}")
    if not facts[name].options:
        kind = facts[name].kind
        wanted = kind if kind in ASKED else "any"
        raise Usage(f"“{name}” is not a choice but a {kind}; write --for {wanted}.")
    return facts[name]
