"""The tests of the tuning so far beside their limits: the time to the mark, the last degrees, and the force to open.

They are read where the procedure's own adviser reads them: the columns of its `tune-next`, a line for each test.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from guide.drawing.plot import Axis, Plot, PlotCurve, number
from guide.measures import Quantity, home_unit, show
from guide.procedure.facts import Fact
from guide.run.pages.page import Page, Section, page
from guide.run.state import State
from guide.trade.inputs import USUAL_CODE
from guide.trade.rules.kinds import force_limit
from guide.trade.tuning.readings import LONGEST, LONGEST_LAST, MOST_TESTS, SHORTEST

ADVISER = "tune-next"
"""The computation whose readings are the tests."""
NO_TEST = "No test is written down yet."


@dataclass(frozen=True, slots=True)
class LimitedReading:
    """One of the three readings, test by test."""

    fact: str
    name: str
    unit: str
    low: float | None
    """The least that is right, in the unit; None if only the most counts."""
    high: float
    values: tuple[tuple[int, float, str], ...]
    """Number of the test, value in the unit, and the value as it was given."""

    @property
    def limit(self) -> str:
        """The limit in words."""
        low = "" if self.low is None else f"{number(self.low)} to "
        return f"{low}{number(self.high)} {self.unit}{'' if self.low is not None else ' at most'}"

    def right(self, value: float) -> bool:
        """Whether a value keeps within the limits."""
        return (self.low is None or value >= self.low) and value <= self.high

    @property
    def says(self) -> str:
        """Every test in one sentence."""
        told = [f"test {test}: {said}, {self._judged(value)}" for test, value, said in self.values]
        return f"{self.name}, {self.limit}. {'; '.join(told).capitalize()}."

    def _judged(self, value: float) -> str:
        if self.right(value):
            return "within"
        return "too much" if value > self.high else "too little"


def readings_so_far(state: State) -> list[LimitedReading]:
    """The readings that have a value, in the order in which a test takes them."""
    adviser = next((one for one in state.graph.facts.values() if one.computation == ADVISER), None)
    if adviser is None:
        return []
    columns = next(iter(adviser.rounds.values()), [])
    if len(columns) != 4:
        return []
    tests = _tests(state, columns)
    most = force_limit_of(state, adviser.using)
    unit = home_unit("force", state.units)
    wanted = (
        (columns[1], "From 90 degrees to the mark", "s", SHORTEST, LONGEST),
        (columns[2], "From the mark to shut", "s", None, LONGEST_LAST),
        (columns[3], "Force to open", unit, None, float(most.to(unit).magnitude)),
    )
    made = [
        LimitedReading(fact, name, unit, low, high, _values(state, tests, fact, unit))
        for fact, name, unit, low, high in wanted
    ]
    return [one for one in made if one.values]


def force_limit_of(state: State, using: Mapping[str, str]) -> Quantity:
    """The most that may be needed to open this door, by the run's rules."""

    def yes(name: str) -> bool:
        return state.known(using.get(name, name)) == "yes"

    return force_limit(
        str(state.about.get("rules") or USUAL_CODE),
        fire=yes("fire"),
        exterior=yes("exterior"),
        way_out=yes("way_out"),
        accessible=state.known(using.get("accessible", "accessible")) != "no",
    ).most


def _tests(state: State, columns: list[str]) -> list[dict[str, object]]:
    """The answers of each test, oldest first; the first column begins another."""
    tests: list[dict[str, object]] = []
    for name, value in state.env.taken.values():
        if name == columns[0]:
            tests.append({})
        if tests and name in columns:
            tests[-1][name] = value
    return tests


def _values(
    state: State, tests: list[dict[str, object]], fact: str, unit: str
) -> tuple[tuple[int, float, str], ...]:
    found = []
    for test, answers in enumerate(tests, 1):
        value = answers.get(fact)
        if isinstance(value, Quantity) and fact not in state.hidden:
            told = show(value, state.units)
            found.append((test, float(value.to(unit).magnitude), told))
    return tuple(found)


def plot_of(reading: LimitedReading) -> Plot:
    """One reading, test by test, with its limits."""
    tops = [value for _, value, _ in reading.values]
    last = max(reading.values[-1][0] + 1, min(4, MOST_TESTS))
    points = tuple((float(test), value) for test, value, _ in reading.values)
    return Plot(
        reading.name,
        reading.says,
        Axis(
            "test, with its reading",
            0.5,
            last + 0.5,
            tuple(float(one) for one in range(1, last + 1)),
        ),
        Axis(reading.unit, 0.0, 1.15 * max(*tops, reading.high)),
        (PlotCurve("", points),) if len(points) > 1 else (),
        tuple(((float(test), value), number(value)) for test, value, _ in reading.values),
        (reading.high,) if reading.low is None else (reading.low, reading.high),
    )


def plot_for(state: State, fact: Fact) -> Plot | None:
    """The plot of the reading that a step asks; None before its first test."""
    found = next((one for one in readings_so_far(state) if one.fact == fact.name), None)
    return None if found is None else plot_of(found)


def readings_page(state: State) -> Page:
    """Every reading with its plot and its sentence."""
    found = readings_so_far(state)
    if not found:
        return page("The tests so far", Section("", (NO_TEST,)))
    return page(
        "The tests so far",
        *(Section(one.name, (one.says,), plot_of(one)) for one in found),
    )
