"""Sheet steel of doors, frames and reinforcement: thickness by gauge, and the thread it holds."""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.decimals import decimal
from guide.trade.fastening.threads import THREAD_INPUT, thread_named, threads_engaged

GAUGES = {
    20: Quantity(Fraction("0.032"), "in"),
    18: Quantity(Fraction("0.042"), "in"),
    16: Quantity(Fraction("0.053"), "in"),
    14: Quantity(Fraction("0.067"), "in"),
}
"""Gauge to least thickness [length]; ANSI/SDI A250.8 (from memory)."""

CLOSER_REINFORCEMENT = 14
"""Usual gauge of a closer's reinforcement; ANSI/SDI A250.8 (from memory)."""

ENOUGH_THREADS = 2
"""Below this many threads in the metal we ask for through-bolts where the sheet allows them; a
figure of ours."""


def gauge_named(text: str) -> str:
    """A gauge as typed ("14 ga", "14 gauge") as its figures."""
    return text.lower().removesuffix("gauge").removesuffix("ga").strip()


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


COMPUTATIONS = (
    Computation(
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
    ),
)
