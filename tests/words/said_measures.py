"""Scales of measures that a step can ask for, said by the mouth and understood by the ear."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from guide.measures import Quantity
from guide.words.spoken import Grammar, grammar_for, language, say, spelled

ENGLISH = language("english")
SCALES = {
    "every 64th of an inch to 120 in": ("in", Fraction(1, 64), 120),
    "every half millimetre to 3 m": ("mm", Fraction(1, 2), 3000),
    "every millimetre to 3 m, in centimetres": ("cm", Fraction(1, 10), 300),
    "every centimetre to 10 m": ("m", Fraction(1, 100), 10),
    "every half degree to 180": ("deg", Fraction(1, 2), 180),
    "every tenth of a second to two minutes": ("s", Fraction(1, 10), 120),
    "every quarter of a minute to an hour": ("min", Fraction(1, 4), 60),
    "every twentieth of a pound of force to 50": ("lbf", Fraction(1, 20), 50),
    "every half newton to 250": ("N", Fraction(1, 2), 250),
    "every half pound to 500": ("lb", Fraction(1, 2), 500),
    "every quarter kilogram to 250": ("kg", Fraction(1, 4), 250),
    "every hundredth of an inch of water to 2": ("inH2O", Fraction(1, 100), 2),
    "every pascal to 500": ("Pa", Fraction(1), 500),
    "every tenth of a pound foot to 60": ("lbf ft", Fraction(1, 10), 60),
    "every tenth of a newton metre to 80": ("N m", Fraction(1, 10), 80),
}


def steps_of(scale: str) -> list[Quantity]:
    """The measures of a scale, from nothing up."""
    unit, step, most = SCALES[scale]
    return [Quantity(count * step, unit) for count in range(int(most / step) + 1)]


def rule(parts: int) -> list[Quantity]:
    """A rule of ten feet with an inch in so many parts."""
    return [Quantity(Fraction(count, parts), "in") for count in range(120 * parts + 1)]


def understood(ear: Grammar, words: str) -> object:
    """The value of some words, or the words where they have none."""
    meaning = ear.parse(words).meaning
    return words if meaning is None else meaning.value


def misunderstood(
    values: Iterable[Quantity], *, feet: bool = False, digits: bool = False
) -> Iterator[Quantity]:
    """The measures that are understood as something else, said in words or digit by digit."""
    ears: dict[str, Grammar] = {}
    for value in values:
        ear = ears.setdefault(value.kind, grammar_for(value.kind))
        words = spelled(value, ENGLISH) if digits else say(value, ENGLISH, feet=feet)
        if understood(ear, words) != value:
            yield value
