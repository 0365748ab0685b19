"""A voice that hears what a test says into it, and remembers what it was told to say."""

from fractions import Fraction

from guide.measures import Quantity
from guide.run.listening import SpeechListener, Takes
from guide.words.spoken import Grammar, Meaning

NOT_CAUGHT = "That was not caught; say it again, or use the keys."


class SaidVoice:
    """Takes words as a good recogniser would give them: by the grammar of the step, whole meanings only."""

    def __init__(self, *, broken: str = "") -> None:
        """`broken` is why it cannot listen."""
        self.broken = broken
        self.level = 0.0
        self.speaking = False
        self.silent = self.deaf = ""
        self.said: list[str] = []
        self.hushed = 0
        self.closed_ear = False
        self.closed = False
        self.starts = 0
        self.grammar: Grammar | None = None
        self.takes: Takes = lambda _: ""
        self.turn: object = None
        self.hears: SpeechListener | None = None

    def start(self, hears: SpeechListener) -> None:
        self.hears = hears
        self.starts += 1
        if self.broken:
            hears.trouble(self.broken)
        else:
            hears.ready()

    def listen_for(self, grammar: Grammar, takes: Takes, turn: object) -> None:
        self.grammar, self.takes, self.turn = grammar, takes, turn

    def shut(self, closed: bool) -> None:
        self.closed_ear = closed

    def say(self, text: str) -> None:
        self.said.append(text)

    def hush(self) -> None:
        self.hushed += 1
        self.speaking = False

    def close(self) -> None:
        self.closed = True

    def hear(self, words: str, confidence: float = 0.3) -> None:
        """Somebody says these words; `confidence` is the ear's belief in what it does not understand."""
        assert self.hears is not None
        assert self.grammar is not None
        if self.closed_ear:
            return
        self.hears.begins()
        understood = self.grammar.parse(words)
        if understood.meaning is None:
            self.hears.missed("nothing", NOT_CAUGHT, confidence)
        elif refusal := self.takes(understood.meaning):
            self.hears.missed("impossible", refusal, 0.9)
        else:
            self.hears.heard(understood.meaning, understood.words, 0.9, self.turn)

    def hear_late(self, turn: object) -> None:
        """A width that was said for a step that is gone."""
        assert self.hears is not None
        meaning = Meaning("measure", Quantity(Fraction(36), "in"))
        self.hears.heard(meaning, "thirty six inches", 0.9, turn)
