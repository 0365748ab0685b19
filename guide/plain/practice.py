"""A practice door line by line: read a command, do it to the model door, print the result."""

import random
from collections.abc import Callable
from fractions import Fraction

from guide.drawing.plot import text_plot
from guide.errors import UNKNOWN, HingesideError
from guide.plain.loop import Print, ReadLine
from guide.plain.render import PLOT, wrapped
from guide.practice.debrief import debrief
from guide.practice.door import CAUSES, REMEDIES, PracticeDoor
from guide.practice.practice import PLACES, RIGHT, SCREWS, Impossible, Practice, PracticeSwing, ways
from guide.practice.score import Score
from guide.practice.wording import edge_at, force
from guide.run.swing_plot import swing_plot
from guide.trade.swing.path import TWELVE
from guide.trade.tuning.readings import LONGEST, LONGEST_LAST, SHORTEST
from guide.translation import _

WATCH_ERROR = 0.2
"""Standard deviation of a stopwatch in a person's hand [s]; ours."""

Watch = Callable[[PracticeSwing, Print], tuple[float, ...]]
"""Times a swing, or lets the person do it; the times read, to the mark and to shut [s]."""

Keep = Callable[[Practice, Score], str]
"""Keeps a result; returns a sentence if it could not, else nothing."""

HELP = (
    _("swing 90, 45, 10 or open              let the leaf go"),
    _("swing 90 hand                         the same with a hand on the leaf"),
    _("inspect closer, frame or air          what can be seen"),
    _("push-open                             push it briskly open: the backcheck"),
    _("gauge                                 the force that opens it"),
    _("arm off                               move the leaf by hand without its arm"),
    _("adjust sweep slower 1/4               or latch; 1/8, 1/4, 1/2 or 1 turn"),
    _("adjust backcheck firmer 1/4           or softer"),
    _("adjust delay shorter 1/4              the delayed action, if there is one"),
    _("adjust spring stronger 1/2            by half EN sizes"),
    _("put-right air, seal, hinge or strike  have that put right"),
    _("right                                 your verdict: the door is right"),
    _("cannot air                            your verdict: why it cannot be done"),
    _("                                      air, seal, hinge, strike, leak or size"),
    _("leave                                 leave without a verdict"),
)

_STEPS = {"1/8": Fraction(1, 8), "1/4": Fraction(1, 4), "1/2": Fraction(1, 2), "1": Fraction(1)}
_CALLED_HERE = {
    "look": "inspect",
    "push": "push-open",
    "turn": "adjust",
    "force": "gauge",
    "mend": "put-right",
    "put": "put-right",
    "quit": "leave",
    "exit": "leave",
}
"""Words that a person may try, and the name of that command here."""
_NOT_KNOWN = _("is not a command here; “help” lists them.")


class NotUnderstood(HingesideError):
    """A line that means nothing here; the sentence says what to write."""

    status = UNKNOWN


def practise_plain(
    practice: Practice,
    read_line: ReadLine,
    print_line: Print,
    watch: Watch,
    keep: Keep,
    *,
    ascii_only: bool = False,
) -> None:
    """Carry a practice on until its verdict, or until the lines run out. `ascii_only` is for its plot."""
    for line in told(practice.at):
        print_line(line)
    while not practice.verdict:
        typed = read_line()
        if typed is None or typed.strip().casefold() == "leave":
            print_line(_("Left without a verdict; nothing is kept."))
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
    plot = swing_plot(practice)
    if plot is not None:
        for line in (*text_plot(plot, *PLOT, ascii_only=ascii_only), *wrapped(plot.says, "  ")):
            print_line(line)
    trouble = keep(practice, score)
    if trouble:
        print_line(f"! {trouble}")


def told(at: PracticeDoor) -> list[str]:
    """What the apprentice knows of the door before the first command."""
    limit = ""
    if at.limit is not None:
        limit = _(" At most {force} opens it ({limit_from}).").format(
            force=force(at.limit, at.units), limit_from=at.limit_from
        )
    mark = edge_at(at.door.width, TWELVE, at.units)
    text = _(
        "The door is right if it needs {shortest:g} to {longest:g} s from 90 degrees to the mark at 12 degrees "
        "({mark} at the latch edge) and {most:g} s at most from there. It latches from 90, 45 and 10 degrees and "
        "never slams. Pushed briskly open, it is cushioned before its stop.{limit}"
    ).format(shortest=SHORTEST, longest=LONGEST, mark=mark, most=LONGEST_LAST, limit=limit)
    return [
        _("--- Practice: {title}").format(title=at.title),
        *wrapped(at.about),
        *wrapped(text),
        *wrapped(
            _(
                "A model to teach with; place, people and closer are invented. “help” lists the commands."
            )
        ),
    ]


def seeded_watch(seed: int | str) -> Watch:
    """A stopwatch that is off by `WATCH_ERROR`, the same way for the same seed."""
    rng = random.Random(f"watch {seed}")

    def read(swung: PracticeSwing, print_line: Print) -> tuple[float, ...]:
        closing = swung.closing
        true = [closing.s_90_12] if swung.start > TWELVE else []
        if not swung.hand:  # a hand on the leaf changes the rest
            true.append(closing.s_12_0)
        came = [seconds for seconds in true if seconds is not None]
        return tuple(round(max(0.1, one + rng.gauss(0, WATCH_ERROR)), 1) for one in came)

    return read


def in_real_time(wait: Callable[[float], None]) -> Watch:
    """No watch: the swing is printed as it happens, and the person times it. `wait` waits for so many seconds."""

    def play(swung: PracticeSwing, print_line: Print) -> tuple[float, ...]:
        print_line(_("  The leaf is let go."))
        at_mark = next((seconds for seconds, deg in swung.trace if deg <= TWELVE), None)
        if swung.start > TWELVE and at_mark is not None:
            wait(at_mark)
            print_line(_("  The edge passes the mark."))
            wait(swung.seconds - at_mark)
        else:
            wait(swung.seconds)
        return ()

    return play


def _done(practice: Practice, words: list[str], print_line: Print, watch: Watch) -> tuple[str, ...]:
    """Do what a line says; returns the result in sentences."""
    match words:
        case []:
            return ()
        case ["help" | "?"]:
            for line in HELP:
                print_line(f"  {line}")
            return ()
        case ["inspect", place] if place in PLACES:
            return practice.look(place)
        case ["arm", "off"] | ["feel"]:
            return practice.feel()
        case ["push-open"]:
            practice.push()
            return practice.acts[-1].said
        case ["gauge"]:
            practice.measure()
            return practice.acts[-1].said
        case ["swing", start]:
            return _swing(practice, _start(practice, start), False, print_line, watch)
        case ["swing", start, "hand"]:
            return _swing(practice, _start(practice, start), True, print_line, watch)
        case ["adjust", screw, way, amount]:
            return _turn(practice, screw, way, amount)
        case ["put-right", cause] if cause in REMEDIES:
            return (*practice.put_right(cause),)
        case ["right"]:
            practice.finish(RIGHT)
            return ()
        case ["cannot", cause] if cause in CAUSES:
            practice.finish(cause)
            return ()
        case ["adjust", *_]:
            raise NotUnderstood(
                _("Write which screw, which way and how far, such as: adjust sweep slower 1/4")
            )
        case ["cannot", *_]:
            raise NotUnderstood(
                _("Write why after it: one of {words}.").format(words=", ".join(CAUSES))
            )
        case ["put-right", *_]:
            raise NotUnderstood(
                _("Write what after it: one of {words}.").format(words=", ".join(REMEDIES))
            )
        case ["inspect", *_]:
            raise NotUnderstood(
                _("Write what after it: one of {words}.").format(words=", ".join(PLACES))
            )
        case [word, *_] if word in _CALLED_HERE:
            raise NotUnderstood(
                _("“{word}” is called “{here}” here.").format(word=word, here=_CALLED_HERE[word])
            )
    raise NotUnderstood(f"“{' '.join(words)[:40]}” {_NOT_KNOWN}")


def _start(practice: Practice, word: str) -> float:
    if word == "open":
        return practice.at.opens_to
    if word.isascii() and word.isdigit() and 1 <= int(word) <= practice.at.opens_to:
        return float(word)
    raise NotUnderstood(
        _("Write from how many degrees, 1 to {opens_to:g}, or “open”.").format(
            opens_to=practice.at.opens_to
        )
    )


def _swing(
    practice: Practice, start: float, hand: bool, print_line: Print, watch: Watch
) -> tuple[str, ...]:
    swung = practice.swing(start, hand=hand)
    swung.read = watch(swung, print_line)
    said = practice.acts[-1].said
    if not swung.read:
        return said
    names = (_("to the mark"), _("to shut")) if start > TWELVE else (_("to shut"),)
    times = ", ".join(f"{one:.1f} s {name}" for one, name in zip(swung.read, names, strict=False))
    return (*said, _("The watch: {times}.").format(times=times))


def _turn(practice: Practice, screw: str, way: str, amount: str) -> tuple[str, ...]:
    if screw not in SCREWS:
        raise NotUnderstood(
            _("“{screw}” is not a screw of this closer; it has {screws}.").format(
                screw=screw[:40], screws=", ".join(practice.screws)
            )
        )
    if way not in ways(screw):
        raise NotUnderstood(
            _("The {screw} screw is turned {ways}.").format(
                screw=screw, ways=" or ".join(ways(screw))
            )
        )
    turns = _STEPS.get(amount)
    halves = screw == "spring"
    if turns is None or (halves and turns < Fraction(1, 2)):
        known = _("1/2 or 1 EN size") if halves else _("1/8, 1/4, 1/2 or 1 turn")
        raise NotUnderstood(_("Write how far: {known}, as a number alone.").format(known=known))
    return practice.turn(screw, way, float(turns * (2 if halves else 4)))
