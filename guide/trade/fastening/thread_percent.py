"""`thread-percent`: the part of a full thread that a hole leaves for the tap, 100 (D - h) / (1.299 P) percent."""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import Answer, OutOfDomain, decimal
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.fastening.drills import drill_typed
from guide.trade.fastening.threads import (
    THREAD_INPUT,
    hole_for_percent,
    percent_cautions,
    percent_of_thread,
    size_words,
    thread_named,
    two_places,
)


def _thread_percent(inputs: Mapping[str, Given]) -> Answer:
    thread = thread_named(needed(inputs, "thread", str))
    hole = needed(inputs, "hole", Quantity)
    percent = percent_of_thread(thread, hole)
    if not 0 < percent <= 100:
        smallest = hole_for_percent(thread, Fraction(100)).to(hole.unit)
        largest = thread.major.to(hole.unit)
        raise OutOfDomain(
            f"hole {write(hole)} is outside what is worked here for {thread.name}: at least"
            f" {size_words(smallest)} (a full thread) and smaller than {size_words(largest)} (the screw)."
        )
    working = (
        f"{thread.name}: screw {size_words(thread.major)}, hole {size_words(hole.to(thread.major.unit))},"
        f" pitch {size_words(thread.pitch)}: {decimal(percent, 1)} percent of a full thread."
    )
    return Answer(two_places(percent), (working,), percent_cautions(percent))


COMPUTATION = Computation(
    name="thread-percent",
    about="How much of a full thread, in percent, a hole leaves for a tap.",
    inputs=(
        THREAD_INPUT,
        Input(
            "hole",
            "length",
            True,
            "diameter of the hole, or the drill's name, such as No. 7",
            low=Quantity(Fraction("0.02"), "in"),
            high=Quantity(Fraction(1), "in"),
            tidy=drill_typed,
        ),
    ),
    output=Output("number"),
    compute=_thread_percent,
    source="ASME B1.1 and Machinery's Handbook, tap drill sizes",
    example="thread=1/4-20 hole='No. 7'",
)
