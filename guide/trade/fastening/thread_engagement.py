"""`thread-engagement`: how many threads of a screw tapped sheet steel holds.

n = t / P, with the pitch P of the thread and t the thickness of the steel that is tapped: the skin and what backs it.
"""

from collections.abc import Mapping

from guide.trade.answer import Answer, decimal
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.sheet_steel import GAUGES, gauge_named
from guide.trade.fastening.threads import (
    ENOUGH_THREADS,
    THREAD_INPUT,
    thread_named,
    threads_engaged,
)


def _thread_engagement(inputs: Mapping[str, Given]) -> Answer:
    thread = thread_named(needed(inputs, "thread", str))
    gauge = int(needed(inputs, "gauge", str))
    backing = given(inputs, "backing", str)
    count = threads_engaged(thread, GAUGES[gauge])
    working = [
        f"{gauge} gauge steel is {GAUGES[gauge]}: {decimal(count, 1)} threads of {thread.name}."
    ]
    if backing is not None:
        behind = GAUGES[int(backing)]
        count += threads_engaged(thread, behind)
        working.append(
            f"{backing} gauge behind it is {behind}: {decimal(count, 1)} threads in all, if both are tapped."
        )
    cautions: tuple[str, ...] = ()
    if count < ENOUGH_THREADS:
        few = (
            f"{ENOUGH_THREADS} threads are wanted in sheet steel (ANSI/SDI A250.6): use through-bolts or a"
            " thicker plate where the maker's sheet offers them, else turn the last turns by hand."
        )
        cautions = (few,)
    return Answer(float(round(count, 2)), tuple(working), cautions)


_GAUGE_NAMES = tuple(str(gauge) for gauge in GAUGES)


COMPUTATION = Computation(
    name="thread-engagement",
    about="How many threads of a screw tapped sheet steel holds, skin and backing together.",
    inputs=(
        THREAD_INPUT,
        Input(
            "gauge",
            "choice",
            True,
            "gauge of the steel that is tapped",
            _GAUGE_NAMES,
            tidy=gauge_named,
        ),
        Input(
            "backing",
            "choice",
            False,
            "gauge of the plate behind it that is tapped with it; none is counted if left out",
            _GAUGE_NAMES,
            tidy=gauge_named,
        ),
    ),
    output=Output("number"),
    compute=_thread_engagement,
    source="thickness over pitch; gauges: public hollow metal tables after ANSI/SDI A250.8",
    example="thread=1/4-20 gauge=14",
)
