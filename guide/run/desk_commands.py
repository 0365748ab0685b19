"""The commands of the desk: one function for each, the same for a key, a line and a word."""

from collections.abc import Callable

from guide.procedure.facts import UNSURE
from guide.run import desk_words, replies
from guide.run.desk_view import DeskView
from guide.run.desk_words import BY_VOICE, Way
from guide.run.making_safe import to_make_safe
from guide.run.outcomes import (
    DETAIL,
    DRAWING,
    ENDING,
    HELP,
    KNOWN,
    NOTE,
    PAGE,
    PAPERS,
    SAFE,
    TAKE_UP,
    WATCH,
    WHY,
    Asks,
    Look,
    Notice,
    Outcome,
    Sent,
)
from guide.run.overview import earlier, later
from guide.run.pages.page import Page
from guide.run.prompt import FROM_THE_SCHEDULE, Prompt, can_be_taken_up, next_job
from guide.run.question_card import SINGLY
from guide.run.settings import DETAILS
from guide.run.state import ENDED, label
from guide.run.step import Refused
from guide.run.step_drawing import PLAN, SWINGS, DrawnOpening, door_of, too_little

Does = Callable[[DeskView, str, str, Way], Outcome]
"""Gets the desk, the command's name, the words that were given with it, and how it was given. May raise Refused."""


def done(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """The step is done; on a card that is shown as one, every step of it. Never a hold, a cut, or an end."""
    shown, kind = desk.shown, desk.accepts.kind
    if desk.ending:
        raise Refused(by.tell(desk_words.YES_ENDS))
    if desk.at is not None and not desk.changing:
        return desk.look(None)
    if shown.kind == "ended":
        desk.left = True
        return Look()
    if kind == "done":
        return _steps_done(desk, shown, by)
    if kind in ("measure", "count", "text") or (kind == "choice" and desk.accepts.suggestion):
        return _accepted(desk, shown, by)
    raise Refused(by.waits(desk.accepts))


def _accepted(desk: DeskView, shown: Prompt, by: Way) -> Sent:
    """The suggestion, and on a card of the schedule's values every one of them; by voice one at a time."""
    found = desk.answer("")
    sent = found.kinds
    together = shown.together(desk.detail) and shown.card == FROM_THE_SCHEDULE
    by_card = together and desk.at is None and by is not BY_VOICE
    for line in shown.card_lines[1:] if by_card else ():
        state = desk.session.state
        if label(state.graph, state.at) != line.at or state.pending is not None:
            break
        sent += desk.answer("").kinds
    return Sent(sent, found.told)


def _steps_done(desk: DeskView, shown: Prompt, by: Way) -> Sent:
    """The step, and on a card every one of it; by voice only the one that was said aloud."""
    session = desk.session
    sent = desk.send(replies.done(session.state)).kinds
    for line in shown.card_lines[1:] if desk.cards and by is not BY_VOICE else ():
        if label(session.state.graph, session.state.at) != line.at:
            break
        sent += desk.send(replies.done(session.state)).kinds
    return Sent(sent)


def _yes_or_no(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """Yes or no to what is read back or asked; never enough for a hold or a cut."""
    state, kind, yes = desk.session.state, desk.accepts.kind, name == "yes"
    if desk.ending:
        return (
            desk.send(replies.make_safe(state, desk.reason)) if yes else _cancel(desk, "", "", by)
        )
    if kind == "read-back":
        return desk.send(replies.confirm(state, yes))
    if desk.together and desk.at is None and not yes:
        return desk.answer(SINGLY)
    if kind == "choice" and name in (choice.value for choice in desk.accepts.choices):
        return desk.answer(name)
    if kind == "end" and yes:
        return desk.send(replies.done(state))
    if kind == "hold" and not yes:
        raise Refused(by.tell(desk_words.WRONG_VALUE))
    if kind in ("hold", "begin") and yes:
        raise Refused(by.waits(desk.accepts))
    raise Refused(desk.not_here(name, by))


def _hold(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    if desk.accepts.kind != "hold":
        raise Refused(desk.not_here(name, by))
    return desk.send(replies.pass_hold(desk.session.state), desk_words.HELD)


def _cut(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    if desk.accepts.kind != "begin":
        raise Refused(desk.not_here(name, by))
    return desk.send(replies.begin(desk.session.state), by.tell(desk_words.BEGUN))


def _unsure(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    if all(choice.value != UNSURE for choice in desk.accepts.choices):
        raise Refused(desk.not_here(name, by))
    return desk.answer(UNSURE)


def _watch(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    if desk.accepts.measure != "time":
        raise Refused(desk.not_here(name, by))
    return Notice(WATCH)


def _back(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    before = earlier(desk.session.state, desk.at)
    if before is None:
        raise Refused(desk_words.FIRST)
    return desk.look(before)


def _forward(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    if desk.at is None:
        raise Refused(desk_words.LATEST)
    return desk.look(later(desk.session.state, desk.at))


def _change(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    if desk.at is None or desk.shown.accepts.kind == "nothing":
        raise Refused(by.tell(desk_words.GO_BACK_FIRST))
    desk.look(desk.at, changing=True)
    return Look(desk_words.NEW_ANSWER)


def _detail(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    desk.detail = DETAILS[(DETAILS.index(desk.detail) + 1) % len(DETAILS)]
    return Notice(DETAIL, f"Detail: {desk.detail}.")


def _why(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    return Notice(WHY)


def _status(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    desk.over = KNOWN
    return Notice(KNOWN)


def _papers(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    return Notice(PAPERS)


def _help(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    desk.over = HELP
    return Notice(HELP)


def _draw(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """Draw the opening; if it is drawn already, its other view, or the leaf swung."""
    way = SWINGS.get(name, 0)
    if desk.over != DRAWING or desk.drawing is None:
        draws = desk.shown.draws
        door = draws.door if draws and not desk.supposed else None
        door = door or door_of(desk.session.state, desk.supposed)
        if door is None:
            raise Refused(too_little(desk.session.state))
        desk.drawing = DrawnOpening(door, draws.view if draws else PLAN)
    elif not way:
        desk.drawing = desk.drawing.other_view()
    if way:
        desk.drawing = desk.drawing.swung(way)
    desk.over = DRAWING
    return Notice(DRAWING)


def _page(desk: DeskView, page: Page) -> Notice:
    desk.page, desk.over = page, PAGE
    return Notice(PAGE)


def _words(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    from guide.run.pages.words import words_page  # few look a word up

    return _page(desk, words_page(desk.shown))


def _tools(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    from guide.run.pages.kit import kit_page

    return _page(desk, kit_page(desk.session.state))


def _photo(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    from guide.run.desk_photos import photo

    return photo(desk, name, words, by)


def _tests(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    from guide.run.pages.readings import readings_page

    return _page(desk, readings_page(desk.session.state))


def _sheet(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """Show the closer's sheet; never while its own numbers are measured blind."""
    from guide.run.pages.sheet import NOT_WHILE_BLIND as SHEET_HIDDEN
    from guide.run.pages.sheet import sheet_page

    if desk.session.state.hidden:
        raise Refused(SHEET_HIDDEN)
    return _page(desk, sheet_page(desk.session.state))


def _repeat(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    return desk.look(desk.at, changing=desk.changing)


def noted(desk: DeskView, text: str) -> Outcome:
    """Write a note; the place looked at stays."""
    at, changing = desk.at, desk.changing
    sent = desk.send(replies.note(desk.session.state, text), desk_words.NOTED)
    desk.look(at, changing=changing)
    return sent


def _note(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    asks = desk.wants(NOTE, desk_words.WRITE_NOTE)
    return noted(desk, words) if words.strip() else asks


def safe(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """Stop and make safe: it needs a reason, and a yes after it."""
    state = desk.session.state
    if state.status == ENDED:
        raise Refused(desk_words.ENDED_ALREADY)
    if not words.strip() and desk.purpose != SAFE:
        return desk.wants(SAFE, desk_words.WRITE_WHY)
    replies.make_safe(state, words)  # refuses an empty reason
    desk.purpose, desk.reason = SAFE, words.strip()
    return Asks(ENDING, by.tell(desk_words.MAKE_SAFE, safe=" ".join(to_make_safe(state))))


def take_up(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """Go on with a job that ended before its purpose: it needs words on what has changed."""
    state = desk.session.state
    if not can_be_taken_up(state):
        raise Refused(desk_words.NOT_TAKEN_UP)
    if not words.strip() and desk.purpose != TAKE_UP:
        return desk.wants(TAKE_UP, desk_words.WRITE_WORD)
    at_end = state.node.kind == "end"
    sent = desk.send(replies.take_up(state, words))
    return Sent(sent.kinds, by.tell(desk_words.TAKEN_UP_AT_END if at_end else desk_words.TAKEN_UP))


def _next_job(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """End this job, if it stands at its end, and leave it for the one that the end leads to."""
    state = desk.session.state
    follows = next_job(state)
    if follows is None or desk.at is not None:
        raise Refused(desk_words.NO_NEXT)
    sent = Sent(()) if state.ended else desk.send(replies.done(state))
    desk.left, desk.onward = True, follows.name
    return Sent(sent.kinds, desk_words.NEXT_BEGINS.format(title=follows.title))


def _pause(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    state = desk.session.state
    kept = state.ended or state.paused
    sent = Sent(()) if kept else desk.send(("paused", {}))
    desk.left = True
    return sent


def _resume(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    raise Refused(by.tell(desk_words.GOES_ON))


def _cancel(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """Leave the words that are wanted, or what lies over the step."""
    told = desk_words.NOTHING_WRITTEN if desk.purpose else ""
    desk.leave_words()
    return Look(told)


COMMANDS: dict[str, Does] = {
    "done": done,
    "yes": _yes_or_no,
    "no": _yes_or_no,
    "hold": _hold,
    "cut": _cut,
    "begin": _cut,
    "unsure": _unsure,
    "watch": _watch,
    "back": _back,
    "forward": _forward,
    "change": _change,
    "why": _why,
    "detail": _detail,
    "status": _status,
    "help": _help,
    "draw": _draw,
    **dict.fromkeys(SWINGS, _draw),
    "words": _words,
    "tools": _tools,
    "sheet": _sheet,
    "tests": _tests,
    "repeat": _repeat,
    "papers": _papers,
    "note": _note,
    "photo": _photo,
    "safe": safe,
    "next job": _next_job,
    "take up": take_up,
    "pause": _pause,
    "resume": _resume,
    "cancel": _cancel,
}
BESIDE = ("status", "help", "draw", "words", "tools", "sheet", "tests", *SWINGS)
"""Commands for what is shown in place of the step; any other command shows the step again."""
