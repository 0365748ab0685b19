"""A prompt as the texts of its card: what to do, the lines that belong to it, and the long words."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from guide.run.desk import Desk
from guide.run.desk_words import IS_IT_SAFE, KEYS, YES_ENDS
from guide.run.making_safe import to_make_safe
from guide.run.overview import done_steps, known
from guide.run.pages.page import Page
from guide.run.prompt import (
    FROM_THE_SCHEDULE,
    CardLine,
    Prompt,
    photo_in_words,
    suggestion_in_words,
)
from guide.run.state import State
from guide.screens.words_shown import Piece, in_lines
from guide.translation import _
from guide.words.commands import ANSWERS, COMMANDS, PAGES, VOICE, Command, by_name

if TYPE_CHECKING:
    from guide.drawing.plot import Plot

_HEAD = 32
"""The most characters of what a line of a page is about."""
PLOT_COLUMNS, PLOT_ROWS = 66, 11
"""The most columns of a plot, and the rows of one among words."""
_MORE_KEYS = (
    ("1-9", _("Pick the answer of that number")),
    ("↑ ↓", _("Highlight an answer, or change the measure by one step")),
    ("Space", _("The rest of a long step; the stopwatch at a timed one")),
    ("Page Up, Page Down", _("The rest of a long step")),
    ("← →", _("In the drawing: swing the leaf")),
    ("Tab", _("From typing to the keys, and back")),
    ("Ctrl+Q", _("Pause the job and close; nothing is lost")),
)


def looking_words(desk: Desk) -> str:
    """What becomes of an answer while an earlier step is looked at; nothing at the job's own step."""
    if desk.at is None:
        return ""
    return _("Changing this answer.") if desk.changing else _("Looking back; nothing changes.")


def passed_words(shown: Prompt, detail: str) -> list[Piece]:
    """What was computed since the step before."""
    said = [one.say if detail == "spoken" else one.text for one in shown.passed]
    return ["\n".join(said)] if said else []


def action_words(shown: Prompt, detail: str) -> list[Piece]:
    """The one thing to do."""
    if shown.together(detail):
        pieces: list[Piece] = [(shown.card, "$secondary")]
        for line in shown.card_lines:
            pieces += _card_line(line)
        if shown.asked:
            pieces.append((f"\n{shown.text}", "bold"))
        if shown.card == FROM_THE_SCHEDULE:
            pieces.append("\n" + suggestion_in_words(shown.accepts, as_card=True))
        return pieces
    spoken = detail == "spoken" and shown.say and not shown.view
    return [(shown.say if spoken else shown.text, "bold")]


def _card_line(line: CardLine) -> list[Piece]:
    """A step is bold, and of a question its answer."""
    if not line.question:
        return [(f"\n- {line.text}", "bold")]
    answered = f"{line.question} {line.answer}"
    rest = line.text[len(answered) :]
    return [
        (f"\n- {line.question} ", "not bold"),
        (line.answer, "bold"),
        (rest, "not bold $secondary"),
    ]


def cautions_of(shown: Prompt, detail: str) -> list[tuple[str, str]]:
    """What is warned of: by what was computed, and by the step or its card."""
    own = shown.card_cautions if shown.together(detail) else shown.cautions
    found = [caution for passed in shown.passed for caution in passed.cautions]
    return list(dict.fromkeys([*found, *own]))


def line_words(shown: Prompt, detail: str) -> list[Piece]:
    """What the step lists: the limit, holes, what must be safe, and what an end offers."""
    lines = [_("Limit: {limit}.").format(limit=shown.limit)] if shown.limit else []
    holes = [] if shown.together(detail) else shown.holes  # on a card they stand beneath their step
    lines += [f"- {one.text}" if one.name else one.text for one in holes]
    lines += [f"- {one}" for one in shown.safe]
    lines += shown.readings
    lines += shown.kit
    lines += [photo] if (photo := photo_in_words(shown, by_name("photo").key_shown)) else []
    if shown.next_title and not shown.view:
        ends = _("ends this job and begins") if shown.kind == "end" else "begins"
        lines.append(f"J {ends}: {shown.next_title}")
    if shown.again:
        lines.append(_("A goes on with this job, with what has changed."))
    if shown.view and shown.answer:
        lines.append(_("Answered: {answer}.").format(answer=shown.answer))
    return ["\n".join(lines)] if lines else []


def wanted_words(shown: Prompt, detail: str) -> list[Piece]:
    """Which values are accepted, and what the schedule or the sheet says."""
    accepts = shown.accepts
    rows: list[list[Piece]] = []
    if accepts.wanted and accepts.kind in ("measure", "count", "text", "values"):
        unsure = _(" U: I don't know.") if accepts.choices else ""
        rows.append([f"{accepts.wanted[:1].upper()}{accepts.wanted[1:]}.{unsure}"])
    of_card = shown.together(detail) and shown.card == FROM_THE_SCHEDULE
    if accepts.suggestion and not shown.view and not of_card:
        rows.append([(suggestion_in_words(accepts, as_card=False), "bold")])
    return in_lines(rows)


def long_words(shown: Prompt) -> list[Piece]:
    """Why, what to watch for and the rest; the working of what was computed first."""
    working = [line for passed in shown.passed for line in passed.working] + shown.working
    headed = (
        (_("Right when"), shown.looks_right),
        (_("Watch for"), shown.watch),
        (_("Why"), shown.why),
        (_("To find out"), shown.find_out),
        (_("Tools"), ", ".join(shown.tools)),
        (_("Parts"), ", ".join(shown.parts)),
        (_("About"), _("{minutes} min").format(minutes=shown.minutes) if shown.minutes else ""),
    )
    rows: list[list[Piece]] = [[line] for line in working]
    rows += [[(f"{heading}: ", "bold"), text] for heading, text in headed if text]
    return in_lines([*rows, [shown.drawing_says]] if shown.drawing_says else rows)


def known_answers(state: State) -> list[str]:
    """Every answer that can be gone back to, as question and value."""
    return [f"{fact.question} {fact.value}" for fact in known(state)]


def done_words(state: State) -> list[Piece]:
    """The steps that were done, in their short words."""
    steps: list[list[Piece]] = [[f"- {said}"] for said in done_steps(state)]
    return in_lines([[(_("Done"), "bold $secondary")], *steps]) if steps else []


def ending_words(state: State) -> list[Piece]:
    """What must be safe before a yes ends the job, one a line."""
    lines = "\n".join(f"- {one}" for one in to_make_safe(state))
    return [(IS_IT_SAFE, "bold"), (f"\n{lines}\n", "not bold"), (KEYS.tell(YES_ENDS), "bold")]


def page_words(page: Page, columns: int, *, ascii_only: bool) -> list[Piece]:
    """A page that is looked up, its plots so many columns wide."""
    rows: list[list[Piece]] = [[(page.title, "bold $secondary")]]
    for number, section in enumerate(page.sections):
        rows += [[]] if number else []
        plot = plot_rows(section.plot, columns, ascii_only=ascii_only)
        rows += [[(row, "$primary")] for row in plot]
        rows += [[(section.heading, "bold")]] if section.heading and not plot else []
        rows += [["- ", *_line(line)] for line in section.lines]
    return in_lines(rows)


def _line(line: str) -> list[Piece]:
    """A line of a page, what it is about in bold where a colon says so."""
    head, colon, rest = line.partition(": ")
    return [(head + colon, "bold"), rest] if colon and len(head) <= _HEAD else [line]


def plot_rows(plot: "Plot | None", columns: int, *, ascii_only: bool) -> list[str]:
    """A plot among words; no rows for none, or where there is too little room."""
    if plot is None:
        return []
    from guide.drawing.plot import text_plot  # few pages have one

    return text_plot(plot, min(columns, PLOT_COLUMNS), PLOT_ROWS, ascii_only=ascii_only)


def help_words(*, voice: bool = False) -> list[Piece]:
    """What each key does, with the word that means the same; with `voice`, what only a voice needs too."""
    rows: list[list[Piece]] = [[(_("Keys and words"), "bold $secondary")]]
    rows.append([_("In quotation marks: the word for the voice, or to type line by line.")])
    rows += _commands((*COMMANDS, *PAGES, *ANSWERS))
    if voice:
        rows.append([(_("By voice"), "bold $secondary")])
        rows += _commands(VOICE)
        rows.append([_("Any key ends what is being said.")])
    rows.append([(_("Keys without a word"), "bold $secondary")])
    rows += key_rows(_MORE_KEYS)
    return in_lines(rows)


def key_rows(keys: Iterable[tuple[str, str]]) -> list[list[Piece]]:
    """Each key with what it does."""
    return [[(f"{key:<6}  ", "bold"), meaning] for key, meaning in keys]


def _commands(commands: Iterable[Command]) -> list[list[Piece]]:
    return key_rows((one.key_shown, f"“{one.word}”: {one.meaning}") for one in commands)
