"""The list of computations: what `work`, procedure blocks, the checker and the docs all use.

A new subject is one file with a `COMPUTATIONS` tuple, and one line in `_SUBJECTS` below with the names in it.
A subject is imported once one of its computations is asked for.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module

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

_SUBJECTS = {
    "handing": ("handing", "hand", "din"),
    "spring_size": ("spring-size",),
    "door_mass": ("door-mass",),
    "spring_turns": ("spring-turns",),
    "sheet.lookup": (
        "sheet-body-along",
        "sheet-body-datum",
        "sheet-shoe-along",
        "sheet-shoe-datum",
        "sheet-size-fits",
    ),
    "clear_width": ("clear-width",),
    "pressure": ("pressure-force", "pressure-limit"),
    "latch_load": ("latch-load",),
    "fasteners": ("fasteners",),
    "threads": ("thread-percent", "tap-drill"),
    "sheet_steel": ("thread-engagement",),
    "wood_screws": ("screw-withdrawal", "lead-hole"),
    "screw_pull": ("screw-pull",),
    "chord": ("chord",),
    "arm_at": ("linkage",),
    "moment_rows": ("moments",),
    "size_and_force": ("size-and-force",),
    "holes": ("holes",),
    "hole_sentences": (
        "template-suits",
        "sixteenth",
        "body-part",
        "shoe-part",
        "hinges-in-front",
    ),
    "marks": ("marks",),
    "swing_asked": ("swing",),
    "tune_asked": ("tune",),
    "tune_next": ("tune-next",),
    "backcheck": ("backcheck",),
    "rules_asked": ("access-and-fire",),
}
"""Module of `guide.trade` to the names of its computations, in the order they are listed."""

_SUBJECT_OF = {name: subject for subject, names in _SUBJECTS.items() for name in names}


@cache
def _computation(name: str) -> Computation:
    subject = import_module(f"guide.trade.{_SUBJECT_OF[name]}")
    found: tuple[Computation, ...] = subject.COMPUTATIONS
    return next(one for one in found if one.name == name)


class _Computations(Mapping[str, Computation]):
    """Every computation by its name."""

    def __getitem__(self, name: str) -> Computation:
        return _computation(name)

    def __iter__(self) -> Iterator[str]:
        return iter(_SUBJECT_OF)

    def __len__(self) -> int:
        return len(_SUBJECT_OF)


COMPUTATIONS: Mapping[str, Computation] = _Computations()


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
