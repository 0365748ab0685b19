"""What is wrong in the file of a practice door."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR


class NumberWrong(Rule):
    """A number of a practice door cannot be read, or lies outside what the model was tried with.

    The model of a moving door holds for leaves and closers of usual size; outside it would teach what is not so.

    Do: write a number within the limits that the message shows.

    Fails:

        practice: chapel-vestry
        title: Chapel vestry
        about: It shuts too fast.
        grade: 9   # here
        units: inch
        leaf: {knuckles: left, width: 36 in, height: 84 in, mass: 100 lb}
        closer: {mount: regular, sizes: 1 to 6, stands_at: 3, sweep: 2.25, latch: 1.25}

    Passes:

        practice: chapel-vestry
        title: Chapel vestry
        about: It shuts too fast.
        grade: 1
        units: inch
        leaf: {knuckles: left, width: 36 in, height: 84 in, mass: 100 lb}
        closer: {mount: regular, sizes: 1 to 6, stands_at: 3, sweep: 2.25, latch: 1.25}
    """

    code: ClassVar[str] = "number-wrong"
    level: ClassVar[str] = ERROR


RULES = (NumberWrong,)
