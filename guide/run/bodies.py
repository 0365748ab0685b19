"""The exact shape of each kind of event's body, so that one of another program is found as it is folded."""

import re
from typing import Any

from guide.files.plain_data import Shape, each, flag, keyed, mapping, number, text, whole
from guide.text import LONGEST_NOTE

_AT = text(2200)
_VALUE = text(2000)
_WORDS = text(LONGEST_NOTE)
_NAME = text(60)
_LONG = text(100_000)
"""An input of a computation may hold a line for each round so far."""
_SWINGS = each(text(60), 200)


def _raw(data: Any) -> bool:
    """Something that is looked at when the run is folded, whatever it is."""
    return True


def _digest(data: Any) -> bool:
    """A SHA-256, and so never the name of a file."""
    return isinstance(data, str) and re.fullmatch("[0-9a-f]{64}", data) is not None


_TIMED: dict[str, Shape] = {"swings": _SWINGS, "dropped": _SWINGS}
_GIVEN: dict[str, Shape] = {**_TIMED, "looked": flag, "together": flag}
_HEARD: dict[str, Shape] = {"words": _WORDS, "confidence": number, "doubt": _WORDS, "by": _NAME}
_START = {"graph": _raw, "sheet": _raw, "units": _raw, "about": _raw}

BODIES: dict[str, Shape] = {
    "started": keyed(
        {
            **_START,
            "procedure": _VALUE,
            "title": _VALUE,
            "digest": text(64),
            "supplied": mapping(_NAME, _VALUE),
            "offset": _NAME,
        },
        {"carried": each(_NAME, 400)},
    ),
    "answered": keyed({"at": _AT, "value": _VALUE}, {**_GIVEN, "carried": flag}),
    "timed": keyed({"at": _AT, "value": _VALUE}, _TIMED),
    "revised": keyed({"at": _AT, "value": _VALUE}, _GIVEN),
    "heard": keyed({"at": _AT, "value": _VALUE}, {**_HEARD, **_GIVEN}),
    "confirmed": keyed({"at": _AT, "yes": flag}),
    "worked": keyed(
        {"fact": _NAME, "inputs": mapping(_NAME, _LONG), "value": _LONG},
        {"reason": _LONG, "working": each(_LONG), "cautions": each(_LONG)},
    ),
    "done": keyed({"at": _AT}),
    "noted": keyed({"at": _AT, "text": _WORDS}),
    "corrected": keyed({"at": _AT, "text": _WORDS}),
    "photo added": keyed(
        {
            "at": _AT,
            "name": text(400),
            "shows": _WORDS,
            "bytes": whole(1, 10**9),
            "sha256": _digest,
            "original": _digest,
        }
    ),
    "cut begun": keyed({"at": _AT}),
    "cut resolved": keyed({"at": _AT, "how": _NAME}, {"note": _WORDS}),
    "hold passed": keyed({"at": _AT, "values": mapping(_NAME, _LONG)}),
    "paused": keyed({}),
    "resumed": keyed({}),
    "repaired": keyed(
        {
            **dict.fromkeys(("cause", "aside", "sha256"), text(400)),
            **dict.fromkeys(("bytes", "lines"), whole(0, 10**12)),
        }
    ),
    "ended": keyed({"outcome": _NAME}, {"why": _WORDS, "safe": each(_WORDS, 40)}),
    "taken up": keyed({"why": _WORDS}),
}
"""By kind; a kind that is not here is one that this version does not know."""


def right_body(kind: str, body: dict[str, Any]) -> bool:
    """Whether this program writes such a body for an event of this kind; True for a kind that is not known."""
    shape = BODIES.get(kind)
    return shape is None or shape(body)
