"""The public names of the spoken grammar, for recognition and for speech."""

from guide.words.confusions import neighbours, rivals, settled
from guide.words.grammar import Grammar, Meaning, Offered, Understood, grammar_for, in_words
from guide.words.language import Language, language
from guide.words.language_file import languages
from guide.words.speaking import Spoken, Unsayable, read_back, say, spelled

__all__ = [
    "Grammar",
    "Language",
    "Meaning",
    "Offered",
    "Spoken",
    "Understood",
    "Unsayable",
    "grammar_for",
    "in_words",
    "language",
    "languages",
    "neighbours",
    "read_back",
    "rivals",
    "say",
    "settled",
    "spelled",
]
