"""The first line of an answer of `hingeside work`: what was calculated, as a fitter says it.

Numbers are rounded to what can be measured; `--json` has them exactly.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from typing import TypeAlias

from guide.measures import Quantity, write
from guide.trade.answer import Result
from guide.trade.shown import rounded

Parts: TypeAlias = Mapping[str, Result]

_CHOICES: dict[tuple[str, str], str] = {
    ("size-and-force", "both"): "One size does both: it closes, and it opens within the limit.",
    (
        "size-and-force",
        "one-or-the-other",
    ): "No one size does both: light to open, or strong to close.",
    ("size-and-force", "force-only"): "It can be light to open, and no size closes it.",
    ("size-and-force", "closing-only"): "It can close, and no size opens within the limit.",
    ("size-and-force", "neither"): "No size closes it, nor opens within the limit.",
    ("marks", "right"): "The marks are right.",
    ("din", "left"): "DIN left",
    ("din", "right"): "DIN right",
    ("hinges-in-front", "left"): "hinges on your left",
    ("hinges-in-front", "right"): "hinges on your right",
}
_AFTER: dict[str, str] = {
    "clear-width": "clear",
    "pressure-force": "at the handle",
    "pressure-limit": "across the leaf, holding it shut",
    "latch-load": "to overcome at the latch",
    "thread-percent": "percent of a full thread",
    "thread-engagement": "threads in the steel",
    "sixteenth": "percent of the power at the latch",
}
"""What follows the number of a computation that gives one."""
_BEFORE: dict[str, str] = {
    "spring-size": "EN size",
    "starting-size": "EN size",
    "door-mass": "about",
}
_LABEL = re.compile(r"[a-z]+(-[a-z0-9]+)*")
"""The form of the labels that computations give: small letters, hyphens between words."""
_YES_NO: dict[tuple[str, bool], str] = {
    ("latched", True): "it latches",
    ("latched", False): "it does not latch",
    ("assembles", True): "the arm goes together",
    ("assembles", False): "the arm cannot be put together",
    ("done", True): "done",
    ("done", False): "not done yet",
    ("impossible", True): "no screw puts it right",
    ("impossible", False): "a screw can put it right",
}


def headline(name: str, value: Result) -> str:
    """The answer of the computation `name` in a line; several parts are parted by “; ”."""
    if isinstance(value, Mapping):
        whole = _WHOLE.get(name)
        return whole(value) if whole else "; ".join(_part(key, one) for key, one in value.items())
    if isinstance(value, str):
        said = _said(value)
        return _CHOICES.get((name, value), f"Not right: {said}." if name == "marks" else said)
    before, after = _BEFORE.get(name, ""), _AFTER.get(name, "")
    return " ".join(filter(None, (before, shown(value), after)))


def row(name: str, value: Result) -> str:
    """One row of an answer that is a list."""
    return headline(name, value) if isinstance(value, Mapping) else shown(value)


def shown(value: Result) -> str:
    """A value by itself."""
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.1f}".removesuffix(".0")
    if isinstance(value, Quantity):
        return rounded(value)
    if isinstance(value, Mapping):
        return "; ".join(_part(key, one) for key, one in value.items())
    if isinstance(value, Sequence) and not isinstance(value, str):
        return ", ".join(shown(one) for one in value)
    return str(value)


def diameter(value: Result) -> str:
    """A drill's diameter: of inches to the four places of a gauge table, or a fraction on the rule."""
    if not isinstance(value, Quantity):
        return shown(value)
    if value.unit != "in" or 64 % value.magnitude.denominator == 0:
        return write(value)
    return f"{float(value.magnitude):.4f} in"


def _said(text: str) -> str:
    """A label without its hyphens; what is not one, such as the name of a part (“drop plate 30-D”), as it is."""
    return text.replace("-", " ") if _LABEL.fullmatch(text) else text


def _part(key: str, value: Result) -> str:
    if isinstance(value, bool) and (key, value) in _YES_NO:
        return _YES_NO[key, value]
    said = _said(value) if isinstance(value, str) else shown(value)
    return f"{key.replace('_', ' ')}: {said}"


def _drill(parts: Parts) -> str:
    name, size = str(parts["drill"]), diameter(parts["size"])
    drill = f"{name} drill" if size == name else f"{name} drill, {size}"
    percent = parts.get("percent")
    if not isinstance(percent, float):
        return drill
    return f"{drill}: {percent:.0f} percent of a full thread"


def _handing(parts: Parts) -> str:
    hand, din = parts["hand"], parts["din"]
    return f"{hand or 'hand not known'}, {f'DIN {din}' if din else 'DIN hand not known'}"


def _turns(parts: Parts) -> str:
    quarters = parts["quarter_turns"]
    if not isinstance(quarters, int) or not quarters:
        return "leave the spring as it is"
    whole, rest = divmod(quarters, 4)
    number = " ".join(
        filter(None, (str(whole) if whole else "", {1: "1/4", 2: "1/2", 3: "3/4"}.get(rest, "")))
    )
    return f"{number} turn{'s' if quarters > 4 else ''} {parts['direction']}"


def _swing(parts: Parts) -> str:
    said = []
    for key, stretch in (
        ("s_90_12", "from 90 to 12 degrees"),
        ("s_12_0", "from 12 degrees to shut"),
    ):
        seconds = parts[key]
        said.append(
            f"{seconds:.1f} s {stretch}" if isinstance(seconds, float) else f"stops {stretch}"
        )
    latches = "it latches" if parts["latched"] else "it does not latch"
    return "; ".join([*said, latches, f"{shown(parts['open_force'])} to open"])


def _pull(parts: Parts) -> str:
    pull, margin = f"{shown(parts['pull'])} on each screw", parts["margin"]
    return pull if margin is None else f"{pull}; it holds {shown(margin)} times that"


def _next(parts: Parts) -> str:
    """What to turn, and whether the force is to be measured after it."""
    said = _said(str(parts.get("turn") or parts["next"]))
    return f"{said} Then measure the opening force." if parts.get("force_due") == "yes" else said


def _moment(parts: Parts) -> str:
    opened, closing = shown(parts["angle"]), shown(parts["closing"])
    return f"at {opened}: closes with {closing}, takes {shown(parts['opening'])} to open"


_WHOLE: dict[str, Callable[[Parts], str]] = {
    "handing": _handing,
    "spring-turns": _turns,
    "tap-drill": _drill,
    "lead-hole": _drill,
    "swing": _swing,
    "moments": _moment,
    "screw-pull": _pull,
    "tune-next": _next,
    "backcheck": _next,
}
"""The answers of several parts that are said as one."""
IN_THE_WORKING = ("fasteners", "linkage", "rules-asked", "rule-notes", "fire-door-gaps")
"""The answers whose parts the working tells one by one."""
