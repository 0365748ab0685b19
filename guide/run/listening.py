"""The spoken grammar of one step, and the refusal of values that are outside its fact's range."""

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Protocol

from guide.measures import Quantity
from guide.procedure.facts import UNSURE, Fact, Value
from guide.words import by_name
from guide.words.language_file import sayings
from guide.words.spoken import (
    Grammar,
    Language,
    Meaning,
    Offered,
    Unsayable,
    grammar_for,
    neighbours,
)

_OF_COMMANDS = ("yes", "no", UNSURE)
"""Answers that are commands too, and so have words in every language."""

Takes = Callable[[Meaning], str]
"""Why a meaning is impossible here, in one sentence; empty if it is possible."""


def grammar_of_fact(
    fact: Fact,
    system: str,
    commands: Iterable[str] = (),
    *,
    in_language: str = "english",
    digits: bool = False,
) -> Grammar:
    """The grammar of the answers to one fact, with the commands there; with `digits`, of numbers said
    digit by digit alone."""
    return grammar_for(
        _kind(fact),
        system,
        choices=offered(fact, in_language),
        commands=commands,
        in_language=in_language,
        digits=digits,
    )


def offered(fact: Fact, in_language: str = "english") -> tuple[Offered, ...]:
    """The answers to pick from, each with everything that may be said for it.

    A procedure's own words are English; in another language yes, no and “I don't know” have words, and every
    other answer is picked by its number.
    """
    if in_language != "english":
        said = sayings(in_language)
        labels = [*fact.options, *([UNSURE] if fact.unsure else [])]
        return tuple(
            Offered(label, (said[label].word, *said[label].also) if label in _OF_COMMANDS else ())
            for label in labels
        )
    found = [
        Offered(
            one.label, tuple(dict.fromkeys((one.say or one.text, one.text, one.label, *one.also)))
        )
        for one in fact.options.values()
    ]
    if fact.unsure:
        unsure = by_name("unsure")
        found.append(Offered(UNSURE, (unsure.word, *unsure.also)))
    return tuple(found)


def takes(fact: Fact, system: str) -> Takes:
    """Refuses measures and counts outside the fact's range, and accepts everything else."""

    def refusal(meaning: Meaning) -> str:
        value = meaning.value
        if meaning.kind == "measure" and isinstance(value, Quantity) and not fact.takes(value):
            return _measure_refused(fact, value, system)
        if meaning.kind == "count" and not _counts(fact, value):
            return f"{value} cannot be here; {fact.wanted(system)}."
        return ""

    return refusal


def _measure_refused(fact: Fact, value: Quantity, system: str) -> str:
    low, high = fact.low, fact.high
    inside = isinstance(low, Quantity) and isinstance(high, Quantity) and low <= value <= high
    if inside and fact.step is not None:
        return f"{value} is finer than this is measured; say it to the nearest {fact.step}."
    return f"{value} cannot be here; {fact.wanted(system)}."


def _counts(fact: Fact, value: object) -> bool:
    if not isinstance(value, int | Fraction) or value != int(value):
        return False
    low, high = fact.low, fact.high
    return (not isinstance(low, int) or low <= value) and (
        not isinstance(high, int) or value <= high
    )


def _kind(fact: Fact) -> str:
    if fact.kind in ("choice", "yesno"):
        return "choice"
    return "nothing" if fact.kind == "text" else fact.kind


def likely_meant(fact: Fact, heard: Value, system: str, language: Language) -> Value | None:
    """The likeliest value of the fact that is misheard as `heard`, such as fifteen for fifty; None if there is none."""
    if isinstance(heard, str):
        return None
    try:
        near = neighbours(heard, language)
    except Unsayable:
        return None
    refusal = takes(fact, system)
    for value in near:
        if isinstance(value, Quantity | int):
            kind = "measure" if isinstance(value, Quantity) else "count"
            if not refusal(Meaning(kind, value)):
                return value
    return None


class SpeechListener(Protocol):
    """Gets what was heard; called in the thread of speech recognition."""

    def ready(self) -> None:
        """Listening has begun."""

    def begins(self) -> None:
        """Somebody began to speak."""

    def heard(self, meaning: Meaning, words: str, confidence: float, turn: object) -> None:
        """Words with a meaning; `turn` is that of the `listen_for` they were heard under."""

    def missed(self, why: str, told: str, confidence: float) -> None:
        """Something was said, or sounded so, and does not count: a code for why, a sentence, and the confidence,
        0 to 1, that it was anything that may be said here."""

    def trouble(self, sentence: str) -> None:
        """Listening has ended by itself."""
