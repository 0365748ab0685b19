"""The messages of the desk, with each command named as a front end names it: by a key, a line or a word to say."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from guide.run.prompt import Accepts, Choice
from guide.translation import _
from guide.words import ANSWERS, COMMANDS, PAGES, VOICE

NUMBERED = 9
"""Answers that a key picks by its number: no key is 10."""

FIRST = _("This is the first step.")
LATEST = _("This is the step the job is at.")
GO_BACK_FIRST = _("First go back to the answer you want to change: {press} {back}.")
CHANGE_FIRST = _("{Press} {change} first, then give the new answer.")
NOTHING_ASKED = _("Nothing was asked there; {next} to return to the job's step.")
NEW_ANSWER = _("Give the new answer. What depends on it is asked again.")
ENDED_ALREADY = _("This job has already ended.")
WRONG_VALUE = _(
    "Go back to the value that is wrong and change it there: {press} {back}, then {press} {change}."
)
GOES_ON = _("The job goes on; {next} when this is done.")
BEGUN = _("Begun. {Next} when it is done.")
HELD = _("Held and read back.")
CHANGED = _("Changed.")
ACCEPTED_AS = _("Accepted as {value}.")
NOTED = _("Noted.")
RESOLVED = _("Written down. Go on from here.")
NOTHING_WRITTEN = _("Nothing was written.")
WRITE_NOTE = _("Write the note, then Enter.")
WRITE_WHY = _("Stop, make it safe. Write why, for the foreman, then Enter.")
WRITE_WORK = _("{how}. Write what was done, then Enter.")
WRITE_WORD = _("Write what has changed, or what the foreman said, then Enter.")
NOT_TAKEN_UP = _("This job came to its purpose, so it is not taken up again; start a new one.")
TAKEN_UP = _("Taken up again.")
TAKEN_UP_AT_END = _(
    "Taken up again. Go back to the answer that has changed: {press} {back}, then {press} {change}."
)
NO_NEXT = _("No other job follows from here.")
NEXT_BEGINS = _("Next: {title}.")
YES_ENDS = _("{Press} {yes} if all of it is safe, {no} to go on with the job.")
IS_IT_SAFE = _("Is it safe now?")
MAKE_SAFE = IS_IT_SAFE + " {safe} " + YES_ENDS
WAITS = {
    "choice": _("Answer first: {pick}."),
    "measure": _("Answer first: {wanted}."),
    "count": _("Answer first: {wanted}."),
    "text": _("Answer first: {wanted}."),
    "values": _("Answer first: {wanted}."),
    "report": _("First say what was drilled: {pick}."),
    "resolve": _("First say what became of it: {pick}."),
    "begin": _("This cannot be undone: {press} {cut} when you begin."),
    "hold": _("A hold is passed when every value is right: {press} {hold}."),
    "read-back": _("Is it right? {Press} {yes} or {no}."),
    "end": _("This ends the job: {press} {yes} to end it."),
    "nothing": _("The job cannot go on from here; {press} {safe} to make it safe."),
}
"""By what the run waits for: what is said if a step is called done that is not done with that word."""
NOT_HERE = _("{name} is not accepted here; {instead}.")
NOT_UNDERSTOOD = _("“{text}” is not understood here; {instead}.")
NOT_STOPPED = _("Stop? {Press} {pause} to go on later, or {safe} to call the foreman.")
NOT_LISTED = _("“{text}” is not one of the answers; {pick}.")
_INSTEAD = {
    "done": _("{next} when it is done"),
    "begin": _("{press} {cut} when you begin"),
    "hold": _("{press} {hold} when every value is right"),
    "read-back": _("{press} {yes} or {no}"),
    "end": _("{press} {yes} to end the job"),
    "nothing": _("{next} to return to the job's step"),
    "choice": "{pick}",
    "report": "{pick}",
    "resolve": "{pick}",
}
"""What to do instead of what was refused; if a value is asked for, which values are accepted."""
_TWO, _FROM_ONE = _("1 or 2"), _("1 to {last}")
"""The numbers of two answers, and of more."""


class Way(NamedTuple):
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
        return self.picks.format(numbers=_TWO if last == 2 else _FROM_ONE.format(last=last))


_ALL = (*COMMANDS, *ANSWERS, *PAGES, *VOICE)
_WORDS = {command.name: f"“{command.word}”" for command in _ALL}
KEYS = Way(
    _("press"),
    _("press Enter"),
    {command.name: command.key_shown for command in _ALL},
    _("press the number of the answer, {numbers}, or highlight it with ↓ and then Enter"),
    NUMBERED,
)
LINES = Way(
    _("type"),
    _("press Enter"),
    {**_WORDS, "hold": _WORDS["yes"], "cut": _WORDS["begin"]},
    _("type the number of the answer, {numbers}, or its words"),
)
BY_VOICE = Way(
    _("say"),
    _("say {done}").format(done=_WORDS["done"]),
    _WORDS,
    _("say the answer, or its number, such as “number two”"),
)
