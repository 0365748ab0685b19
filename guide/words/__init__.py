"""The words and keys of commands, and the spoken grammar of numbers and measures.

One context-free grammar, in a language file, gives the recogniser's grammar, the meaning of what was heard, and
the words to say: see `spoken`. It is not imported here, because every start of the program needs the commands
and few need the grammar. This part imports `guide.measures` and the standard library only.
"""

from guide.words.commands import (
    ANSWERS,
    COMMANDS,
    DECLINED,
    PAGES,
    VOICE,
    Command,
    Declined,
    by_name,
    by_word,
)

__all__ = [
    "ANSWERS",
    "COMMANDS",
    "DECLINED",
    "PAGES",
    "VOICE",
    "Command",
    "Declined",
    "by_name",
    "by_word",
]
