"""One person at each front end: gives a command in the state wanted, and says in a few words what came of it."""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from guide.plain.loop import run_plain
from guide.run.desk import Desk
from guide.run.session import Session
from guide.run.state import label
from guide.run.talk import Talk
from guide.screens.run_view import RunView
from guide.words import by_name
from tests.run.small_procedures import begin, give

SET_UP = ("done", "done", "done")
ASKED = (*SET_UP, "steel")
MEASURED = (*ASKED, "36 in")
MARKED = (*MEASURED, "done")
HELD = (*MARKED, "hold")
BEGUN = (*HELD, "begin")
CUT = (*BEGUN, "done")
TIMED = (*CUT, "6 s")
STATES: dict[str, tuple[str, ...]] = {
    "card": (),
    "choice": SET_UP,
    "number": ASKED,
    "step": MEASURED,
    "hold": MARKED,
    "cut": HELD,
    "cut begun": BEGUN,
    "stopwatch": CUT,
    "check": TIMED,
    "end": (*TIMED, "yes"),
    "read back": (*ASKED, "47 in"),
    "interrupted": (*BEGUN, "killed"),
    "stopped": (*CUT, "how-wide = 34 in"),
    "looking": ASKED,
    "changing": ASKED,
}
"""What was given before the command; the last two go back to the leaf by the front end's own commands."""
BEFORE = {"looking": ("back",), "changing": ("back", "change")}

KEYED = {"hold": "y", "cut": "y"}
"""Keys where they are not those of the lexicon."""
TYPED = {"hold": "yes", "cut": "begin", "done": ""}
"""Lines where they are not the words of the lexicon."""


def stands(session: Session) -> str:
    """The block the run stands at."""
    return label(session.state.graph, session.state.at)


def kinds(session: Session, since: int = 0) -> list[str]:
    """The kinds of events after a number of them, computations left out."""
    return [e.kind for e in session.journal.events()[since:] if e.kind != "worked"]


def outcome(sent: Iterable[str], *looks: str) -> str:
    """What came of a command, in a few words."""
    return "; ".join(part for part in (" ".join(sent), *looks) if part) or "stays"


def slow_clock() -> Iterator[float]:
    """Two seconds pass between any two looks at it: every key is pressed on purpose."""
    seconds = 0.0
    while True:
        seconds += 2.0
        yield seconds


def _view(state: str, session: Session) -> RunView:
    ticks = slow_clock()
    return RunView(session, _detail(state), clock=lambda: next(ticks))


def _detail(state: str) -> str:
    return "cards" if state == "card" else "full"


def _seen(desk: Desk, before: int, *, refused: bool = False) -> str:
    """What came of a command, off the desk and the journal."""
    state, sent = desk.session.state, kinds(desk.session, before)
    if refused:
        return outcome(sent, "refused")
    wants = "yes" if desk.ending else desk.purpose
    at = label(state.graph, desk.at) if desk.at and not desk.left else ""
    return outcome(
        sent,
        f"wants {wants}" if wants else "",
        "leaves" if desk.left else "",
        f"{'changes' if desk.changing else 'looks at'} {at}" if at else "",
    )


@cache
def by_keys(state: str, commands: Sequence[str]) -> dict[str, str]:
    """What the run's screen makes of the key of each command, each on a run of its own."""
    found: dict[str, str] = {}
    for name in commands:
        session = begin("sports-hall")
        give(session, *STATES[state])
        view = _view(state, session)
        for before_it in BEFORE.get(state, ()):
            view.press(by_name(before_it).key)
        before = len(session.journal.events())
        view.message, view.refused = "", False
        key = KEYED.get(name) or by_name(name).key
        view.press(key, key if len(key) == 1 else None)
        found[name] = _seen(view.desk, before, refused=view.refused)
    return found


def by_line(state: str, line: str) -> str:
    """What the line-by-line run makes of a line."""
    session = begin("sports-hall")
    give(session, *STATES[state])
    desk = Desk(session, _detail(state))
    lines = iter([*(by_name(name).word for name in BEFORE.get(state, ())), line])
    printed: list[str] = []
    before = (0, 0)
    found: list[str] = []

    def look() -> str:
        refused = any(one.startswith("! ") for one in printed[before[1] :])
        return _seen(desk, before[0], refused=refused)

    def read() -> str | None:
        nonlocal before
        typed = next(lines, None)
        if typed is None:
            found.append(look())  # before the run is paused, as nothing more is typed
        else:
            before = (len(session.journal.events()), len(printed))
        return typed

    run_plain(desk, read, printed.append)
    return found[0] if found else look()


def by_voice(state: str, words: str) -> str:
    """What comes of words said; `unheard` where they are not listened for."""
    session = begin("sports-hall")
    give(session, *STATES[state])
    desk = Desk(session, _detail(state))
    talk = Talk(desk)
    talk.say_step()
    for name in BEFORE.get(state, ()):
        desk.command(name)
    before = len(session.journal.events())
    asked = talk.asked()
    meaning = asked.grammar.parse(words).meaning
    if meaning is None:
        return "unheard"
    reply = talk.heard(meaning, words, 0.9, asked.turn)
    return _seen(desk, before, refused=reply.refused and not reply.sent)
