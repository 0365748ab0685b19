"""The list of computations: what `work`, procedure blocks, the checker and the docs all use.

The computation `door-mass` is `COMPUTATION` in `door/door_mass.py`: a new one is a file of its name and a line of
`_FOLDERS` below. A module is imported when its computation is first used.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module

from guide.text import unknown
from guide.trade.answer import Answer, BadInput
from guide.trade.computation import Computation, Given, Input, Output
from guide.trade.reading import check_value, name_problems, read_inputs

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

_FOLDERS = {
    "handing": "door",
    "hand": "door",
    "din": "door",
    "spring-size": "size",
    "door-mass": "door",
    "spring-turns": "size",
    "sheet-body-along": "sheet",
    "sheet-body-datum": "sheet",
    "sheet-shoe-along": "sheet",
    "sheet-shoe-datum": "sheet",
    "sheet-size-fits": "sheet",
    "sheet-loaded": "sheet",
    "body-valves": "sheet",
    "clear-width": "door",
    "pressure-force": "door",
    "pressure-limit": "door",
    "latch-load": "swing",
    "fasteners": "fastening",
    "thread-percent": "fastening",
    "tap-drill": "fastening",
    "thread-engagement": "fastening",
    "screw-withdrawal": "fastening",
    "lead-hole": "fastening",
    "screw-pull": "fastening",
    "chord": "door",
    "linkage": "arm",
    "reveal-limit": "arm",
    "moments": "arm",
    "size-and-force": "size",
    "setting-out": "holes",
    "holes": "holes",
    "template-suits": "holes",
    "head-room": "holes",
    "sixteenth": "holes",
    "body-part": "holes",
    "shoe-part": "holes",
    "hinges-in-front": "holes",
    "marks": "holes",
    "mark-moves": "holes",
    "swing": "swing",
    "starting-size": "tuning",
    "tune": "tuning",
    "tune-next": "tuning",
    "backcheck": "tuning",
    "access-and-fire": "rules",
    "rules-asked": "rules",
    "rule-notes": "rules",
    "fire-door": "rules",
    "fire-door-gaps": "rules",
}
"""Name to the folder of its module, in the order they are listed."""


@cache
def _computation(name: str) -> Computation:
    folder = _FOLDERS[name]
    module = import_module(f"guide.trade.{folder}.{name.replace('-', '_')}")
    found: Computation = module.COMPUTATION
    return found


class _Computations(Mapping[str, Computation]):
    """Every computation by its name."""

    def __getitem__(self, name: str) -> Computation:
        return _computation(name)

    def __iter__(self) -> Iterator[str]:
        return iter(_FOLDERS)

    def __len__(self) -> int:
        return len(_FOLDERS)


COMPUTATIONS: Mapping[str, Computation] = _Computations()


def find(name: str) -> Computation:
    """The computation of that name; BadInput with the nearest spelling if there is no such computation."""
    try:
        return COMPUTATIONS[name]
    except KeyError:
        raise BadInput(unknown("a computation", name, COMPUTATIONS)) from None


def run(name: str, inputs: Mapping[str, Given]) -> Answer:
    """Check the inputs and run the computation.

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
