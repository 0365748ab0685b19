"""The read-eval-print loop of a run: print what the desk shows, read a line, give it to the desk, print the outcome."""

from collections.abc import Callable

from guide.plain.line_words import NoCommand, meant
from guide.plain.render import page_lines, rendered, wrapped
from guide.run.desk import Desk
from guide.run.desk_words import LINES, NOTED
from guide.run.outcomes import (
    DETAIL,
    DRAWING,
    HELP,
    KNOWN,
    PAGE,
    PAPERS,
    WATCH,
    WHY,
    Asks,
    Look,
    Notice,
    Outcome,
    Refusal,
    Sent,
)
from guide.run.overview import done_steps, known
from guide.run.state import ENDED, State
from guide.text import printable
from guide.translation import _
from guide.words import ANSWERS, COMMANDS, PAGES, by_name

ReadLine = Callable[[], str | None]
"""The next line without its end; None when there are no more."""
Print = Callable[[str], None]
KeepDetail = Callable[[str], str]
"""Keeps the level of detail; gives a sentence if it could not."""
DRAWN_COLUMNS, DRAWN_ROWS = 70, 20
"""The room of a drawing."""
NO_WATCH = _("There is no stopwatch line by line; type the seconds it took.")


def run_plain(
    desk: Desk,
    read_line: ReadLine,
    print_line: Print,
    *,
    ascii_only: bool = False,
    keep_detail: KeepDetail | None = None,
    forget_typed: Callable[[], None] | None = None,
) -> None:
    """Carry a run on until it ends, is paused, or the lines run out. `ascii_only` is for drawings;
    `keep_detail` keeps another level of detail for the runs to come; `forget_typed` throws away what was typed
    before a hold or a cut was shown.

    Raises JournalError if an answer cannot be kept; everything acknowledged before is on disk.
    """
    lines = _Lines(desk, lambda line: print_line(printable(line)), ascii_only, keep_detail)
    lines.step()
    shown: State | None = None
    while not _over(desk):
        if forget_typed is not None and shown is not desk.session.state and desk.read_first:
            forget_typed()
        shown = desk.session.state
        line = read_line()
        if line is None:
            desk.command(_PAUSE)
        else:
            lines.take(_given(desk, line))
        if desk.left:
            if desk.session.state.status != ENDED:
                print_line(_("Paused. The job is kept; “hingeside” goes on with it."))
            return
    for end in wrapped(desk.shown.text):
        print_line(end)


def _over(desk: Desk) -> bool:
    """Whether the job has ended and nothing is offered after it."""
    offers = desk.shown.next_title or desk.shown.again
    return desk.session.state.status == ENDED and not offers


_PAUSE = by_name("pause").name


def _given(desk: Desk, line: str) -> Outcome:
    """The outcome of a line at the desk."""
    try:
        command, words = meant(desk, line)
    except NoCommand as error:
        return Refusal(str(error))
    return desk.command(command, words, LINES) if command else desk.enter(words, LINES)


class _Lines:
    """Prints the outcome of a line."""

    def __init__(
        self, desk: Desk, print_line: Print, ascii_only: bool, keep_detail: KeepDetail | None
    ) -> None:
        self.desk = desk
        self.print_line = print_line
        self.ascii_only = ascii_only
        self.keep_detail = keep_detail

    def step(self, *, why: bool = False) -> None:
        """What is looked at, or where the run is."""
        for part in rendered(self.desk.shown, self.desk.accepts, self.desk.detail, why=why):
            self.print_line(part)

    def take(self, outcome: Outcome) -> None:
        """Print the outcome of a line."""
        match outcome:
            case Refusal(told):
                self.print_line(f"! {told}")
            case Notice(what, told):
                self._say(told)
                _SHOWS[what](self)
            case Sent(_, told) | Look(told) | Asks(_, told):
                self._say(told)
                done = self.desk.left or _over(self.desk)
                if not (done or told == NOTED or isinstance(outcome, Asks)):
                    self.step()

    def _say(self, told: str) -> None:
        for line in wrapped(told) if told else ():
            self.print_line(line)

    def why(self) -> None:
        """The step with its long words."""
        self.step(why=True)

    def detail(self) -> None:
        """Keep the level of detail, and show the step at it."""
        trouble = self.keep_detail(self.desk.detail) if self.keep_detail else ""
        self._say(trouble)
        self.step()

    def known(self) -> None:
        """What is known and what was done."""
        state = self.desk.session.state
        for fact in known(state):
            self.print_line(f"  {fact.question} {fact.value}   ({fact.at})")
        for said in done_steps(state):
            for line in wrapped(_("Done: {step}").format(step=said), "  "):
                self.print_line(line)

    def help(self) -> None:
        """Every word that may be typed."""
        listed = (*COMMANDS, *PAGES, *ANSWERS[:2])
        width = max(len(command.word) for command in listed)
        for command in listed:
            self.print_line(f"  {command.word:<{width}}  {command.meaning}")
        told = _("If words are asked for, put a colon before a command, such as :pause")
        self.print_line(f"  {told}")

    def page(self) -> None:
        """What was looked up."""
        looked_up = self.desk.page
        assert looked_up is not None  # the desk has just made it
        for line in page_lines(looked_up, ascii_only=self.ascii_only):
            self.print_line(line)

    def watch(self) -> None:
        """There is none."""
        self.print_line(f"! {NO_WATCH}")

    def papers(self) -> None:
        """Write record and template, and say where."""
        from guide.papers.papers_folder import put_papers

        self._say(" ".join(put_papers(self.desk.session)))

    def draw(self) -> None:
        """What the desk draws."""
        opening = self.desk.drawing
        assert opening is not None  # the desk has just drawn it
        made = opening.drawing_in(DRAWN_COLUMNS, DRAWN_ROWS, ascii_only=self.ascii_only)
        for line in made.lines or wrapped(made.says):
            self.print_line(line)


_SHOWS: dict[str, Callable[[_Lines], None]] = {
    WHY: _Lines.why,
    DETAIL: _Lines.detail,
    KNOWN: _Lines.known,
    HELP: _Lines.help,
    WATCH: _Lines.watch,
    DRAWING: _Lines.draw,
    PAPERS: _Lines.papers,
    PAGE: _Lines.page,
}
