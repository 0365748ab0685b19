"""The dialogue manager of one run by voice: what was heard becomes events, replies and commands. No sound is used here.

Harmless commands act at once. A measure or a choice that was heard is read back and counts after a yes; before
the work cuts, and at a hold, a lone yes is not enough. After three misses in one step the keys take over, until
the next step or until “listen” is said. Every event goes through `step`.
"""

from collections.abc import Callable
from dataclasses import replace

from guide.procedure.facts import Fact, Value, WrongAnswer, writing
from guide.run import replies
from guide.run.desk import Desk
from guide.run.desk_words import BY_VOICE, MAKE_SAFE
from guide.run.journal import JournalError
from guide.run.listening import grammar_of_fact, likely_meant, offered, takes
from guide.run.making_safe import to_make_safe
from guide.run.outcomes import DRAWING, Asks, Refusal, Sent
from guide.run.prompt import Accepts, Prompt, suggested
from guide.run.replies import Draft
from guide.run.spoken_prompt import step_aloud, value_aloud, why_aloud
from guide.run.state import Occurrence
from guide.run.step import Refused
from guide.run.talk_commands import HARMLESS, MEANS, commands_at
from guide.run.talk_reply import Asked, Here, Question, Reply, refusal
from guide.words import DECLINED, by_name
from guide.words.spoken import Grammar, Meaning, Offered, grammar_for, language

__all__ = ["Asked", "Reply", "Talk"]

MOST_MISSES = 3
"""Misses in one step before the keys take over."""
SAID_WHY = "said by voice"
"""The reason for making safe if it was said; a note says more."""
USE_KEYS = "That was not understood. Use the keys for this one; say “listen” to go on by voice."
BY_KEYS = "Use the keys for this one, or say “listen” first."
LONGER_WORDS = f"That was not caught; say “{by_name('yes').also[0]}” or “{by_name('no').also[0]}”."
"""Said if yes or no was not caught: one short word gives recognition little evidence."""
SAID_BESIDE = {
    "note": ("A note is written with the keys.", "Write the note, then Enter."),
    "photo": ("Name the photo with the keys.", "Write the name of the photo's file, then Enter."),
    "take up": ("Write with the keys what has changed.", "Write what has changed, then Enter."),
    "hush": ("", "Quiet. To stop the work, say “make it safe”."),
}
"""The words said and shown at commands that need the keys, or that control the voice itself."""
_DECLINED = {one.name: one.says for one in DECLINED}
_ASKING = ("choice", "measure", "count")
_TYPED = ("measure", "count", "text")


class Talk:
    """The voice's side of one run: a front end asks `asked` what to listen for, and hands in what was heard."""

    def __init__(self, desk: Desk, in_language: str = "english") -> None:
        self.desk = desk
        desk.aloud = True
        self.session = desk.session
        self.deaf = False
        """Whether only “listen” is heard."""
        self.entered = False
        """Whether there is text on the front end's line, typed or timed, so that “next” enters it."""
        self._language = language(in_language)
        self._here = Here(self._place())

    # For the front end

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
        """The value that a yes accepts: a guess, or what the schedule or the sheet says."""
        question = self._question()
        return question.guess if question is not None else None

    def asked(self) -> Asked:
        """The grammar of what may be said now; call it again after every reply or key."""
        here, made = self._meet(), self._prompt()
        kind, question = made.accepts.kind, self._question()
        if self.deaf:
            return self._asked(self._grammar(("listen",)))
        names = commands_at(
            kind if question is None or question.offers else "",
            looking=self.desk.at is not None,
            changing=self.desk.changing,
            question=question is not None,
            by_keys=here.by_keys,
            timed=made.accepts.measure == "time",
            drawn=self.desk.over == DRAWING or made.draws is not None,
            follows=bool(made.next_title),
            again=made.again,
        )
        if here.by_keys or (question and not question.offers):
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

    def keyed(self) -> None:
        """A key did something: what was missed or asked by voice in this step is forgotten."""
        self._here = Here(self._place(), read_out=self._here.read_out)

    def heard(
        self, meaning: Meaning, words: str, confidence: float, turn: object | None = None
    ) -> Reply:
        """Accept what was recognised with enough confidence.

        `turn` is that of the `asked` which was listened for: if the run has gone on since, only what changes
        nothing is still accepted.
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
        """Note that something was said and does not count: `why` and `told` as recognition gives them."""
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
        waiting = self._question()
        if waiting and not waiting.offers:
            return refusal(waiting.asks)
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
        return replies.answer(
            self.session.state,
            text,
            self.desk.at,
            heard=True,
            words=words,
            confidence=confidence,
            looked=self.desk.looked,
        )

    def _read_back(self, words: str) -> Reply:
        pending = self.session.state.pending
        assert pending is not None  # what is heard always waits
        shown = self._shown(pending.at, pending.value)
        return Reply(self.say_step(), f"“{words}”: {shown}. Say yes or no.", sent=("heard",))

    def _suggestion(self, made: Prompt) -> Question | None:
        """The value of the schedule or the sheet as a question; none if yes is an answer of its own."""
        fact = self._fact(made.accepts)
        if fact is None or self.desk.at is not None or not made.accepts.suggestion:
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
        if name == "listen":
            self.deaf = False
            self.keyed()
            return Reply(self.say_step(), "Listening.", command=name)
        if name == "deaf":
            self.deaf = True
            return Reply("Muted.", "Not listening; say “listen”, or press V.", name)
        if name == "hush":
            return Reply(*SAID_BESIDE[name], command=name, hushes=True)
        if name == "cancel" and (dropped := self._cancel()):
            return dropped
        if name in ("yes", "no") and self._question() is not None:
            return self._settle(name == "yes", words, confidence)
        if (
            self._here.by_keys
            and name not in HARMLESS
            and name not in ("safe", "pause", "note", "photo")
        ):
            return refusal(BY_KEYS)
        if name in ("yes", "no") and self.session.state.pending is not None:
            return self._confirm(name == "yes", words)
        if name == "done" and (self.desk.at is None or self.desk.changing):
            return self._next(words, confidence)
        if name == "hold" and self._here.read_out != self._passing():
            return Reply(self.say_step(), "Hear the values first.", refused=True)
        return self._at_desk(MEANS.get(name, name), words)

    def _at_desk(self, name: str, words: str) -> Reply:
        """The desk's outcome of a command, said and shown."""
        outcome = self.desk.command(name, SAID_WHY if name == "safe" else "", by=BY_VOICE)
        if isinstance(outcome, Refusal):
            return refusal(outcome.told)
        self._meet()
        if isinstance(outcome, Asks) and self.desk.ending:
            return Reply(outcome.told, outcome.told, name, outcome=outcome)
        if isinstance(outcome, Sent) and not self.desk.left:
            told = outcome.told or f"{words.capitalize()}."
            said = outcome.told if name == "cut" else self.say_step()
            return Reply(said, told, name, outcome.kinds, outcome=outcome)
        said, told = SAID_BESIDE.get(name, ("", ""))
        said = _SAYS[name](self) if name in _SAYS else said
        return Reply(said, told, name, getattr(outcome, "kinds", ()), outcome=outcome)

    def _passing(self) -> Draft | None:
        """The event that passes the hold the run is at; None if it is not at one."""
        return replies.pass_hold(self.session.state) if self._prompt().kind == "hold" else None

    def _next(self, words: str, confidence: float) -> Reply:
        accepts = self._prompt().accepts
        if accepts.kind == "read-back":
            return Reply(self.say_step(), BY_VOICE.waits(accepts), refused=True)
        if self.entered and accepts.kind in _TYPED:
            return Reply(command="done", enters=True)
        if accepts.kind in _ASKING and accepts.suggestion:
            self._here.question = None
            self._send(self._answer("", words, confidence))
            return self._read_back(words)
        if accepts.kind == "text":
            return self._leave_out(accepts)
        return self._at_desk("done", words)

    def _leave_out(self, accepts: Accepts) -> Reply:
        """“next” at a text: nothing can be written by voice, but what is not wanted can be left out."""
        state = self.session.state
        if not state.graph.facts[accepts.fact].may_be_left_out:
            return refusal("This is written with the keys.")
        sent = self._send(replies.answer(state, "", self.desk.at))
        return Reply(self.say_step(), "Left out.", sent=(sent,))

    # Yes and no

    def _ask(self, question: Question) -> Reply:
        self._here.question = question
        return Reply(question.asks, question.asks)

    def _settle(self, yes: bool, words: str, confidence: float) -> Reply:
        """Yes or no to a question that is not a pending value."""
        here = self._here
        if self.desk.ending:
            reply = self._at_desk("yes" if yes else "no", words)
            return (
                reply
                if yes
                else replace(reply, say=f"Not done. {self.say_step()}", show="Not done.")
            )
        question, here.question = here.question, None
        assert question is not None
        if question.draft is not None:
            if not yes:
                return Reply(f"Not done. {self.say_step()}", "Not done.")
            sent = self._send(question.draft)
            return Reply(self.say_step(), "Done.", sent=(sent,))
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
            return Reply(self.say_step(), f"{shown}: entered.", sent=sent)
        if earlier:
            return Reply("The answer stays as it was.", "The answer stays as it was.", sent=sent)
        self._here.denied.append(pending.value)
        asked = self._miss() or self._guess(pending.value) or self._once_more()
        return Reply(asked.say, f"Not {shown}. {asked.show}", sent=sent, refused=True)

    def _cancel(self) -> Reply | None:
        """Drop what was heard and waits for a yes; None if nothing does."""
        if self._here.question is not None:
            self._here.question = None
            return Reply(show="Dropped.", command="cancel")
        if self.session.state.pending is not None:
            self._send(replies.confirm(self.session.state, False))
            return Reply(self.say_step(), "Dropped.", sent=("confirmed",))
        return None

    # Misses

    def _miss(self) -> Reply | None:
        """One more; what to say if the keys must take over."""
        self._here.misses += 1
        if self._here.misses < MOST_MISSES:
            return None
        self._here.by_keys = True
        self._here.question = None
        return refusal(USE_KEYS)

    def _guess(self, denied: Value) -> Reply | None:
        """After the first no: the value that is misheard as the denied one."""
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

    # Where the run is

    def _question(self) -> Question | None:
        """The question that waits for a yes; a suggestion does not while something else is looked at."""
        if self.desk.ending:
            safe = " ".join(to_make_safe(self.session.state))
            return Question(BY_VOICE.tell(MAKE_SAFE, safe=safe), ends=True)
        question = self._meet().question
        return question if self.desk.at is None or (question and question.draft) else None

    def _send(self, draft: Draft) -> str:
        self.desk.send(draft)
        self.entered = False
        self._meet()
        return draft[0]

    def _meet(self) -> Here:
        """The memory of this step; a new one if the run has come to another."""
        place = self._place()
        if place != self._here.place:
            self._here = Here(place)
        return self._here

    def _place(self) -> object:
        state = self.session.state
        if state.pending is not None:
            return state.pending.at
        if self.desk.changing:
            return self.desk.at
        return state.ended or state.at

    def _turn(self) -> object:
        here = self._here
        desk = self.desk
        looks = (desk.at, desk.changing, desk.ending, self.deaf)
        return (self.session.state.seq, *looks, here.by_keys, here.digits, here.question)

    def _prompt(self) -> Prompt:
        return self.desk.shown

    def _fact(self, accepts: Accepts) -> Fact | None:
        """The fact that an answer may be spoken for now."""
        if accepts.kind not in _ASKING or (self.desk.at is not None and not self.desk.changing):
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


_SAYS: dict[str, Callable[[Talk], str]] = {"repeat": Talk.say_step, "why": Talk.say_why}
"""What is said at commands whose words are not in a table."""
