"""The words of the trade that stand in a step, each with its meaning, from the handbook's own glossary.

An entry of the glossary is a line such as `- **Hinge edge, latch edge**: the edge with the hinges, and ...`. Its
names are found as whole words, also in the plural, and not in an everyday phrase such as "by hand".
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from guide.handbook.pages import page_text
from guide.run.pages.page import Page, Section, page
from guide.run.prompt import Prompt

GLOSSARY = "words-of-the-trade"
_ENTRY = re.compile(r"^- \*\*(?P<names>[^*]+)\*\*(?P<of>[^:]*): (?P<meaning>.+(?:\n  .+)*)", re.M)
_EVERYDAY = re.compile(
    r"\b(?:by|in|a|one|two|both|your|other|last|free) hands?\b|\bhands? (?:it|on|over|screwdriver|tools?)\b"
    r"|\bhand's width\b|\bsweep (?:it|up|the|no)\b|\bdo not sweep\b|\bhold-open\b|\bmay hold\b|\bor a mark\b"
    r"|\bholds? (?:it|the|a|them|this|both|back|up|down|on|nothing|here)\b|\bmark (?:it|the|both|each|nothing)\b",
    re.IGNORECASE,
)
"""Phrases in which a word of the glossary is not one of the trade."""


@dataclass(frozen=True, slots=True)
class TradeWord:
    """An entry of the glossary."""

    names: tuple[str, ...]
    """As the handbook writes them, the first letter a capital."""
    of: str
    """What is meant by them, if they have another meaning too: "of the closer"; else empty."""
    meaning: str

    @property
    def told(self) -> str:
        """The entry in one line."""
        of = f" ({self.of})" if self.of else ""
        return f"{', '.join(self.names)}{of}: {self.meaning}"


@cache
def glossary() -> tuple[TradeWord, ...]:
    """Every entry of the handbook's glossary, in its order."""
    return tuple(
        TradeWord(
            tuple(name.strip() for name in one["names"].split(",")),
            one["of"].strip(" ()"),
            " ".join(one["meaning"].split()),
        )
        for one in _ENTRY.finditer(page_text("user", GLOSSARY))
    )


def words_in(texts: Iterable[str]) -> list[TradeWord]:
    """The entries of which a name stands in one of the texts, in the order of the glossary."""
    text = _EVERYDAY.sub(" ", "\n".join(texts))
    return [one for one in glossary() if any(_stands(name, text) for name in one.names)]


def _stands(name: str, text: str) -> bool:
    return re.search(rf"\b{re.escape(name)}(?:e?s)?\b", text, re.IGNORECASE) is not None


def texts_of(shown: Prompt) -> list[str]:
    """Every text of a step that a person reads."""
    return [
        *(text for one in shown.passed for text in (one.text, *one.working)),
        shown.text,
        *(sentence for _, sentence in shown.cautions),
        *(choice.text for choice in shown.accepts.choices),
        *(hole.text for hole in shown.holes),
        *(line.text for line in shown.card_lines),
        *(f"{name}: {value}" for name, value in shown.read_back),
        *(shown.why, shown.watch, shown.looks_right, shown.find_out, shown.drawing_says),
        *(*shown.working, *shown.tools, *shown.parts, *shown.safe),
    ]


def words_page(shown: Prompt) -> Page:
    """The words of the trade in a step; where there is none, every word of the glossary."""
    found = words_in(texts_of(shown))
    if found:
        return page("Words of the trade in this step", _section(found))
    return page("Words of the trade", _section(glossary()))


def _section(words: Iterable[TradeWord]) -> Section:
    return Section("", tuple(one.told for one in words))
