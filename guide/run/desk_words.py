"""The messages of the desk, with each command named as a front end names it: by a key, a line or a word to say."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from guide.run.prompt import Accepts, Choice
from guide.words import ANSWERS, COMMANDS, PAGES, VOICE

NUMBERED = 9
"""Answers that a key picks by its number: no key is 10."""

FIRST = "This is the first step."
LATEST = "This is the step the job is at."
GO_BACK_FIRST = "First go back to the answer you want to change: {press} {back}."
CHANGE_FIRST = "{Press} {change} first, then give the new answer."
NOTHING_ASKED = "Nothing was asked there; {next} to return to the job's step."
NEW_ANSWER = "Give the new answer. What depends on it is asked again."
ENDED_ALREADY = "This job has already ended."
WRONG_VALUE = (
    "Go back to the value that is wrong and change it there: {press} {back}, then {press} {change}."
)
GOES_ON = "The job goes on; {next} when this is done."
BEGUN = "Begun. {Next} when it is done."
HELD = "Held and read back."
CHANGED = "Changed."
ACCEPTED_AS = "Accepted as {value}."
NOTED = "Noted."
RESOLVED = "Written down. Go on from here."
NOTHING_WRITTEN = "Nothing was written."
WRITE_NOTE = "Write the note, then Enter."
WRITE_WHY = "Stop, make it safe. Write why, for the foreman, then Enter."
WRITE_WORK = "{how}. Write what was done, then Enter."
WRITE_WORD = "Write what has changed, or what the foreman said, then Enter."
NOT_TAKEN_UP = "This job came to its purpose, so it is not taken up again; start a new one."
TAKEN_UP = "Taken up again."
TAKEN_UP_AT_END = (
    "Taken up again. Go back to the answer that has changed: {press} {back}, then {press} {change}."
)
NO_NEXT = "No other job follows from here."
NEXT_BEGINS = "Next: {title}."
YES_ENDS = "{Press} {yes} if all of it is safe, {no} to go on with the job."
IS_IT_SAFE = "Is it safe now?"
MAKE_SAFE = IS_IT_SAFE + " {safe} " + YES_ENDS
WAITS = {
    "choice": "Answer first: {pick}.",
    "measure": "Answer first: {wanted}.",
    "count": "Answer first: {wanted}.",
    "text": "Answer first: {wanted}.",
    "report": "First say what was drilled: {pick}.",
    "resolve": "First say what became of it: {pick}.",
    "begin": "This cannot be undone: {press} {cut} when you begin.",
    "hold": "A hold is passed when every value is right: {press} {hold}.",
    "read-back": "Is it right? {Press} {yes} or {no}.",
    "end": "This ends the job: {press} {yes} to end it.",
    "nothing": "The job cannot go on from here; {press} {safe} to make it safe.",
}
"""By what the run waits for: what is said if a step is called done that is not done with that word."""
NOT_HERE = "{name} is not accepted here; {instead}."
NOT_UNDERSTOOD = "“{text}” is not understood here; {instead}."
NOT_LISTED = "“{text}” is not one of the answers; {pick}."
_INSTEAD = {
    "done": "{next} when it is done",
    "begin": "{press} {cut} when you begin",
    "hold": "{press} {hold} when every value is right",
    "read-back": "{press} {yes} or {no}",
    "end": "{press} {yes} to end the job",
    "nothing": "{next} to return to the job's step",
    "choice": "{pick}",
    "report": "{pick}",
    "resolve": "{pick}",
}
"""What to do instead of what was refused; if a value is asked for, which values are accepted."""


@dataclass(frozen=True, slots=True)
class Way:
    """How commands are given at one front end."""

    press: str
    """`press`, `type` or `say`."""
    next: str
    """How a step is called done."""
    names: Mapping[str, str]
    """Each command as it is named to a person there."""
    picks: str
    """How one of several answers is given, with `{numbers}` for the numbers there are."""
    numbered: int = 1000
    """Answers that can be given by their number."""

    def tell(self, sentence: str, accepts: Accepts | None = None, **more: str) -> str:
        """A sentence with the commands in it named as they are given here."""
        return sentence.format_map(
            {
                **self.names,
                "press": self.press,
                "Press": self.press.capitalize(),
                "next": self.next,
                "Next": f"{self.next[:1].upper()}{self.next[1:]}",
                "pick": self._pick(accepts.choices) if accepts is not None else "",
                "wanted": accepts.wanted if accepts is not None else "",
                **more,
            }
        )

    def waits(self, accepts: Accepts) -> str:
        """What the run waits for, if a step was called done that is not done with that word."""
        return self.tell(WAITS[accepts.kind], accepts)

    def instead(self, accepts: Accepts) -> str:
        """What is accepted instead, as the end of a sentence."""
        sentence = _INSTEAD.get(accepts.kind)
        return self.tell(sentence, accepts) if sentence else accepts.wanted

    def _pick(self, choices: Sequence[Choice]) -> str:
        last = min(len(choices), self.numbered)
        return self.picks.format(numbers=f"1 {'or' if last == 2 else 'to'} {last}")


_ALL = (*COMMANDS, *ANSWERS, *PAGES, *VOICE)
_WORDS = {command.name: f"“{command.word}”" for command in _ALL}
KEYS = Way(
    "press",
    "press Enter",
    {command.name: command.key_shown for command in _ALL},
    "press the number of the answer, {numbers}, or highlight it with ↓ and then Enter",
    NUMBERED,
)
LINES = Way(
    "type",
    "press Enter",
    {**_WORDS, "hold": _WORDS["yes"], "cut": _WORDS["begin"]},
    "type the number of the answer, {numbers}, or its words",
)
BY_VOICE = Way(
    "say", f"say {_WORDS['done']}", _WORDS, "say the answer, or its number, such as “number two”"
)
