"""The replies of a talk, and its memory of one step."""

from dataclasses import dataclass, field

from guide.procedure.facts import Value
from guide.run.listening import Takes
from guide.run.outcomes import Outcome
from guide.run.replies import Draft
from guide.words.spoken import Grammar


@dataclass(frozen=True, slots=True)
class Asked:
    """The grammar to listen for now, and whether a meaning is possible."""

    grammar: Grammar
    takes: Takes
    """Why a meaning is impossible here, in one sentence; empty if it is possible."""
    turn: object
    """To be given to `heard` with what was heard, so that it counts nowhere but where it was asked for."""


@dataclass(frozen=True, slots=True)
class Reply:
    """The reply to something that was heard."""

    say: str = ""
    """What to say aloud now."""
    show: str = ""
    """What became of it, in one line."""
    command: str = ""
    """The command that was heard, by its name in the lexicon; empty for an answer."""
    sent: tuple[str, ...] = ()
    """The kinds of the events that were accepted, in order."""
    refused: bool = False
    """Whether `show` says why it does not count."""
    outcome: Outcome | None = None
    """The outcome at the desk, for the front end to render."""
    enters: bool = False
    """Whether the front end must enter the text of its line."""
    hushes: bool = False
    """Whether what is being said aloud must end."""


@dataclass(frozen=True, slots=True)
class Question:
    """Something that waits for a yes and is not a pending value: a guess at a value, or an event."""

    asks: str
    guess: Value | None = None
    draft: Draft | None = None
    ends: bool = False
    """Whether a yes ends the job, which is then the desk's question."""

    @property
    def offers(self) -> bool:
        """Whether a value is offered, so that another may be said in its place."""
        return self.draft is None and not self.ends


@dataclass(slots=True)
class Here:
    """The memory of one step, dropped at the next."""

    place: object
    misses: int = 0
    by_keys: bool = False
    digits: bool = False
    denied: list[Value] = field(default_factory=list)
    question: Question | None = None
    read_out: Draft | None = None
    """The event that passes the hold, with the values that were given out to be said."""
    told_loud: bool = False


def refusal(told: str) -> Reply:
    """A refusal, said and shown."""
    return Reply(told, told, refused=True)
