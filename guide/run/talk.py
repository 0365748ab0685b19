"""One run by voice: what was heard becomes events, sayings and commands. It makes no sound and hears none.

Harmless commands act at once. A measure or a choice that was heard is read back and counts after a yes; where
the work cuts, and at a hold, a lone yes is not enough. After three misses in one step the keys take over, until
the next step or until “listen” is said. The rules themselves are those of `step`; nothing here passes them by.
"""

from guide.procedure.facts import Fact, Value, WrongAnswer, writing
from guide.run import replies
from guide.run.aloud import step_aloud, value_aloud, why_aloud
from guide.run.asked import grammar_of_fact, offered, takes
from guide.run.guesses import likely_meant
from guide.run.journal import JournalError
from guide.run.prompt import Accepts, Prompt, prompt, suggested
from guide.run.replies import Draft
from guide.run.session import Session
from guide.run.state import ENDED, Occurrence, label
from guide.run.step import Refused
from guide.run.talk_commands import CARRIED_OUT, HARMLESS, commands_at
from guide.run.talk_reply import Asked, Here, Question, Reply, refusal
from guide.words import DECLINED, by_name
from guide.words.spoken import Grammar, Meaning, Offered, grammar_for, language

__all__ = ["Asked", "Reply", "Talk"]

MOST_MISSES = 3
"""Misses in one step before the keys take over."""
SAID_WHY = "said by voice"
"""The reason for making safe where it was said; a note says more."""
USE_KEYS = "I do not hear it. Use the keys for this one; say “listen” to go on by voice."
BY_KEYS = "Use the keys for this one, or say “listen” first."
LONGER_WORDS = f"That was not caught; say “{by_name('yes').also[0]}” or “{by_name('no').also[0]}”."
"""Told where yes or no was not caught: one short word gives an ear little to go by."""
NO_LONE_YES = {
    "hold": f"Yes alone does not pass a hold; say “{by_name('hold').word}”.",
    "begin": f"This cannot be undone; say “{by_name('cut').word}” when you begin.",
}
_DECLINED = {one.name: one.says for one in DECLINED}
_ASKING = ("choice", "measure", "count")


class Talk:
    """The voice's side of one run: a front end asks `asked` what to listen for, and hands in what was heard."""

    def __init__(self, session: Session, in_language: str = "english") -> None:
        self.session = session
        self.deaf = False
        """Whether only “listen” is heard."""
        self.at: Occurrence | None = None
        """The earlier block that the front end shows; None where the run stands."""
        self.changing = False
        """Whether its answer is being given anew."""
        self.entered = False
        """Whether something stands on the front end's line, typed or timed, so that “next” enters it."""
        self.cards = False
        """Whether the steps of a card are shown together, and so are done together."""
        self.drawn = False
        """Whether a leaf is drawn that can be swung."""
        self._language = language(in_language)
        self._here = Here(self._place())

    # What the front end asks and tells

    @property
    def by_keys(self) -> bool:
        """Whether the keys have taken over in this step."""
        return self._meet().by_keys

    @property
    def wants_digits(self) -> bool:
        """Whether the value is asked for digit by digit."""
        return self._meet().digits

    @property
    def offered(self) -> Value | None:
        """The value that a yes takes: a guess, or what the schedule or the sheet says."""
        question = self._question()
        return question.guess if question is not None else None

    def asked(self) -> Asked:
        """What may be said now: to be asked again after every reply, key, or look elsewhere."""
        here, made = self._meet(), self._prompt()
        kind, question = made.accepts.kind, self._question()
        if self.deaf:
            return self._asked(self._grammar(("listen",)))
        names = commands_at(
            "" if question and question.draft else kind,
            looking=self.at is not None,
            changing=self.changing,
            question=question is not None,
            by_keys=here.by_keys,
            timed=made.accepts.measure == "time",
            drawn=self.drawn or made.draws is not None,
        )
        if here.by_keys or (question and question.draft):
            return self._asked(self._grammar(names))
        fact, system = self._fact(made.accepts), self.session.state.units
        if fact is not None:
            grammar = grammar_of_fact(
                fact, system, names, in_language=self._language.name, digits=here.digits
            )
            return Asked(grammar, takes(fact, system), self._turn())
        picks = made.accepts.choices if kind == "report" else ()
        drilled = tuple(Offered(choice.value, (choice.say, choice.text)) for choice in picks)
        return self._asked(self._grammar(names, drilled))

    def say_step(self) -> str:
        """The short words of what is shown: to be said when it is first shown, and on “repeat”.

        At a hold every value is among them, and only then does its phrase pass it. A value of the schedule or
        the sheet is among them as a question.
        """
        here, made = self._meet(), self._prompt()
        said = step_aloud(self.session.state, made, self._language)
        if made.kind == "hold" and not made.view:
            here.read_out = replies.pass_hold(self.session.state)
        if here.question is None and not here.denied:
            here.question = self._suggestion(made)
        question = self._question()
        return f"{said} {question.asks}" if question else said

    def say_why(self) -> str:
        """The long words of what is shown: the whole text, why, what to watch for, what it looks like when right."""
        return why_aloud(self.session.state, self._prompt(), self._language)

    def look(self, at: Occurrence | None, changing: bool = False) -> None:
        """The front end shows an earlier block, or asks for its answer anew."""
        self.at, self.changing = at, changing

    def keyed(self) -> None:
        """A key did something: what was missed or asked by voice in this step is forgotten."""
        self._here = Here(self._place(), read_out=self._here.read_out)

    def heard(
        self, meaning: Meaning, words: str, confidence: float, turn: object | None = None
    ) -> Reply:
        """Take something that was heard, surely enough for the ear.

        `turn` is that of the `asked` which was listened for: where the run has gone on since, only what changes
        nothing is still taken.
        """
        self._meet()
        command = str(meaning.value) if meaning.kind == "command" else ""
        if self.deaf and command != "listen":
            return Reply()
        if turn is not None and turn != self._turn() and command not in HARMLESS:
            return refusal(f"“{words}” came too late; say it again.")
        waiting = self._question() is not None or self.session.state.pending is not None
        if waiting and meaning.kind == "choice" and meaning.value in ("yes", "no"):
            command = str(meaning.value)
        try:
            if command:
                return self._command(command, words, confidence)
            return self._value(meaning, words, confidence)
        except (Refused, WrongAnswer, JournalError) as error:
            return refusal(str(error))

    def missed(self, why: str, told: str) -> Reply:
        """Take that something was said and does not count: `why` and `told` as the ear gives them."""
        here = self._meet()
        if self.deaf or here.by_keys:
            return Reply()
        if why == "loud":
            first, here.told_loud = not here.told_loud, True
            return Reply(say=told if first else "", show=told, refused=True)
        if self._question() is not None or self.session.state.pending is not None:
            told = LONGER_WORDS
        return self._miss() or refusal(told)

    # Values

    def _value(self, meaning: Meaning, words: str, confidence: float) -> Reply:
        here, accepts = self._here, self._prompt().accepts
        if here.by_keys:
            return refusal(BY_KEYS)
        if here.question and here.question.draft:
            return refusal(here.question.asks)
        text = str(meaning.value)
        if accepts.kind == "report":
            told = next(choice.text for choice in accepts.choices if choice.value == text)
            draft = replies.report(self.session.state, text)
            return self._ask(Question(f"{told}: yes or no?", draft=draft))
        if self._fact(accepts) is None:
            raise Refused("Nothing is asked here.")
        here.question = None
        self._send(self._answer(text, words, confidence))
        return self._read_back(words)

    def _answer(self, text: str, words: str, confidence: float) -> Draft:
        at = self.at if self.changing else None
        return replies.answer(
            self.session.state, text, at, heard=True, words=words, confidence=confidence
        )

    def _read_back(self, words: str) -> Reply:
        pending = self.session.state.pending
        assert pending is not None  # what is heard always waits
        shown = self._shown(pending.at, pending.value)
        return Reply(self.say_step(), f"“{words}”: {shown}. Say yes or no.", sent=("heard",))

    def _suggestion(self, made: Prompt) -> Question | None:
        """What the schedule or the sheet says, as a question; none where yes is an answer of its own."""
        fact = self._fact(made.accepts)
        if fact is None or self.at is not None or not made.accepts.suggestion:
            return None
        value, by = suggested(self.session.state, fact, self.session.state.at)
        if value is None or any("yes" in one.says for one in offered(fact)):
            return None
        said = value_aloud(fact, value, self._language)
        return Question(f"By {by}: {said}. Is that right?", guess=value)

    # Commands

    def _command(self, name: str, words: str, confidence: float) -> Reply:
        if name in _DECLINED:
            return Reply(_DECLINED[name], _DECLINED[name], refused=True)
        if name in CARRIED_OUT:
            return self._carried_out(name)
        if name == "listen":
            self.deaf = False
            self.keyed()
            return Reply(self.say_step(), "Listening.", command=name)
        if name == "deaf":
            self.deaf = True
            return Reply("I listen no longer.", "Not listening; say “listen”, or press V.", name)
        if name == "cancel":
            return self._cancel()
        if name == "safe":
            return self._make_safe()
        if name in ("yes", "no") and self._question() is not None:
            return self._settle(name == "yes", words, confidence)
        if self._here.by_keys:
            return refusal(BY_KEYS)
        if self.at is not None and not self.changing and name == "done":
            return Reply(command=name)
        if name in ("yes", "no") and self.session.state.pending is not None:
            return self._confirm(name == "yes", words)
        return self._at_step(name, words, confidence)

    def _carried_out(self, name: str) -> Reply:
        if name == "repeat":
            return Reply(self.say_step(), command=name)
        if name == "why":
            return Reply(self.say_why(), command=name)
        if name == "note":
            return Reply("A note is written with the keys.", "Write the note, then Enter.", name)
        if name == "hush":
            return Reply(show="Quiet. To stop the work, say “make it safe”.", command=name)
        return Reply(command=name)

    def _at_step(self, name: str, words: str, confidence: float) -> Reply:
        """What goes on with the run, where nothing waits for a yes."""
        made = self._prompt()
        kind, state = made.accepts.kind, self.session.state
        if name == "done":
            return self._next(made, words, confidence)
        if kind == "begin" and name == "cut":
            self._send(replies.begin(state))
            told = f"Begun. Say “{by_name('done').word}” when it is done."
            return Reply(told, told, sent=("cut begun",))
        if kind == "hold" and name == "hold":
            passing = replies.pass_hold(state)
            if self._here.read_out != passing:
                return Reply(self.say_step(), "Hear the values first.", refused=True)
            self._send(passing)
            return Reply(self.say_step(), "Held and read back.", sent=("hold passed",))
        if kind == "hold" and name == "no":
            return refusal("Say “go back” to the value that is wrong, then “change it”.")
        if kind in NO_LONE_YES and name in ("yes", "begin"):
            return refusal(NO_LONE_YES[kind])
        if name == "resume":
            return refusal(f"The job goes on; say “{by_name('done').word}” when this is done.")
        return refusal(f"“{words}” is not taken here; {made.accepts.wanted or 'say next'}.")

    def _next(self, made: Prompt, words: str, confidence: float) -> Reply:
        accepts = made.accepts
        if accepts.kind in NO_LONE_YES:
            return refusal(NO_LONE_YES[accepts.kind])
        if accepts.kind == "read-back":
            return Reply(self.say_step(), "Say yes or no first.", refused=True)
        if accepts.kind in ("done", "end"):
            sent = self._done(made)
            return Reply(self.say_step(), f"{words.capitalize()}.", sent=sent)
        if self.entered or made.kind == "ended":
            return Reply(command="done")
        if accepts.kind in _ASKING and accepts.suggestion:
            self._here.question = None
            self._send(self._answer("", words, confidence))
            return self._read_back(words)
        if accepts.kind == "text":
            return refusal("This is written with the keys.")
        return refusal(f"Answer first: {accepts.wanted or 'use the keys'}.")

    def _done(self, made: Prompt) -> tuple[str, ...]:
        """The step is done; with it, every other step of a card that is shown as one."""
        sent = [self._send(replies.done(self.session.state))]
        for line in made.card_lines[1:] if self.cards else ():
            if label(self.session.state.graph, self.session.state.at) != line.at:
                break
            sent.append(self._send(replies.done(self.session.state)))
        return tuple(sent)

    def _make_safe(self) -> Reply:
        if self.session.state.status == ENDED:
            raise Refused("This run has ended already.")
        asks = "Stop the work, make it safe, and hand it to the foreman: yes or no?"
        return self._ask(Question(asks, draft=replies.make_safe(self.session.state, SAID_WHY)))

    # Yes and no

    def _ask(self, question: Question) -> Reply:
        self._here.question = question
        return Reply(question.asks, question.asks)

    def _settle(self, yes: bool, words: str, confidence: float) -> Reply:
        """Yes or no to a question that is no pending value."""
        here = self._here
        question, here.question = here.question, None
        assert question is not None
        if question.draft is not None:
            if not yes:
                return Reply(f"Then not. {self.say_step()}", "Then not.")
            sent = self._send(question.draft)
            return Reply(self.say_step(), "So it is done.", sent=(sent,))
        assert question.guess is not None
        if not yes:
            here.denied.append(question.guess)
            return self._miss() or self._once_more()
        self._send(self._answer(writing(question.guess), words, confidence))
        return self._confirm(True, words, "heard")

    def _confirm(self, yes: bool, words: str, *before: str) -> Reply:
        """Yes or no to the value read back."""
        pending = self.session.state.pending
        assert pending is not None
        shown, earlier = self._shown(pending.at, pending.value), pending.at != self.session.state.at
        self._send(replies.confirm(self.session.state, yes))
        sent = (*before, "confirmed")
        if yes:
            return Reply(self.say_step(), f"{shown}: that counts.", sent=sent)
        if earlier:
            return Reply("The answer stays as it was.", "The answer stays as it was.", sent=sent)
        self._here.denied.append(pending.value)
        asked = self._miss() or self._guess(pending.value) or self._once_more()
        return Reply(asked.say, f"Not {shown}. {asked.show}", sent=sent, refused=True)

    def _cancel(self) -> Reply:
        if self._here.question is not None:
            self._here.question = None
            return Reply(show="Dropped.", command="cancel")
        if self.session.state.pending is not None:
            self._send(replies.confirm(self.session.state, False))
            return Reply(self.say_step(), "Dropped.", sent=("confirmed",))
        return Reply(command="cancel")

    # Misses

    def _miss(self) -> Reply | None:
        """One more; what to say where the keys must take over."""
        self._here.misses += 1
        if self._here.misses < MOST_MISSES:
            return None
        self._here.by_keys = True
        self._here.question = None
        return refusal(USE_KEYS)

    def _guess(self, denied: Value) -> Reply | None:
        """After the first no: the value that is taken for the denied one by ear."""
        fact = self._fact(self._prompt().accepts)
        if fact is None or len(self._here.denied) > 1:
            return None
        near = likely_meant(fact, denied, self.session.state.units, self._language)
        if near is None:
            return None
        return self._ask(Question(f"Was it {value_aloud(fact, near, self._language)}?", near))

    def _once_more(self) -> Reply:
        """Ask again, in the surest way there is."""
        kind = self._prompt().accepts.kind
        if kind in ("measure", "count"):
            self._here.digits = True
            return refusal("Say it digit by digit.")
        return refusal("Say it again, or by its number, such as “number two”.")

    # Where the run stands

    def _question(self) -> Question | None:
        """What waits for a yes; a value offered does not while something else is looked at."""
        question = self._meet().question
        return question if self.at is None or (question and question.draft) else None

    def _send(self, draft: Draft) -> str:
        self.session.send(draft)
        self.look(None)
        self.entered = False
        self._meet()
        return draft[0]

    def _meet(self) -> Here:
        """What is remembered of this step; afresh where the run has come to another."""
        place = self._place()
        if place != self._here.place:
            self._here = Here(place)
        return self._here

    def _place(self) -> object:
        state = self.session.state
        if state.pending is not None:
            return state.pending.at
        return self.at if self.changing else (state.at if not state.ended else state.ended)

    def _turn(self) -> object:
        here = self._here
        seen = (self.at, self.changing, self.deaf, here.by_keys, here.digits, here.question)
        return (self.session.state.seq, *seen)

    def _prompt(self) -> Prompt:
        return prompt(self.session.state, self.at)

    def _fact(self, accepts: Accepts) -> Fact | None:
        """The fact that an answer may be spoken for now."""
        if accepts.kind not in _ASKING or (self.at is not None and not self.changing):
            return None
        return self.session.state.graph.facts[accepts.fact]

    def _shown(self, at: Occurrence, value: Value) -> str:
        graph = self.session.state.graph
        return graph.facts[graph.nodes[at[0]].body["fact"]].show(value, self.session.state.units)

    def _asked(self, grammar: Grammar) -> Asked:
        return Asked(grammar, lambda _: "", self._turn())

    def _grammar(self, commands: tuple[str, ...], picks: tuple[Offered, ...] = ()) -> Grammar:
        return grammar_for(
            "choice", choices=picks, commands=commands, in_language=self._language.name
        )
