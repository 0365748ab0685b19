"""Rules of what is said: no two answers of a step, and no answer and command, are taken for each other."""

from collections.abc import Iterator
from functools import lru_cache
from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.facts import Option
from guide.procedure.findings import WARNING, Finding
from guide.procedure.load import Loaded
from guide.words.commands import ANSWERS, COMMANDS
from guide.words.sounds import alike

YES_NO = ("yes", "no")
"""The tool's own words, which a file does not choose; they are read back before they count."""


MOST_SPOKEN = 60
"""Words of one question that are compared; nobody is asked to say one of more."""


class SoundsAlike(Rule):
    """Two answers of a question, or an answer and a command, sound alike.

    On a ladder, with a drill running in the next room, one is heard for the other. What is compared is what
    is spoken: `say`, or the label where there is none, and the words under `also`.

    Do: give one of the two another word under `say`; the label may stay.

    Fails:

        facts:
          leaves:
            choice:
              first: {label: The active leaf, say: active}
              second: {label: The inactive leaf, say: inactive}   # here
            ask: Which leaf of the pair is it?

    Passes:

        facts:
          leaves:
            choice:
              first: {label: The active leaf, say: first leaf}
              second: {label: The inactive leaf, say: second leaf}
            ask: Which leaf of the pair is it?
    """

    code: ClassVar[str] = "sounds-alike"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{answer}” sounds like {other}; give one of the two another word under say."
    )

    @classmethod
    def in_facts(cls, loaded: Loaded) -> Iterator[Finding]:
        """Each answer that sounds like an earlier answer of its fact, or like a command."""
        for name, fact in loaded.facts.items():
            source, path = loaded.declared[name]
            for label, said, other in _taken_for(tuple(fact.options.values()), fact.unsure):
                message = cls.message.format(answer=said, other=other)
                mark = source.mark((*path, fact.kind, label), key=True)
                yield Finding(source.shown, *mark, cls.code, cls.level, message)


@lru_cache(maxsize=1024)
def _taken_for(options: tuple[Option, ...], unsure: bool) -> list[tuple[str, str, str]]:
    """Label, what is said for it, and what that is taken for; at most one for each answer. Kept, because
    several files of one check ask the same questions."""
    earlier: list[str] = []
    found: list[tuple[str, str, str]] = []
    for option in options:
        spoken = list(dict.fromkeys((option.say, *option.also)))
        if len(earlier) + len(spoken) > MOST_SPOKEN:
            break
        first = _first(spoken, earlier, unsure)
        if first is not None:
            found.append((option.label, *first))
        earlier += spoken
    return found


def _first(spoken: list[str], earlier: list[str], unsure: bool) -> tuple[str, str] | None:
    for word in spoken:
        for other in earlier:
            if alike(word, other):
                return word, f"“{other}”"
        if word.casefold() not in YES_NO:
            for command in _commands(unsure):
                if alike(word, command):
                    return word, f"the command “{command}”"
    return None


@lru_cache(maxsize=2)
def _commands(unsure: bool) -> list[str]:
    """What is said at a question to command the guide, without keys written as one letter."""
    asked = [command for command in COMMANDS if command.name not in YES_NO]
    asked += [answer for answer in ANSWERS if answer.name == "unsure" and unsure]
    return [word for one in asked for word in (one.word, *one.also) if len(word) > 1]


RULES = (SoundsAlike,)
