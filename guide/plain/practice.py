"""A practice door line by line: read a command, do it to the model door, say what it shows."""

import random
from collections.abc import Callable
from fractions import Fraction

from guide.errors import UNKNOWN, HingesideError
from guide.plain.loop import Print, ReadLine
from guide.plain.render import wrapped
from guide.practice.debrief import debrief
from guide.practice.door import CAUSES, MENDS, PracticeDoor
from guide.practice.practice import PLACES, RIGHT, SCREWS, Impossible, Practice, PracticeSwing, ways
from guide.practice.score import Score
from guide.practice.wording import edge_at, force
from guide.trade.swing.path import TWELVE
from guide.trade.tuning.readings import LONGEST, SHORTEST

WATCH_ERROR = 0.2
"""Standard deviation of a stopwatch in a person's hand [s]; ours."""

Watch = Callable[[PracticeSwing, Print], tuple[float, ...]]
"""Takes the times of a swing, or lets the person take them; what it read, to the mark and to shut [s]."""

Keep = Callable[[Practice, Score], str]
"""Keeps a result; gives a sentence where it could not."""

HELP = (
    "swing 90, swing 45, swing 10, swing open    let the leaf go; “swing 90 hand” with a hand on it",
    "look closer, look frame, look air           what can be seen",
    "push                                        push it briskly open, to feel the backcheck",
    "force                                       measure the force that opens it",
    "arm off                                     move the leaf by hand without its arm",
    "turn sweep slower 1/4                       the latch valve too; 1/8, 1/4, 1/2 or 1 turn",
    "turn backcheck firmer 1/4                   or softer",
    "turn delay shorter 1/4                      the delayed action, where there is one",
    "turn spring stronger 1/2                    by half EN sizes",
    "mend air, mend seal, mend hinge, mend strike",
    "right                                       your verdict: the door is right",
    "cannot air, seal, hinge, strike, leak, size your verdict: it cannot be done, and why",
    "quit                                        leave without a verdict",
)

_STEPS = {"1/8": Fraction(1, 8), "1/4": Fraction(1, 4), "1/2": Fraction(1, 2), "1": Fraction(1)}
_NOT_KNOWN = "is not understood here; “help” lists what can be done."


class NotUnderstood(HingesideError):
    """A line that means nothing here; the sentence says what to write."""

    status = UNKNOWN


def practise_plain(
    practice: Practice, read_line: ReadLine, print_line: Print, watch: Watch, keep: Keep
) -> None:
    """Carry a practice on until its verdict, or until the lines run out."""
    for line in told(practice.at):
        print_line(line)
    while not practice.verdict:
        typed = read_line()
        if typed is None or typed.strip().casefold() in ("quit", "exit"):
            print_line("Left without a verdict; nothing is kept.")
            return
        try:
            for said in _done(practice, typed.casefold().split(), print_line, watch):
                for line in wrapped(said, "  "):
                    print_line(line)
        except (Impossible, NotUnderstood) as error:
            print_line(f"! {error}")
    score, sections = debrief(practice)
    for heading, lines in sections:
        print_line(f"--- {heading}")
        for said in lines:
            for line in wrapped(said, "  "):
                print_line(line)
    trouble = keep(practice, score)
    if trouble:
        print_line(f"! {trouble}")


def told(at: PracticeDoor) -> list[str]:
    """What the apprentice is told of the door."""
    limit = ""
    if at.limit is not None:
        limit = f" It may take {force(at.limit, at.units)} to open at most ({at.limit_from})."
    mark = edge_at(at.door.width, TWELVE, at.units)
    text = (
        f"It is to take {SHORTEST:g} to {LONGEST:g} s from 90 degrees to the mark at 12 degrees ({mark} at"
        f" the latch edge), to latch from 90, 45 and 10 degrees, and never to slam. Pushed briskly open it is cushioned"
        f" before its stop.{limit}"
    )
    return [
        f"--- Practice: {at.title}",
        *wrapped(at.about),
        *wrapped(text),
        *wrapped(
            "A model to teach with; place, people and closer are invented. “help” lists what can be done."
        ),
    ]


def seeded_watch(seed: int | str) -> Watch:
    """A stopwatch that is off by `WATCH_ERROR`, the same way for the same seed."""
    rng = random.Random(f"watch {seed}")

    def read(swung: PracticeSwing, print_line: Print) -> tuple[float, ...]:
        closing = swung.closing
        true = [closing.s_90_12] if swung.start > TWELVE else []
        if not swung.hand:  # a hand on the leaf makes of the rest what it likes
            true.append(closing.s_12_0)
        came = [seconds for seconds in true if seconds is not None]
        return tuple(round(max(0.1, one + rng.gauss(0, WATCH_ERROR)), 1) for one in came)

    return read


def in_real_time(wait: Callable[[float], None]) -> Watch:
    """No watch: the swing is told as it happens, and the person takes the times. `wait` takes seconds."""

    def play(swung: PracticeSwing, print_line: Print) -> tuple[float, ...]:
        print_line("  The leaf is let go.")
        at_mark = next((seconds for seconds, deg in swung.trace if deg <= TWELVE), None)
        if swung.start > TWELVE and at_mark is not None:
            wait(at_mark)
            print_line("  The edge passes the mark.")
            wait(swung.seconds - at_mark)
        else:
            wait(swung.seconds)
        return ()

    return play


def _done(practice: Practice, words: list[str], print_line: Print, watch: Watch) -> tuple[str, ...]:
    """Do what a line says; what it shows."""
    match words:
        case []:
            return ()
        case ["help" | "?"]:
            for line in HELP:
                print_line(f"  {line}")
            return ()
        case ["look", place] if place in PLACES:
            return practice.look(place)
        case ["arm", "off"] | ["feel"]:
            return practice.feel()
        case ["push"]:
            practice.push()
            return practice.acts[-1].said
        case ["force"]:
            practice.measure()
            return practice.acts[-1].said
        case ["swing", start]:
            return _swing(practice, _start(practice, start), False, print_line, watch)
        case ["swing", start, "hand"]:
            return _swing(practice, _start(practice, start), True, print_line, watch)
        case ["turn", screw, way, amount]:
            return _turn(practice, screw, way, amount)
        case ["mend", cause] if cause in MENDS:
            return (*practice.mend(cause),)
        case ["right"]:
            practice.finish(RIGHT)
            return ()
        case ["cannot", cause] if cause in CAUSES:
            practice.finish(cause)
            return ()
        case ["turn", *_]:
            raise NotUnderstood(
                "Write which screw, which way and how far, such as: turn sweep slower 1/4"
            )
        case ["cannot", *_]:
            raise NotUnderstood(f"Write why behind it, one of {', '.join(CAUSES)}.")
        case ["mend", *_]:
            raise NotUnderstood(f"Write what behind it, one of {', '.join(MENDS)}.")
        case ["look", *_]:
            raise NotUnderstood(f"Write where behind it, one of {', '.join(PLACES)}.")
    raise NotUnderstood(f"“{' '.join(words)[:40]}” {_NOT_KNOWN}")


def _start(practice: Practice, word: str) -> float:
    if word == "open":
        return practice.at.opens_to
    if word.isascii() and word.isdigit() and 1 <= int(word) <= practice.at.opens_to:
        return float(word)
    raise NotUnderstood(f"Write from how many degrees, 1 to {practice.at.opens_to:g}, or “open”.")


def _swing(
    practice: Practice, start: float, hand: bool, print_line: Print, watch: Watch
) -> tuple[str, ...]:
    swung = practice.swing(start, hand=hand)
    swung.read = watch(swung, print_line)
    said = practice.acts[-1].said
    if not swung.read:
        return said
    names = ("to the mark", "to shut") if start > TWELVE else ("to shut",)
    times = ", ".join(f"{one:.1f} s {name}" for one, name in zip(swung.read, names, strict=False))
    return (*said, f"The watch: {times}.")


def _turn(practice: Practice, screw: str, way: str, amount: str) -> tuple[str, ...]:
    if screw not in SCREWS:
        raise NotUnderstood(f"“{screw[:40]}” is no screw; there are {', '.join(practice.screws)}.")
    if way not in ways(screw):
        raise NotUnderstood(f"The {screw} screw is turned {' or '.join(ways(screw))}.")
    turns = _STEPS.get(amount)
    halves = screw == "spring"
    if turns is None or (halves and turns < Fraction(1, 2)):
        known = "1/2 or 1 EN size" if halves else "1/8, 1/4, 1/2 or 1 turn"
        raise NotUnderstood(f"Write how far: {known}, as a number alone.")
    return practice.turn(screw, way, float(turns * (2 if halves else 4)))
