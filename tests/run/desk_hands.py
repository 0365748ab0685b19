"""One person at each front end: gives a command in the state wanted, and says in a few words what came of it."""

import asyncio
from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from small_procedures import begin, give

from guide.plain.loop import run_plain
from guide.run.session import Session
from guide.run.state import label
from guide.run.talk import Reply, Talk
from guide.screens.run_view import RunView
from guide.screens.terminal_app import HingesideApp
from guide.words import by_name

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
    detail = "brief" if state == "card" else "full"
    return RunView(session, detail, clock=lambda: next(ticks))


def _seen(view: RunView, before: int) -> str:
    session = view.session
    if view.refused:
        return outcome(kinds(session, before), "refused")
    wants = "yes" if view.ending else view.purpose
    at = label(session.state.graph, view.at) if view.at and not view.leaving else ""
    return outcome(
        kinds(session, before),
        f"wants {wants}" if wants else "",
        "leaves" if view.leaving else "",
        f"{'changes' if view.changing else 'looks at'} {at}" if at else "",
    )


@cache
def by_keys(state: str, commands: Sequence[str]) -> dict[str, str]:
    """What the app makes of the key of each command, each on a run of its own."""
    return asyncio.run(_by_keys(state, commands))


async def _by_keys(state: str, commands: Sequence[str]) -> dict[str, str]:
    app = HingesideApp(begin("sports-hall"))
    found: dict[str, str] = {}
    async with app.run_test(size=(80, 40)) as pilot:
        for name in commands:
            session = begin("sports-hall")
            give(session, *STATES[state])
            app.run_view = app.view = view = _view(state, session)
            app.paint()
            await pilot.press(*(by_name(key).key for key in BEFORE.get(state, ())))
            before = len(session.journal.events())
            view.message, view.refused = "", False
            key = KEYED.get(name) or by_name(name).key
            app.run_view = None  # the run stays open when it is left, to be looked at
            await pilot.press(key)
            app.run_view = view
            found[name] = _seen(view, before)
    return found


def by_line(state: str, line: str, *then: str) -> str:
    """What the line-by-line run makes of a line, and of those after it."""
    session = begin("sports-hall")
    give(session, *STATES[state])
    lines = iter([*(by_name(name).word for name in BEFORE.get(state, ())), line, *then])
    first = line if state not in BEFORE else by_name(BEFORE[state][0]).word
    assert first is not None
    printed: list[str] = []
    marks: list[tuple[int, int]] = []
    kept: list[str] = []

    def read() -> str | None:
        marks.append((len(session.journal.events()), len(printed)))
        if len(marks) == 2 + len(BEFORE.get(state, ())) + len(then):
            kept.extend(kinds(session, marks[len(BEFORE.get(state, ()))][0]))
        return next(lines, None)

    run_plain(session, read, printed.append, "brief" if state == "card" else "full")
    start, before = marks[len(BEFORE.get(state, ()))]
    ended_there = not kept and len(marks) < 2 + len(BEFORE.get(state, ())) + len(then)
    sent = kinds(session, start) if ended_there else kept
    said = printed[before : marks[-1][1] if not ended_there else None]
    if any(one.startswith("! ") for one in said):
        return outcome(sent, "refused")
    return outcome(sent, *_read_off(session, state, said, left=ended_there))


def _read_off(session: Session, state: str, said: list[str], *, left: bool) -> Iterator[str]:
    """What the lines printed tell of the look."""
    text = " ".join(line.strip() for line in said)
    if "write why" in text.casefold():
        yield "wants safe"
    if "write the note" in text.casefold():
        yield "wants note"
    if "cannot be taken up again" in text:
        yield "wants yes"
    if left and not session.state.ended:
        yield "leaves"
    shown = [line.split()[1] for line in said if line.startswith("--- ")]
    if "The new answer?" in text:
        yield "changes what-leaf"
    elif shown and ("“change” gives" in text or "“forward” goes on" in text):
        yield f"looks at {shown[-1]}"
    elif not shown and not left and state in BEFORE:
        yield {"looking": "looks at", "changing": "changes"}[state] + " what-leaf"


def by_voice(state: str, words: str) -> str:
    """What the app makes of words said to it; `unheard` where they are not listened for."""
    session = begin("sports-hall")
    give(session, *STATES[state])
    view = _view(state, session)
    view.paging.read_through = True
    talk = Talk(session)
    talk.cards = view.detail == "brief"
    talk.say_step()
    for name in BEFORE.get(state, ()):
        view.command(name)
    talk.look(view.at, view.changing)
    before = len(session.journal.events())
    asked = talk.asked()
    meaning = asked.grammar.parse(words).meaning
    if meaning is None:
        return "unheard"
    reply: Reply = talk.heard(meaning, words, 0.9, asked.turn)
    if reply.sent:
        view.renew()
    if reply.command:
        view.command(reply.command)
    if reply.refused and not reply.sent:
        return "refused"
    asks = "wants yes" if "yes or no?" in reply.say and not reply.sent else ""
    return _seen(view, before) if not asks else outcome(kinds(session, before), asks)
