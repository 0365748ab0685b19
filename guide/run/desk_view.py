"""What is looked at and what is being entered at the desk of a run: what the commands read and change."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guide.procedure.facts import UNSURE, Value, WrongAnswer, bare
from guide.run import desk_words, replies
from guide.run.desk_words import Way
from guide.run.outcomes import SAFE, Asks, Look, Sent
from guide.run.pages.page import Page
from guide.run.prompt import Accepts, Prompt, gives_away, prompt
from guide.run.question_card import ALL, SINGLY, picked_on, questions_of, shown_at, texts_for
from guide.run.replies import Draft
from guide.run.session import Session
from guide.run.settings import DETAILS
from guide.run.state import Occurrence, label, occurrence_of
from guide.run.step_drawing import DrawnOpening

if TYPE_CHECKING:
    from guide.run.photos import CleanPhoto

_LOOKED_AT = Accepts("nothing")
_READ_FIRST = ("hold", "begin", "report", "resolve")


class DeskView:
    """One run as the person sees it: the place looked at, and what is being entered."""

    def __init__(self, session: Session, detail: str = "full") -> None:
        self.session = session
        self.detail = detail
        self.changing = False
        """Whether the answer looked at is being changed."""
        self.purpose = ""
        """NOTE, SAFE, RESOLVE, TAKE_UP, PHOTO or SHOWS while words are wanted for it."""
        self.how = ""
        """With RESOLVE: what became of the cut."""
        self.reason = ""
        """With SAFE: the reason, once it was given and only a yes is wanted."""
        self.photo: CleanPhoto | None = None
        """With SHOWS: the photo that is to be added."""
        self.offered: list[Path] = []
        """With PHOTO: the files that a number picks."""
        self.over = ""
        """HELP, KNOWN, DRAWING or PAGE while it is shown in the place of the step."""
        self.drawing: DrawnOpening | None = None
        """With DRAWING: what is drawn."""
        self.page: Page | None = None
        """With PAGE: what is looked up."""
        self.supposed: dict[str, Value] = {}
        """An answer that is only marked, for the drawing."""
        self.left = False
        """Whether the job was paused, or its end was seen."""
        self.onward = ""
        """Once left: the procedure to begin at the same door; empty if none is wanted."""
        self.aloud = False
        """Whether steps are said aloud, and so are done and answered one at a time."""
        self._at: Occurrence | None = None
        self._looked_from: Occurrence | None = None
        self._singly: frozenset[str] = frozenset()
        """Where the questions of a card are asked one by one."""
        self._of: tuple[object, ...] = (None,)
        self._alone = self._shown = prompt(session.state)

    # What is before the person

    @property
    def at(self) -> Occurrence | None:
        """The earlier block that is looked at; None at the run's own place."""
        at = self._at
        return at if at is not None and at in self.session.state.path else None

    @property
    def cards(self) -> bool:
        """Whether the steps of a card are shown together, and so are done together."""
        return self.detail == DETAILS[1]

    @property
    def ending(self) -> bool:
        """Whether only a yes is wanted to make the job safe and end it."""
        return self.purpose == SAFE and bool(self.reason)

    @property
    def read_first(self) -> bool:
        """Whether a hold or a cut is before the person: what was typed before it was shown is not meant for it."""
        cutting = self.session.state.open_cut() is not None
        return cutting or self.accepts.kind in _READ_FIRST

    @property
    def shown(self) -> Prompt:
        """The occurrence looked at, else that of the run."""
        state, at = self.session.state, self.at
        detail = DETAILS[-1] if self.aloud or at is not None else self.detail
        of = (state, at, detail, self._singly)
        if self._of[0] is not state or self._of[1:] != of[1:]:
            if self._of[0] is not state or self._of[1] != at:
                self._alone = prompt(state, at)
            self._of = of
            self._shown = shown_at(state, self._alone, detail, self._singly)
        return self._shown

    @property
    def closes_card(self) -> bool:
        """Whether the question shown has the steps of its card above it, which its answer says are done."""
        return self.shown.at != self._alone.at

    @property
    def together(self) -> bool:
        """Whether several questions are shown, which one answer answers."""
        return bool(self.shown.asked)

    @property
    def looked(self) -> bool:
        """Whether an answer given now is not blind: what its question hides was looked at since the run came to it,
        or an earlier answer is being changed."""
        return self.at is not None or self._looked_from == self.session.state.at

    @property
    def accepts(self) -> Accepts:
        """The answers accepted now: none while an earlier block is only looked at."""
        return self.shown.accepts if self.at is None or self.changing else _LOOKED_AT

    def look(self, at: Occurrence | None, *, changing: bool = False) -> Look:
        """Look at a block, or where the run is."""
        state = self.session.state
        self._at = at if at in state.path and at != state.at else None
        if self._at is not None and gives_away(state, self._at):
            self._looked_from = state.at
        self.changing = changing and self.at is not None
        self.leave_words()
        self.over = ""
        return Look()

    def send(self, draft: Draft, told: str = "") -> Sent:
        """Send one event; the run is shown where it is then.

        Raises Refused if the run does not accept it and JournalError if it cannot be kept.
        """
        self.session.send(draft)
        self.look(None)
        return Sent((draft[0],), told)

    def leave_words(self) -> None:
        """Want no words any more."""
        self.purpose = self.how = self.reason = ""
        self.supposed = {}
        self.photo, self.offered = None, []

    def not_here(self, name: str, by: Way) -> str:
        """Why a command is not accepted, and what would be."""
        instead = by.instead(self.accepts)
        return by.tell(desk_words.NOT_HERE, name=by.names.get(name, name), instead=instead)

    def wants(self, purpose: str, told: str) -> Asks:
        """Want words for a purpose."""
        self.purpose, self.reason = purpose, ""
        return Asks(purpose, told)

    def answer(self, text: str, swings: Mapping[str, Any] | None = None) -> Sent:
        """Answer what is asked, or what is being changed. Raises WrongAnswer and Refused."""
        if self.together:
            return self._answer_together(text)
        accepts, at = self.accepts, self.at
        last = accepts.choices[-1].value if accepts.kind == "choice" else ""
        if last == UNSURE and text.strip() == str(len(accepts.choices)):
            text = UNSURE  # a fact knows only the numbers of its own answers
        steps = self.shown.card_lines[:-1] if self.closes_card else []
        if steps:
            at = occurrence_of(self.session.state.graph, self.shown.at)
        draft = replies.answer(self.session.state, text, at, swings=swings, looked=self.looked)
        self._steps_done(step.at for step in steps)
        changed = desk_words.CHANGED if draft[0] == "revised" else ""
        unit = self._unit_added(text, draft) if accepts.kind == "measure" else ""
        return self.send(draft, " ".join(filter(None, (changed, unit))))

    def _answer_together(self, text: str) -> Sent:
        """Answer every question of the card, each by an event of its own; what is not as expected is read back, and
        what follows on the card is asked again."""
        card, session = self.shown, self.session
        picked = picked_on(card, text)
        if picked == SINGLY:
            self._singly = frozenset(card.asked)
            self.look(None)
            return Sent(())
        if card.accepts.kind == "choice" and picked != ALL:
            raise WrongAnswer(card.text)
        found, looked = questions_of(session.state, card, self.detail), self.looked
        texts = texts_for(found, text, session.state.units)
        lines = [line.at for line in card.card_lines]
        self._steps_done(lines[: lines.index(card.asked[0])])
        kinds: tuple[str, ...] = ()
        for one, said in zip(found, texts, strict=True):
            state = session.state
            if state.at != one.at or state.pending is not None:
                break
            draft = replies.answer(state, said, looked=looked, together=True)
            session.send(draft)
            kinds += (draft[0],)
        self.look(None)
        return Sent(kinds)

    def _steps_done(self, places: Iterable[str]) -> None:
        for place in places:
            if label(self.session.state.graph, self.session.state.at) == place:
                self.session.send(replies.done(self.session.state))

    def _unit_added(self, text: str, draft: Draft) -> str:
        """The value with the unit it was given, where a number was typed without one."""
        if draft[0] == "heard" or not text.strip() or not bare(text):
            return ""
        return desk_words.ACCEPTED_AS.format(value=draft[1]["value"])
