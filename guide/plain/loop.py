"""The line-by-line run: print a prompt, read a line, send the event it means."""

from collections.abc import Callable
from dataclasses import dataclass

from guide.plain.render import rendered, wrapped
from guide.procedure.facts import UNSURE, WrongAnswer
from guide.run import replies
from guide.run.drawn import PLAN, SWINGS, TOO_LITTLE, drawn, swung
from guide.run.prompt import Prompt, earlier, known, later, prompt
from guide.run.session import Session
from guide.run.settings import DETAILS
from guide.run.state import ENDED, Occurrence, State
from guide.run.step import CUT_REPORTS, RESOLUTIONS, Refused
from guide.text import printable
from guide.words import ANSWERS, COMMANDS, by_word

ReadLine = Callable[[], str | None]
"""The next line without its end; None when there are no more."""
Print = Callable[[str], None]
KeepDetail = Callable[[str], str]
"""Keeps the level of detail; gives a sentence where it could not."""
DRAWN_COLUMNS, DRAWN_ROWS = 70, 20
"""The room of a drawing."""


@dataclass(slots=True)
class _View:
    at: Occurrence | None = None
    """An earlier block that is looked at; None where the run stands."""
    detail: str = "full"
    why: bool = False
    changing: bool = False
    angle: float = 0.0
    """How far the leaf stands open in the drawing last printed [deg]."""
    ascii_only: bool = False
    keep_detail: KeepDetail | None = None


def run_plain(
    session: Session,
    read_line: ReadLine,
    print_line: Print,
    detail: str,
    *,
    ascii_only: bool = False,
    keep_detail: KeepDetail | None = None,
) -> None:
    """Carry a run on until it ends, is paused, or the lines run out. `ascii_only` is for drawings;
    `keep_detail` keeps another level of detail for the runs to come.

    Raises JournalError where an answer cannot be kept; everything acknowledged before is on disk.
    """
    view = _View(detail=detail, ascii_only=ascii_only, keep_detail=keep_detail)
    show = True
    while session.state.status != ENDED:
        shown = prompt(session.state, view.at)
        if show:
            for part in rendered(shown, view.detail, why=view.why):
                print_line(part)
        view.why = False
        line = read_line()
        if line is None:
            _pause(session, print_line)
            return
        try:
            action = _act(session, view, shown, line, print_line)
        except (Refused, WrongAnswer) as error:
            print_line(f"! {_refusal(shown, line, error)}")
            show = False
            continue
        if action == "pause":
            _pause(session, print_line)
            return
        show = action != "stay"
    for end in wrapped(prompt(session.state).text):
        print_line(end)


def _refusal(shown: Prompt, line: str, error: Exception) -> str:
    """Why a line was not taken. A listed answer is told by its number and its words, as it is listed."""
    if not isinstance(error, WrongAnswer) or shown.accepts.kind != "choice":
        return str(error)
    said = (
        f"“{printable(line.strip()[:40])}” is none of the answers"
        if line.strip()
        else "Nothing was entered"
    )
    return f"{said}; type {_listed(shown)}."


def _listed(shown: Prompt) -> str:
    """What is typed for a listed answer."""
    return f"the number of the answer, 1 to {len(shown.accepts.choices)}, or its words"


def _pause(session: Session, print_line: Print) -> None:
    session.send(("paused", {}))
    print_line("Paused. The job is kept; “hingeside” goes on with it.")


def _act(session: Session, view: _View, shown: Prompt, line: str, print_line: Print) -> str:
    """Do what a line says: `show` the prompt again, `stay` without it, or `pause`."""
    text = line.strip()
    looking = shown.view and not view.changing
    words = shown.accepts.kind == "text" and not looking
    command = None
    if text.startswith(":") or not words:
        said = text.removeprefix(":").strip()
        taken = _with_words(session, said, print_line)
        if taken:
            return taken
        command = by_word(said)
        if command is None and text.startswith(":"):
            raise Refused(f"“{said[:40]}” is no command; “help” lists them.")
        if not text.startswith(":") and _is_answer(session.state, shown, text):
            command = None
    if command is not None and command.name not in ("done", "yes", "no"):
        return _command(session, view, shown, command.name, print_line)
    if view.at is not None:
        if text and looking and shown.accepts.kind == "text":
            raise Refused("Say “change” first, then give the new words.")
        return _change(session, view, text)
    session.send(_draft(session, shown, command.name if command is not None else "", text))
    return "show"


def _with_words(session: Session, said: str, print_line: Print) -> str:
    """A command that takes words behind it; empty where this is none."""
    folded = said.casefold()
    for start in ("note ", "note: "):
        if folded.startswith(start):
            session.send(replies.note(session.state, said[len(start) :].strip()))
            print_line("Noted.")
            return "stay"
    for start in ("make it safe ", "make safe ", "safe "):
        if folded.startswith(start):
            session.send(replies.make_safe(session.state, said[len(start) :]))
            return "show"
    return ""


def _is_answer(state: State, shown: Prompt, text: str) -> bool:
    """Whether a word that may also be a command is an answer to what is asked."""
    kind = shown.accepts.kind
    if kind == "report":
        return text.casefold() in CUT_REPORTS
    if kind != "choice" or text == "?":
        return False
    wanted = text.casefold()
    options = state.graph.facts[shown.accepts.fact].options.values()
    return any(
        wanted in (word.casefold() for word in (one.label, one.text, one.say, *one.also))
        for one in options
    )


def _draft(session: Session, shown: Prompt, word: str, text: str) -> replies.Draft:
    """The event that a line means where the run stands."""
    state = session.state
    kind = shown.accepts.kind
    if kind in ("choice", "measure", "count", "text"):
        return replies.answer(state, _meant(shown, text))
    if kind == "read-back":
        if word not in ("yes", "no"):
            raise Refused("Say yes or no.")
        return replies.confirm(state, word == "yes")
    if kind in ("done", "end"):
        if text and word != "done":
            raise Refused(
                f"“{text[:40]}” is not understood here; Enter when it is done, or “help”."
            )
        return replies.done(state)
    if kind == "begin":
        if text.casefold() not in ("begin", "start"):
            raise Refused("This cannot be undone: say “begin” when you begin.")
        return replies.begin(state)
    if kind == "hold":
        if word != "yes":
            raise Refused("A hold is passed with “yes”, when every value is right.")
        return replies.pass_hold(state)
    how, _, note = text.partition(" ")
    if kind == "report":
        how = CUT_REPORTS[int(how) - 1] if how in ("1", "2", "3") else how
        return replies.report(state, how.casefold())
    if kind == "resolve":
        how = RESOLUTIONS[int(how) - 1] if how in ("1", "2", "3") else how
        return replies.resolve(state, how.casefold().rstrip(":,"), note)
    raise Refused("The run cannot go on from here; “safe” and a reason ends it.")


def _meant(shown: Prompt, text: str) -> str:
    """A listed answer by its number, as far as the fact does not know the number itself."""
    choices = shown.accepts.choices
    last = str(len(choices))
    if shown.accepts.kind == "choice" and text == last and choices[-1].value == UNSURE:
        return UNSURE
    return text


def _change(session: Session, view: _View, text: str) -> str:
    """A line while an earlier block is looked at: the new answer, or on to the next block."""
    state = session.state
    at = view.at
    if at is None or (not text and not view.changing):
        if at is not None:
            view.at = later(state, at)
        return "show"
    if at not in state.answers:
        raise Refused("Nothing was asked there; “forward” goes on.")
    session.send(replies.answer(state, _meant(prompt(state, at), text), at))
    view.at, view.changing = None, False
    return "show"


def _command(session: Session, view: _View, shown: Prompt, name: str, print_line: Print) -> str:
    state = session.state
    if name == "back":
        before = earlier(state, view.at)
        if before is None:
            raise Refused("This is the first step.")
        view.at, view.changing = before, False
    elif name == "forward":
        if view.at is None:
            raise Refused("This is where the run stands.")
        view.at, view.changing = later(state, view.at), False
    elif name == "change":
        if view.at is None or shown.accepts.kind == "nothing":
            raise Refused("Go back to the answer you want to change first.")
        view.changing = True
        accepts = shown.accepts
        wanted = f"Type {_listed(shown)}" if accepts.kind == "choice" else accepts.wanted
        print_line(f"The new answer? {wanted[:1].upper()}{wanted[1:]}.")
        return "stay"
    elif name == "why":
        view.why = True
    elif name == "detail":
        view.detail = DETAILS[(DETAILS.index(view.detail) + 1) % len(DETAILS)]
        trouble = view.keep_detail(view.detail) if view.keep_detail else ""
        print_line(f"Detail: {view.detail}. {trouble}".rstrip())
    elif name == "status":
        for fact in known(state):
            print_line(f"  {fact.question} {fact.value}   ({fact.at})")
        return "stay"
    elif name == "draw" or name in SWINGS:
        _draw(session, view, shown, name, print_line)
        return "stay"
    elif name == "note":
        raise Refused("Write the note behind the word, such as: note hinge screws were loose")
    elif name == "safe":
        raise Refused("Write why behind the word, such as: safe ladder damaged")
    elif name == "help":
        for command in (*COMMANDS, *ANSWERS[:2]):
            print_line(f"  {command.word:<14} {command.meaning}")
        print_line("  Where words are asked for, put a colon before a command, such as :pause")
        return "stay"
    elif name == "pause":
        return "pause"
    return "show"


def _draw(session: Session, view: _View, shown: Prompt, name: str, print_line: Print) -> None:
    """Print the step's drawing with the leaf closed, or the plan with it swung one step further."""
    of = shown.draws or drawn(session.state, PLAN)
    if of.door is None:
        raise Refused(TOO_LITTLE)
    from guide.drawing.for_step import drawing_for

    way = SWINGS.get(name, 0)
    view.angle = swung(of.door, view.angle, way) if way else 0.0
    made = drawing_for(
        of.door,
        DRAWN_COLUMNS,
        DRAWN_ROWS,
        angle=view.angle,
        view=PLAN if way else of.view,
        swinging=bool(way),
        ascii_only=view.ascii_only,
    )
    for line in made.lines or wrapped(made.says):
        print_line(line)
