"""The meaning of a typed line: a command by its word or its key, words that go with it, or an answer."""

from typing import NamedTuple

from guide.run.desk import Desk
from guide.run.step import CUT_REPORTS
from guide.translation import _
from guide.words import ANSWERS, COMMANDS, PAGES, by_name, by_word

COLON = ":"
"""The sign before a command while words are asked for."""
HINTS = {
    "done": _("Enter or “done” when it is done."),
    "begin": _("This cannot be undone. “begin” when you begin."),
    "hold": _("“yes” if every value is right; “back” to change one."),
    "end": _("“yes” ends the job."),
    "resolve": _("One of these words, then a note, such as: plugged filled both holes"),
}
"""What is to be typed, by what the run waits for."""
_ENTER, _LEAVE, _YES, _NO = "done", "cancel", "yes", "no"
_HERE = {("hold", "yes"): "hold", ("begin", "begin"): "cut"}
"""Words that mean another command at what the run waits for."""
_WITH_WORDS = ("note", "photo", "safe", "take up")
"""Commands with words of the person's own after theirs."""
_LETTERS = {one.key: one.name for one in (*ANSWERS, *COMMANDS, *PAGES) if len(one.key) == 1}
_LETTERS |= {"y": "yes"}


class LineMeaning(NamedTuple):
    """The meaning of a line."""

    command: str
    """By its name in the lexicon; empty for an answer."""
    words: str
    """The answer, or what goes with the command."""


class NoCommand(Exception):
    """The word after a colon is not a command; the sentence says so."""


def meant(desk: Desk, text: str) -> LineMeaning:
    """The meaning of a line in the desk's situation. Raises NoCommand."""
    text = text.strip()
    if desk.ending:
        found = _command(text)
        return LineMeaning(found if found in (_YES, _NO) else _ENTER, "")
    if desk.purpose and not text.startswith(COLON):
        return LineMeaning("", text) if text else LineMeaning(_LEAVE, "")
    kind = desk.accepts.kind
    if kind == "text" and not text.startswith(COLON):
        return LineMeaning("", text)
    said = text.removeprefix(COLON).strip()
    for name in _WITH_WORDS:
        for word in _words(name):
            if said.casefold().startswith((f"{word} ", f"{word}: ")):
                return LineMeaning(name, said[len(word) :].removeprefix(COLON).strip())
    found = _command(said)
    if not found and text.startswith(COLON):
        raise NoCommand(_("“{said}” is not a command; “help” lists them.").format(said=said[:40]))
    if not text:
        return LineMeaning(
            _ENTER if kind not in ("measure", "count", "choice", "values") else "", ""
        )
    if not found or (not text.startswith(COLON) and _is_answer(desk, text)):
        return LineMeaning("", text)
    return LineMeaning(_HERE.get((kind, found), found), "")


def _command(said: str) -> str:
    """The command of a word or a letter; empty if it is not one."""
    command = by_word(said)
    if command is not None:
        return command.name
    wanted = said.casefold()
    for one in ANSWERS:
        if wanted in _words(one.name):
            return one.name
    return _LETTERS.get(wanted, "")


def _words(name: str) -> tuple[str, ...]:
    command = by_name(name)
    return tuple(word.casefold() for word in (command.word, *command.also, *command.typed))


def _is_answer(desk: Desk, text: str) -> bool:
    """Whether a word that may also be a command is an answer to what is asked."""
    accepts, wanted = desk.accepts, text.casefold()
    if accepts.kind == "report":
        return wanted in CUT_REPORTS
    if accepts.kind != "choice" or text == "?" or not accepts.fact:
        return False
    options = desk.session.state.graph.facts[accepts.fact].options.values()
    return any(
        wanted in (word.casefold() for word in (one.label, one.text, one.say, *one.also))
        for one in options
    )
