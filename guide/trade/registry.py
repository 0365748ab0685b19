"""The list of computations: what `work`, procedure blocks, the checker and the docs all use.

A new subject is one file with a `COMPUTATIONS` tuple, added to `_SUBJECTS` below.
"""

from collections.abc import Mapping
from types import MappingProxyType

from guide.trade import (
    arm_at,
    chord,
    clear_width,
    door_mass,
    fasteners,
    handing,
    hole_sentences,
    holes,
    latch_load,
    marks,
    moment_rows,
    pressure,
    screw_pull,
    sheet_lookup,
    sheet_steel,
    size_and_force,
    spring_size,
    spring_turns,
    threads,
    wood_screws,
)
from guide.trade.answer import Answer, BadInput
from guide.trade.computation import Computation, Given, Input, Output
from guide.trade.reading import check_value, name_problems, read_inputs
from guide.trade.spelling import unknown

__all__ = [
    "COMPUTATIONS",
    "Computation",
    "Given",
    "Input",
    "Output",
    "find",
    "read_inputs",
    "run",
]

_SUBJECTS = (
    handing,
    spring_size,
    door_mass,
    spring_turns,
    sheet_lookup,
    clear_width,
    pressure,
    latch_load,
    fasteners,
    threads,
    sheet_steel,
    wood_screws,
    screw_pull,
    chord,
    arm_at,
    moment_rows,
    size_and_force,
    holes,
    hole_sentences,
    marks,
)

COMPUTATIONS: Mapping[str, Computation] = MappingProxyType(
    {one.name: one for subject in _SUBJECTS for one in subject.COMPUTATIONS}
)


def find(name: str) -> Computation:
    """The computation of that name; BadInput with the nearest spelling if there is none."""
    try:
        return COMPUTATIONS[name]
    except KeyError:
        raise BadInput(unknown("a computation", name, COMPUTATIONS)) from None


def run(name: str, inputs: Mapping[str, Given]) -> Answer:
    """Check the inputs and work the computation.

    Raises BadInput (a name, kind or choice is wrong, or a required input missing), OutOfDomain
    (past an input's limits) or NoAnswer (nothing in the table or the trade fits).
    """
    computation = find(name)
    problems = name_problems(computation, inputs)
    if problems:
        raise BadInput(" ".join(problems))
    for wanted in computation.inputs:
        if wanted.name in inputs:
            check_value(wanted, inputs[wanted.name])
    return computation.compute(inputs)
