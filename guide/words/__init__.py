"""What is said: the words and keys of commands, and the spoken grammar of numbers and measures.

One grammar, written in a language file, gives the recogniser's grammar, the meaning of what was heard, and
the words to say. This part imports `guide.measures` and the standard library only.
"""

from guide.words.commands import ANSWERS, COMMANDS, TOLD, VOICE, Command, Told, by_name, by_word
from guide.words.grammar import Grammar, Meaning, Offered, Understood, grammar_for, in_words
from guide.words.language import Language, language, languages
from guide.words.neighbours import neighbours
from guide.words.speaking import Spoken, Unsayable, read_back, say, spelled

__all__ = [
    "ANSWERS",
    "COMMANDS",
    "TOLD",
    "VOICE",
    "Command",
    "Grammar",
    "Language",
    "Meaning",
    "Offered",
    "Spoken",
    "Told",
    "Understood",
    "Unsayable",
    "by_name",
    "by_word",
    "grammar_for",
    "in_words",
    "language",
    "languages",
    "neighbours",
    "read_back",
    "say",
    "spelled",
]
