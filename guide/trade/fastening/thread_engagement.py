"""`thread-engagement`: how many threads of a screw a tapped steel sheet holds.

n = t / P, with the thickness t of the sheet and the pitch P of the thread.
"""

from collections.abc import Mapping

from guide.trade.answer import Answer, decimal
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.door.sheet_steel import GAUGES, gauge_named
from guide.trade.fastening.threads import THREAD_INPUT, thread_named, threads_engaged

ENOUGH_THREADS = 2
"""Below this many threads in the metal we advise through-bolts if the sheet allows them; a
figure of ours."""


def _thread_engagement(inputs: Mapping[str, Given]) -> Answer:
    thread = thread_named(needed(inputs, "thread", str))
    gauge = int(needed(inputs, "gauge", str))
    count = threads_engaged(thread, GAUGES[gauge])
    working = (
        f"{gauge} gauge steel is {GAUGES[gauge]}: {decimal(count, 1)} threads of {thread.name}."
    )
    cautions: tuple[str, ...] = ()
    if count < ENOUGH_THREADS:
        cautions = (
            (
                "So few threads strip easily: hand-tighten the last turns, and use through-bolts where"
                " the maker's sheet offers them."
            ),
        )
    return Answer(float(round(count, 2)), (working,), cautions)


COMPUTATION = Computation(
    name="thread-engagement",
    about="How many threads of a screw a tapped steel sheet holds.",
    inputs=(
        THREAD_INPUT,
        Input(
            "gauge",
            "choice",
            True,
            "gauge of the steel that is tapped",
            tuple(str(gauge) for gauge in GAUGES),
            tidy=gauge_named,
        ),
    ),
    output=Output("number"),
    compute=_thread_engagement,
    source="thickness over pitch; gauges: ANSI/SDI A250.8 (from memory)",
)
