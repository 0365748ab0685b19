"""The side of a line that a number of the paper is on, in words: nobody has to know what a minus means."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from guide.errors import FOUND, HingesideError
from guide.translation import _

_NUMBER = re.compile(
    r"(?P<sign>[+−–-]?)\s*(?P<number>\d+(?:\.\d+)?(?:\s+\d+/\d+|/\d+)?)"
    r"\s*(?P<unit>in(?:ch(?:es)?)?\b|mm\b|cm\b|[\"″])?",
    re.ASCII,
)
_WORD = re.compile(r"[^\W_]+")
_FILLERS = frozenset(
    (
        *(
            "a",
            "an",
            "and",
            "at",
            "by",
            "center",
            "centre",
            "down",
            "edge",
            "end",
            "from",
            "in",
            "is",
            "it",
        ),
        *(
            "line",
            "of",
            "on",
            "pinion",
            "pivot",
            "screw",
            "side",
            "that",
            "the",
            "them",
            "to",
            "toward",
        ),
        *("towards", "way"),
    )
)


class NotASide(HingesideError):
    """Words that name no side; the message says which there are."""

    status = FOUND


@dataclass(frozen=True, slots=True)
class Sides:
    """The two sides of the line that a number is measured from, or the only one that it can be on."""

    plus: str
    """The side that a sheet has without a minus, a phrase."""
    minus: str
    """The other side; empty if the number cannot be there."""
    words: Mapping[str, int] = field(default_factory=dict, hash=False)
    """A word in small letters to 1 or -1."""
    away: int = 0
    """What “away” alone means; with another word it turns that word round. 0 if it means nothing alone."""

    def sign(self, words: str) -> int:
        """1 or -1 for a side in words; 0 for none. Raises NotASide for words that name none, or both."""
        found = [one.casefold() for one in _WORD.findall(words)]
        signs = {self.words[one] for one in found if one in self.words}
        unknown = [one for one in found if one not in self.words and one not in {"away"} | _FILLERS]
        if unknown or len(signs) > 1:
            raise NotASide(
                _("“{words}” names no side here; type {choice}.").format(
                    words=words.strip(), choice=self.choice
                )
            )
        sign = signs.pop() if signs else 0
        if "away" in found:
            return -sign or self.away
        return sign

    @property
    def choice(self) -> str:
        """The sides, as the end of a sentence."""
        return (
            f"{self.plus}, or {self.minus}"
            if self.minus
            else _("the number alone: {plus}").format(plus=self.plus)
        )

    def told(self, text: str) -> str:
        """The text of a sheet, such as “-4 3/4 in”, with its side in words."""
        if not self.minus or not any(one in "123456789" for one in text):
            return text
        size = text.removeprefix("-")
        return f"{size} {self.plus if size == text else self.minus}"

    def split(self, typed: str) -> tuple[str, int]:
        """The number as it was typed without its sign, and the side; 0 where no word says which.

        A sign that was typed says nothing: what a minus means on a paper, only the paper knows. Raises NotASide.
        """
        found = _NUMBER.search(typed)
        if found is None:
            return typed, 0
        rest = f"{typed[: found.start()]} {typed[found.end() :]}"
        number = f"{found['number']} {found['unit'] or ''}".strip()
        if re.search(r"[\d/.]", rest):
            return typed, 0
        sign = self.sign(rest)
        if self.minus:
            return number, sign
        if sign < 0 or found["sign"] not in ("", "+"):
            raise NotASide(
                _("Here it can only be {plus}; type the number alone.").format(plus=self.plus)
            )
        return number, 1


def up_and_down(plus: str, minus: str) -> Sides:
    """Down is the side without a minus."""
    words = dict.fromkeys(("below", "down", "lower", "lowers", "under", "beneath", "downward"), 1)
    words |= dict.fromkeys(("above", "up", "upper", "over", "raises", "upward", "higher"), -1)
    return Sides(plus, minus, words)


def out_or_up_and_down() -> Sides:
    """Of what is under a soffit or on a face: down, or away from the leaf."""
    both = up_and_down(_("below it (under a soffit: away from the leaf)"), _("above it"))
    words = {**both.words, "out": 1, "outward": 1, "leaf": -1}
    return Sides(both.plus, both.minus, words, away=1)


def of_the_door() -> Sides:
    """Toward the latch edge is the side without a minus."""
    words = dict.fromkeys(("latch", "lock", "latches"), 1) | dict.fromkeys(("hinge", "hinges"), -1)
    return Sides(_("toward the latch edge"), _("toward the hinge edge"), words)


def of_the_body(ends: tuple[str, ...]) -> Sides:
    """Toward the valves is the side without a minus; `ends` are the paper's names of the ends, that of the valves
    first, if it has any."""
    words = dict.fromkeys(("valve", "valves"), 1) | dict.fromkeys(("other", "opposite"), -1)
    if len(ends) != 2:
        return Sides(_("toward the valves"), _("away from the valves"), words, away=-1)
    valves, other = ends
    words |= {valves.casefold(): 1, other.casefold(): -1}
    return Sides(
        _("toward {valves} (valves)").format(valves=valves),
        _("toward {other}").format(other=other),
        words,
        away=-1,
    )


def only(plus: str, *words: str) -> Sides:
    """A number that can be on one side alone."""
    sense = {**dict.fromkeys(words, 1)}
    opposite = {"below": "above", "above": "below", "down": "up", "up": "down"}
    sense |= {opposite[one]: -1 for one in words if one in opposite}
    return Sides(plus, "", sense)
