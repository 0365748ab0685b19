"""Rules of speech: answers and commands that sound alike, and steps too long to hear at once."""

from collections.abc import Iterator
from functools import lru_cache

from guide.checker.manual import at_block, at_part
from guide.files.findings import Finding
from guide.procedure.facts import Option
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded
from guide.words.commands import ANSWERS, COMMANDS
from guide.words.sounds import alike

YES_NO = ("yes", "no")
"""The tool's own words, which a file does not choose; they are read back before they count."""
MOST_SPOKEN = 60
"""Words of one question that are compared; nobody is asked to say one of more."""
LONGEST_STEP = 20
"""Words of a step. Common practice in writing instructions: one action, one short sentence."""
LONGEST_SPOKEN = 12
"""Words that a listener follows at once; a longer step needs a short form to say."""


def sounds_alike(loaded: Loaded) -> Iterator[Finding]:
    """Each answer that sounds like an earlier answer of its fact, or like a command."""
    for name, fact in loaded.facts.items():
        source, path = loaded.declared[name]
        for label, said, other in _taken_for(tuple(fact.options.values()), fact.unsure):
            message = f"“{said}” sounds like {other}; give one of the two another word under say."
            place = (*path, fact.kind, label)
            yield at_part(source, place, "sounds-alike", message, key=True)


def step_long(graph: Graph) -> Iterator[Finding]:
    """Each step whose text has more words than `LONGEST_STEP`."""
    for node in graph.nodes:
        count = len(node.body.get("text", "").split())
        if node.kind in ("do", "time", "check", "work") and count > LONGEST_STEP:
            message = (
                f"“{node.id}” has {count} words, and a step has {LONGEST_STEP} at most; "
                "make two steps of it."
            )
            yield at_block(node, "step-long", message)


def say_missing(graph: Graph) -> Iterator[Finding]:
    """Each `do` of more words than `LONGEST_SPOKEN` without a `say`."""
    for node in graph.nodes:
        count = len(node.body.get("text", "").split())
        if node.kind == "do" and count > LONGEST_SPOKEN and "say" not in node.body:
            message = f"“{node.id}” has {count} words and no short form to say; add say."
            yield at_block(node, "say-missing", message)


@lru_cache(maxsize=1024)
def _taken_for(options: tuple[Option, ...], unsure: bool) -> list[tuple[str, str, str]]:
    """Label, what is said for it, and what that is mistaken for; at most one for each answer. Kept, because
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
    """The spoken commands that can be said at a question, without keys written as one letter."""
    asked = [command for command in COMMANDS if command.name not in YES_NO]
    asked += [answer for answer in ANSWERS if answer.name == "unsure" and unsure]
    return [word for one in asked for word in (one.word, *one.also) if len(word) > 1]
