"""Fire ratings as schedules write them: 90 MIN, 1 1/2 HR, B LABEL, EI30, FD30S, NR, a dash."""

import re

from guide.site.schedule.cells import quoted
from guide.site.schedule.reading import Question, Reading, not_understood
from guide.site.schedule.words import DASHES

_MINUTES = re.compile(
    r"(?:ei2?[1-2]?|ew|e|t|fd|f|rei|r)?[ -]?(?P<min>\d{2,3})(?P<suffix>(?:[ -]?(?:s200|sa|sm|s|c5|c))*)"
    r"[ -]*(?:min(?:ute)?s?\.?|m|')?(?: ?(?:rated|label|fire(?: door)?|frr))?"
)
_HOURS = re.compile(
    r"(?P<whole>\d)?(?:[ -]?(?P<part>1/2|3/4|1/3|1/4|½|¾|⅓|¼)|\.(?P<tenths>5|75))?[ -]?(?:hrs?|hours?|h)\.?"
    r"(?: ?(?:rated|label))?"
)
_LABEL = re.compile(
    r"(?:ul )?[\"“”'(]?(?P<of>[abcde])[\"“”')]?(?:[ -]label)?|class (?P<named>[abcde])"
)
_LABEL_MINUTES = {"a": 180, "b": 90, "c": 45, "d": 90, "e": 45}
"""The old letters of the openings in which a door is; common practice."""
_PARTS = {
    "1/2": 30,
    "½": 30,
    "5": 30,
    "3/4": 45,
    "¾": 45,
    "75": 45,
    "1/3": 20,
    "⅓": 20,
} | dict.fromkeys(("1/4", "¼"), 15)
_NOT_RATED = (
    *("nr", "n.r.", "not rated", "non-rated", "non rated", "unrated", "nonrated", "0"),
    *("no rating", "not fire rated"),
)
_IN_DOUBT = re.compile(
    r"tbd|tbc|\?+|verify|v\.?i\.?f\.?|existing(?: label)?|ex(?:ist)?\.?|match existing"
)
_TWENTY = 20


def read_rating(text: str) -> Reading:
    """Whether it is a fire door and for how long; a dash says that it is not one."""
    plain = " ".join(text.lower().split())
    if plain in _NOT_RATED or plain in DASHES:
        return Reading({"rated": "no"})
    if _IN_DOUBT.fullmatch(plain):
        asks = Question(f"{quoted(text)} leaves the fire rating open: what is it?", "", "rating")
        return Reading({"rated": "doubt"}, (asks,))
    minutes = _minutes(plain)
    if minutes is None:
        return not_understood(text)
    facts = {"rated": "yes", "rating": "twenty" if minutes <= _TWENTY else "longer"}
    found = _MINUTES.fullmatch(plain)
    if found is not None and "s" in found["suffix"]:
        facts["smoke"] = "yes"
    return Reading(facts)


def _minutes(plain: str) -> int | None:
    """The minutes of a rating; None if it is not one."""
    hours = _HOURS.fullmatch(plain)
    if hours is not None and (hours["whole"] or hours["part"]):
        part = hours["part"] or hours["tenths"]
        return int(hours["whole"] or 0) * 60 + (_PARTS[part] if part else 0)
    found = _MINUTES.fullmatch(plain)
    if found is not None:
        return int(found["min"]) or None
    label = _LABEL.fullmatch(plain)
    return None if label is None else _LABEL_MINUTES[label["of"] or label["named"]]
