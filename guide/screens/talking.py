"""A run by voice on the screen: the controller between speech, the talk and the run view.

What was recognised goes to the talk, which sends what counts; its reply goes to the view, the line of the voice
and the loudspeaker. Everything here is called on the app's own thread.
"""

from guide.measures import parse
from guide.run.listening import SpeechListener
from guide.run.outcomes import HELP, KNOWN, PAGE, PAPERS, WATCH, Notice, Refusal
from guide.run.spoken_prompt import all_known_aloud
from guide.run.talk import Reply, Talk
from guide.run.talk_commands import WHILE_WRITING
from guide.screens.run_view import RunView
from guide.screens.voice import Voice
from guide.translation import _
from guide.words import by_name
from guide.words.spoken import Meaning, language, say

LISTEN_KEY = by_name("listen").key
HUSH_KEY = by_name("hush").key
TALK_AROUND = 0.05
"""The confidence, 0 to 1, below which something was not said to the program. Measured: of 14 sentences that are not an
answer, in two voices, none was above 0.02; of ten answers that were half right, seven were above 0.05."""
_PERHAPS_TALK = ("nothing", "unsure")
"""The codes of recognition for what may have been said to somebody else."""
PAPERS_ALOUD = _("The screen says where the papers are.")
HELP_ALOUD = (
    _("Say the answer, or ")
    + ", ".join(
        f"“{by_name(name).word}”" for name in ("done", "back", "why", "repeat", "status", "safe")
    )
    + "."
)
WRITING = _("Finish the line first: Enter, or Tab to leave it.")
METER = 5
"""Columns of the level meter."""
_LISTEN, _NEXT = by_name("listen").word, by_name("done").word


class Talking:
    """The voice of one run that is open."""

    def __init__(
        self,
        voice: Voice,
        view: RunView,
        *,
        push_to_talk: bool = False,
        in_language: str = "english",
    ) -> None:
        """With `push_to_talk` the microphone is off until its key turns it on, for one saying."""
        self.voice = voice
        self.view = view
        self.talk = Talk(view.desk, in_language)
        self._language = language(in_language)
        self.push_to_talk = push_to_talk
        self.last = ""
        """The last thing heard, and what became of it."""
        self.refused = False
        """Whether it does not count."""
        self.fault = ""
        """Why nothing is heard any more; empty while listening."""
        self._ready = False
        self._begun = False
        """Whether somebody is speaking."""
        self._open = not push_to_talk
        self._turn: object = None
        self._place = self._where()
        self._hears: SpeechListener | None = None

    # Beginning and end

    def start(self, hears: SpeechListener) -> None:
        """Begin to listen, and say the step; `hears` is called in the thread of speech recognition."""
        self._hears = hears
        self._look()
        self.voice.shut(not self._open)
        self._listen()
        self.voice.start(hears)
        self._say(self.talk.say_step())

    def close(self) -> None:
        """Listen no longer and be silent."""
        self.voice.close()

    # Reports of the voice

    def ready(self) -> None:
        """Listening has begun."""
        self._ready, self.fault = True, ""

    def begins(self) -> None:
        """Somebody began to speak."""
        self._begun = True

    def heard(self, meaning: Meaning, words: str, confidence: float, turn: object) -> None:
        """Words with a meaning."""
        self._told()
        desk = self.view.desk
        if desk.purpose and not desk.ending and meaning.value not in WHILE_WRITING:
            self.last, self.refused = WRITING, True
            return
        self._carry_out(self.talk.heard(meaning, words, confidence, turn), words)

    def missed(self, why: str, told: str, confidence: float) -> None:
        """Something was said, or sounded so, and does not count. Talk among people is shown and not answered."""
        self._told()
        if why in _PERHAPS_TALK and confidence < TALK_AROUND:
            self.last, self.refused = "" if self.talk.deaf else told, True
            return
        self._carry_out(self.talk.missed(why, told), "")

    def trouble(self, sentence: str) -> None:
        """Listening has ended by itself; the run goes on by keys."""
        self._ready = self._begun = False
        self.fault = sentence

    # Keys

    def key(self, key: str) -> bool:
        """Any key ends what is being said; whether this one was the voice's own."""
        if self.voice.speaking:
            self.voice.hush()
        key = key.lower()
        if self.view.typing or key not in (LISTEN_KEY, HUSH_KEY):
            return False
        if key == LISTEN_KEY:
            self._listen_key()
        return True

    def _listen_key(self) -> None:
        if self.fault:
            self.fault = ""
            if self._hears is not None:
                self.voice.start(self._hears)
        elif self.push_to_talk:
            self._open = not self._open
            self.talk.deaf = False
            self.voice.shut(not self._open)
        else:
            self.talk.deaf = not self.talk.deaf
        self.last, self.refused, self._begun = "", False, False
        self.talk.keyed()
        self._listen()

    def keyed(self) -> None:
        """A key was pressed; if it moved the run or the view, the step is said."""
        self._look()
        if self._where() != self._place:
            self.talk.keyed()
            self.last, self.refused = "", False
            self._say(self.talk.say_step())
        self._listen()

    # What is shown

    def line(self) -> tuple[str, bool]:
        """The line of the voice, and whether it tells of something wrong."""
        if self.fault:
            return voice_line(_("Voice off"), None, self.fault), True
        hint = self.last or self.voice.deaf or self.voice.silent
        if self.voice.speaking:
            return voice_line(_("Speaking"), None, hint or _("Any key ends it.")), self.refused
        if not self._ready:
            return voice_line(_("Voice starts"), None, hint), False
        if not self._open:
            said = hint or _("V opens it for one answer.")
            return voice_line(_("Microphone off"), None, said), self.refused
        if self.talk.deaf:
            said = hint or _("V or “{listen}” turns listening on.").format(listen=_LISTEN)
            return voice_line(_("Muted"), self.voice.level, said), False
        doing = _("Hearing") if self._begun else _("Listening")
        return voice_line(doing, self.voice.level, hint or _("V mutes it.")), self.refused

    # Within

    def _told(self) -> None:
        """One saying is over, so push-to-talk turns the microphone off."""
        self._begun = False
        if self.push_to_talk:
            self._open = False
            self.voice.shut(True)

    def _carry_out(self, reply: Reply, words: str) -> None:
        said, self.last, self.refused = reply.say, reply.show, reply.refused
        if reply.hushes:
            self.voice.hush()
        if reply.outcome is not None:
            self._render(reply)
        elif reply.sent:
            self.view.renew()
        elif reply.enters:
            self.view.enter_line()
        if self.view.refused and (reply.enters or reply.outcome is not None):
            said = self.last = self.view.message
            self.refused = True
        elif isinstance(reply.outcome, Notice):
            said, self.last = self._beside(reply.outcome.what, words) or (said, self.last)
        self._look()
        moved = self._where() != self._place
        if not said and moved and not self.view.desk.left:
            said = f"{self.talk.say_step()} {self._reading()}".strip()
        if words and not self.last:
            self.last = f"“{words}”: {'done' if reply.command or reply.sent else 'not now'}."
        self._listen()
        self._say(said)

    def _render(self, reply: Reply) -> None:
        """Show the outcome of a command, except for the sentence in the voice's own line."""
        assert reply.outcome is not None
        self.view.take(reply.outcome)
        if reply.show and not isinstance(reply.outcome, Refusal):
            self.view.message = ""

    def _beside(self, what: str, words: str) -> tuple[str, str] | None:
        """What to say and to show of what the desk shows; None if the talk has said it."""
        if what == WATCH:
            return self._watched(words)
        if what == KNOWN:
            return all_known_aloud(self.view.session.state, self._language), self.last
        if what == PAPERS:
            return PAPERS_ALOUD, self.last
        if what == PAGE and self.view.desk.page is not None:
            return _("{title}: on the screen.").format(title=self.view.desk.page.title), self.last
        return (HELP_ALOUD, self.last) if what == HELP else None

    def _watched(self, words: str) -> tuple[str, str]:
        """What to say and to show of the stopwatch: nothing is said while it runs, so that it listens."""
        view, taken = self.view, self._reading()
        if not taken:
            return "", view.message or _("“{words}”: the watch runs.").format(words=words)
        return taken, _("“{words}”: {text}. “{next}” accepts it.").format(
            words=words, text=view.text, next=_NEXT
        )

    def _reading(self) -> str:
        """The reading of the stopwatch for the step shown, in words: said before “next” accepts it."""
        view = self.view
        if view.watch.running or not view.watch.swings or not view.text:
            return ""
        taken = parse(view.text, "time", view.session.state.units)
        return f"{say(taken, self._language)}."

    def _look(self) -> None:
        """Tell the talk what the view shows."""
        view = self.view
        self.talk.entered = bool(view.text) and not view.desk.purpose

    def _where(self) -> object:
        """Which step is shown, and how: what is said once when it changes."""
        shown = self.view.desk.shown
        desk = self.view.desk
        return shown.kind, shown.at, shown.accepts.kind, desk.at, desk.changing, desk.ending

    def _listen(self) -> None:
        self._place = self._where()
        asked = self.talk.asked()
        if self._turn is None or asked.turn != self._turn:
            self._turn = asked.turn
            self.voice.listen_for(asked.grammar, asked.takes, asked.turn)

    def _say(self, words: str) -> None:
        if words:
            self.voice.say(words)


def meter(level: float) -> str:
    """How loud it is, as a bar: 0 to 1."""
    full = round(max(0.0, min(1.0, level)) * METER)
    return "█" * full + "·" * (METER - full)


def voice_line(doing: str, level: float | None, last: str) -> str:
    """What the voice is doing, in capitals, its meter if there is one, and the last thing heard."""
    head = f"{doing.upper()}:" if level is None else f"{doing.upper()} {meter(level)}"
    return f"{head} {last}".rstrip(" :")
