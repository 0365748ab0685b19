"""A person who speaks to a run, without any sound: words go through the grammar of the moment into the talk."""

from guide.procedure.facts import Value
from guide.run.desk import Desk
from guide.run.events import Event
from guide.run.session import Session
from guide.run.state import label
from guide.run.talk import Reply, Talk
from tests.run.small_procedures import begin, give


class Voice:
    """Somebody on the ladder at one of the small procedures, or at a session of another, after some lines given by
    keys."""

    def __init__(
        self, of: str | Session, *lines: str, supplied: dict[str, Value] | None = None
    ) -> None:
        self.session = begin(of, supplied) if isinstance(of, str) else of
        give(self.session, *lines)
        self.talk = Talk(Desk(self.session))
        self.opening = self.talk.say_step()

    def say(self, *sayings: str, confidence: float = 0.9) -> Reply:
        """Say one thing after the other; the reply to the last."""
        reply = Reply()
        for words in sayings:
            asked = self.talk.asked()
            understood = asked.grammar.parse(words)
            if understood.meaning is None:
                reply = self.talk.missed("nothing", understood.told)
            elif refusal := asked.takes(understood.meaning):
                reply = self.talk.missed("impossible", refusal)
            else:
                reply = self.talk.heard(understood.meaning, words, confidence, asked.turn)
        return reply

    def understands(self, words: str) -> bool:
        """Whether some words are listened for now."""
        return self.talk.asked().grammar.parse(words).meaning is not None

    @property
    def stands(self) -> str:
        """The block the run stands at."""
        return label(self.session.state.graph, self.session.state.at)

    @property
    def events(self) -> list[Event]:
        """What is in the journal."""
        return self.session.journal.events()

    @property
    def kinds(self) -> list[str]:
        """Kinds of the events after the start, computations left out."""
        return [one.kind for one in self.events[1:] if one.kind != "worked"]
