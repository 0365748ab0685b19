"""Sizes of leaves as schedules write them: 3'-0" x 7'-0", 3070, 900 x 2100, 36", 2-8.

A number without a unit is never guessed cell by cell. `bare_unit` looks at a whole column, and a number that does not
fit what the others are becomes a question.
"""

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from fractions import Fraction

from guide.measures import MeasureError, Quantity, parse, write
from guide.procedure.facts import Fact, bare
from guide.site.schedule.cells import quoted
from guide.site.schedule.reading import Question, Reading, asked, not_understood, together

UNIT_WORDS = {"in": "inches", "mm": "millimetres", "cm": "centimetres", "ft": "feet", "m": "metres"}
BARE_UNITS = tuple(UNIT_WORDS)
"""The units that numbers without a unit can be in."""
_BARE = re.compile(r"(?!0\d)\d+(?:[.,]\d+)?(?: \d+/\d+)?|\d+[ -]\d+/\d+|\d+/\d+")
_FEET_AND_INCHES = re.compile(r"(\d{1,2})['’′]?[ ]?[-–][ ]?(\d{1,2}(?:[ -]\d+/\d+)?)[\"”″]?")
_LETTER = re.compile(
    r"(?:(?<=[\d\"”″' m])|^) ?(?:w|h|t|wide|high|thk|width|height)\.?$", re.IGNORECASE
)
_BETWEEN = re.compile(r" *(?:[x×*]| by ) *", re.IGNORECASE)
_PAIR = re.compile(
    r"^(?:(?:pr|pair|pairs|dbl|double)\b\.?(?: of)?|\(?2\)?[ ]?(?:/|x|ea|no)(?= ?\d))[ :/-]*",
    re.IGNORECASE,
)
_PAIR_AFTER = re.compile(r"[ ,;(]+(?:pr|pair|dbl|double)\.?\)?$", re.IGNORECASE)
_CODE = re.compile(r"\d{4,6}")
_CODES = (
    re.compile(r"(\d)(\d)(\d)(\d)"),
    re.compile(r"(\d)(1[01])(\d)(\d)"),
    re.compile(r"(\d)(\d)(\d)(1[01])"),
    re.compile(r"(\d)(1[01])(\d)(1[01])"),
)
"""Feet and inches of width and height, run together: 3070 is 3'-0" x 7'-0", 21068 is 2'-10" x 6'-8"."""
PARTS = ("width", "height", "thickness")
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}\b)")

A_PAIR = Question(
    "The row is for a pair: which leaf gets the closer, the one that opens first or second?",
    fact="leaves",
)


def is_bare(text: str) -> bool:
    """Whether a length is a number without a unit."""
    return _BARE.fullmatch(_tidied(text)) is not None


def bare_unit(texts: Iterable[str], fact: Fact) -> str:
    """The unit in which most of a column's numbers lie in the range of its fact, those that name their unit among them;
    empty if none or two do."""
    count: Counter[str] = Counter()
    for text in texts:
        if is_bare(text):
            count.update(unit for unit in BARE_UNITS if _fits(_tidied(text), unit, fact))
        else:
            found = _length(text, fact, "")
            if isinstance(found, Quantity):
                count["in" if found.unit == "ft" else found.unit] += 1
    ranked = count.most_common(2)
    if not ranked or (len(ranked) == 2 and ranked[0][1] == ranked[1][1]):
        return ""
    return ranked[0][0]


def read_length(text: str, name: str, fact: Fact, unit: str) -> Reading:
    """One length, for the fact of that name. `unit` is that of a number without one; empty if it is not known."""
    found = _length(text, fact, unit)
    if isinstance(found, Quantity):
        return Reading({name: write(found)})
    return found


def is_code(text: str, facts: Mapping[str, Fact]) -> bool:
    """Whether a number can only be feet and inches of width and height, run together."""
    plain = _tidied(text)
    if not _CODE.fullmatch(plain) or any(_fits(plain, unit, facts["width"]) for unit in BARE_UNITS):
        return False
    return not _coded(text, plain, facts).left


def read_size(text: str, facts: Mapping[str, Fact], units: Mapping[str, str]) -> Reading:
    """Width, height and perhaps thickness in one cell; `units` are those of bare numbers, by fact."""
    plain = _tidied(text)
    pair = _PAIR.match(plain) or _PAIR_AFTER.search(plain)
    if pair:
        plain = (plain[: pair.start()] + plain[pair.end() :]).strip()
    whole = Reading(questions=(A_PAIR,) if pair else ())
    if _CODE.fullmatch(plain):
        return together(_coded(text, plain, facts), whole)
    parts = _BETWEEN.split(plain)
    if not 2 <= len(parts) <= 3:
        return not_understood(text)
    readings = [
        read_length(part, name, facts[name], units.get(name, ""))
        for part, name in zip(parts, PARTS, strict=False)
    ]
    failed = [one for one in readings if not one.facts]
    if not failed:
        return together(*readings, whole)
    turned = [
        read_length(part, name, facts[name], units.get(name, ""))
        for part, name in zip(parts, ("height", "width"), strict=False)
    ]
    if all(one.facts for one in turned):
        return asked(
            f"{quoted(text)} seems to have the height first: which number is the width?", "width"
        )
    questions = [one for one in failed if one.questions]
    if questions and len(questions) == len(failed):
        return together(*readings, whole)
    return not_understood(text, next((one.why for one in failed if one.why), ""))


def _coded(text: str, digits: str, facts: Mapping[str, Fact]) -> Reading:
    """Feet and inches run together. No leaf is as low as a second reading of the same digits would have it."""
    for pattern in _CODES:
        match = pattern.fullmatch(digits)
        if match is None:
            continue
        feet, inches, high_feet, high_inches = map(int, match.groups())
        height = high_feet * 12 + high_inches
        if not _inside(height, facts["height"]):
            continue
        high = Reading({"height": f"{height} in"})
        width = feet * 12 + inches
        if _inside(width, facts["width"]):
            return together(Reading({"width": f"{width} in"}), high)
        wide = _too_wide(text, Quantity(Fraction(width), "in"), facts["width"])
        return together(wide, high)
    return not_understood(text, "no leaf has such a size in feet and inches")


def _length(text: str, fact: Fact, unit: str) -> "Quantity | Reading":
    plain = _LETTER.sub("", _tidied(text)).strip()
    if _BARE.fullmatch(plain):
        return _bare_length(text, plain, fact, unit)
    joined = _FEET_AND_INCHES.fullmatch(plain)
    if joined is not None:
        plain = f"{joined[1]} ft {joined[2]} in"
    elif bare(plain):
        return not_understood(text, "it is not written as a measure is")
    try:
        found = parse(plain, "length")
    except MeasureError as error:
        return not_understood(text, f"{error.why}")
    return found if _takes(found, fact) else _too_wide(text, found, fact)


def _bare_length(text: str, plain: str, fact: Fact, unit: str) -> "Quantity | Reading":
    """A number without a unit, in that of its column."""
    units = [one for one in BARE_UNITS if _fits(plain, one, fact)]
    if unit in units:
        return parse(f"{plain} {unit}", "length")
    if unit:
        wide = _too_wide(text, parse(f"{plain} {unit}", "length"), fact)
        if wide.questions or not units:
            return wide
        words = UNIT_WORDS[unit]
        return asked(
            f"{quoted(text)} has no unit, and does not fit in {words} as its column is: {_asks(fact)}",
            fact.name,
        )
    if not units:
        return not_understood(text, "no leaf has that measure in any unit")
    return asked(
        f"{quoted(text)} has no unit, and its column does not tell which: {_asks(fact)}", fact.name
    )


def _too_wide(text: str, found: Quantity, fact: Fact) -> Reading:
    """A measure past the range of its fact: two leaves in one width, or a slip."""
    high = fact.high
    if (
        fact.name == "width"
        and isinstance(high, Quantity)
        and high < found <= Quantity(high.magnitude * 2, high.unit)
    ):
        return asked(
            f"{quoted(text)} is wider than one leaf: if it is a pair, how wide is each leaf?",
            "width",
        )
    low = fact.low
    return not_understood(text, f"from {low} to {high} is possible for it")


def _asks(fact: Fact) -> str:
    return fact.ask[:1].lower() + fact.ask[1:]


def _tidied(text: str) -> str:
    plain = (
        text.replace("”", '"')
        .replace("’", "'")
        .replace("″", '"')
        .replace("′", "'")
        .replace("''", '"')
    )
    return _DECIMAL_COMMA.sub(".", " ".join(plain.split()).strip(" ,;"))


def _fits(plain: str, unit: str, fact: Fact) -> bool:
    try:
        return _takes(parse(f"{plain} {unit}", "length"), fact)
    except MeasureError:
        return False


def _takes(found: Quantity, fact: Fact) -> bool:
    return fact.low is None or fact.high is None or fact.low <= found <= fact.high  # type: ignore[operator]


def _inside(inches: int, fact: Fact) -> bool:
    return _takes(Quantity(Fraction(inches), "in"), fact)
