"""A language file as it is written, and the words of the commands in it.

A file `<language>.json` beside this module holds everything that is said in that language; the code holds
none of it. Its parts:

    rules           a list of words with their values, or alternatives: a sequence in the notation of
                    `language.py`, or one of the operations there on a sequence
    units           how each unit is said, and the rule that says the numbers before it
    measures        the alternatives of every kind of measure, with <NUMBER>, <UNIT>, <PART> (“of an inch”),
                    <SHARE>, which is the numbers before a part, and <FRACTION> for those of the kind, and
                    <ONE> for a unit in the singular, since “a inches” is heard for “eight inches”; those
                    of one kind alone
    picking         how an answer is picked by its number
    slips           what is easily misheard for what
    pronunciations  of words that a recogniser's dictionary may lack, in the phones of the CMU dictionary
    commands        the words of each command; `declined`: requests that are answered but not done

Every start of the program reads the words of the commands, so this module imports little.
"""

import json
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

LANGUAGES = {"en": "english", "es": "spanish", "ko": "korean"}
"""The file of each language by its code (ISO 639-1)."""

_FOLDER = Path(__file__).parent


class CommandWords(NamedTuple):
    """The words of a command."""

    word: str
    also: tuple[str, ...]
    says: str = ""
    """The answer to a request that the guide cannot do."""


@lru_cache(maxsize=8)
def written(name: str) -> Mapping[str, Any]:
    """A language file as it is written; ValueError if there is none of this name."""
    if name not in languages():
        known = ", ".join(languages())
        raise ValueError(f"There are no words for “{name}”; the languages are {known}.")
    found: dict[str, Any] = json.loads((_FOLDER / f"{name}.json").read_text("utf-8"))
    return found


def languages() -> tuple[str, ...]:
    """The names of the languages there are words for."""
    return tuple(sorted(file.stem for file in _FOLDER.glob("*.json")))


def sayings(name: str, part: str = "commands") -> Mapping[str, CommandWords]:
    """The words of every command of a language, or with `part` "declined" of every declined request."""
    return {
        command: CommandWords(words["word"], tuple(words.get("also", ())), words.get("says", ""))
        for command, words in written(name)[part].items()
    }
