"""`tap-drill`: the standard drill nearest to h = D - 1.299 P percent / 100, and the thread it leaves."""

from collections.abc import Mapping
from fractions import Fraction

from guide.trade.answer import Answer, Result, decimal
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.fastening.drills import INCH, METRIC, nearest_drill
from guide.trade.fastening.threads import (
    THREAD_INPUT,
    USUAL_PERCENT,
    hole_for_percent,
    percent_cautions,
    percent_of_thread,
    size_words,
    thread_named,
    two_places,
)


def _tap_drill(inputs: Mapping[str, Given]) -> Answer:
    thread = thread_named(needed(inputs, "thread", str))
    wanted = given(inputs, "percent", int) or USUAL_PERCENT
    hole = hole_for_percent(thread, Fraction(wanted))
    drill = nearest_drill(hole, METRIC if thread.metric else INCH)
    percent = percent_of_thread(thread, drill.size)
    named = dict.fromkeys((drill.name, size_words(drill.size)))
    working = (
        f"{thread.name} at {wanted} percent of a full thread: a hole of {size_words(hole)}.",
        f"Nearest drill: {', '.join(named)}, {decimal(percent, 1)} percent.",
    )
    value: dict[str, Result] = {
        "drill": drill.name,
        "size": drill.size,
        "percent": two_places(percent),
    }
    return Answer(value, working, percent_cautions(percent))


COMPUTATION = Computation(
    name="tap-drill",
    about="The standard drill nearest to a percentage of full thread, and what it gives.",
    inputs=(
        THREAD_INPUT,
        Input(
            "percent",
            "count",
            False,
            "percent of a full thread wanted; 75 if left out",
            low=40,
            high=100,
        ),
    ),
    output=Output("mapping", ("drill", "size", "percent")),
    compute=_tap_drill,
    source="ASME B1.1 and Machinery's Handbook, tap drill sizes; drills: ASME B94.11M",
    example="thread=6-32",
)
