"""A round of inspections as far as it has come: each item of each door, and every deficiency until it is closed."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from guide.run.catalogue import RunSummary
from guide.run.inspection import FAIL, NOT_REACHED, PASS, Item, read_items
from guide.site.door_state import DoorState, decided
from guide.site.site import Round, Site, door_key

TO_DO, IN_WORK, PASSED, FAULTS, REPAIRED = "to-do", "in-work", "passed", "faults", "repaired"
_NEVER = "9"
"""After every UTC, as texts are compared."""
INCOMPLETE, NOT_FOR_IT = "incomplete", "not-for-it"
WORDS = {
    TO_DO: "to do",
    IN_WORK: "in work",
    INCOMPLETE: "broken off",
    FAULTS: "with faults",
    REPAIRED: "repaired",
    PASSED: "passed",
    NOT_FOR_IT: "not for this check",
}
"""Every state that a door of a round can be in, and its words."""


@dataclass(frozen=True, slots=True)
class Finding:
    """The result of one item at one inspection."""

    item: Item
    run: RunSummary

    @property
    def utc(self) -> str:
        """When the inspection ended, or how far it is."""
        return decided(self.run)


@dataclass(frozen=True, slots=True)
class Deficiency:
    """An item that failed, from its first failure to the inspection that passed it."""

    door: DoorState
    findings: tuple[Finding, ...]
    """The first failure, then each later result; the last is a pass if it is closed."""
    work: tuple[RunSummary, ...]
    """Other jobs at the door since, ended, up to its closing."""

    @property
    def first(self) -> Finding:
        """The first failure."""
        return self.findings[0]

    @property
    def failed(self) -> Finding:
        """The latest failure, which says how bad it is."""
        return next(one for one in reversed(self.findings) if one.item.result == FAIL)

    @property
    def closed(self) -> Finding | None:
        """The inspection that passed it; None while it is open."""
        last = self.findings[-1]
        return last if last.item.result == PASS else None


@dataclass(frozen=True, slots=True)
class RoundDoor:
    """One door in a round."""

    door: DoorState
    inspections: tuple[RunSummary, ...]
    """Of this round, the latest last."""
    items: tuple[Item, ...]
    """The latest result of each; one that no inspection reached is not reached."""
    deficiencies: tuple[Deficiency, ...]

    @property
    def open(self) -> list[Deficiency]:
        """Its deficiencies that no later inspection passed."""
        return [one for one in self.deficiencies if one.closed is None]

    @property
    def state(self) -> str:
        """One of `WORDS`."""
        last = self.inspections[-1] if self.inspections else None
        if last is None:
            return TO_DO
        if not last.outcome:
            return IN_WORK
        if self.open:
            return FAULTS
        if last.outcome == "made-safe":
            return INCOMPLETE
        if last.outcome == "not-started":
            return NOT_FOR_IT
        return REPAIRED if self.deficiencies else PASSED

    @property
    def words(self) -> str:
        """The state in words."""
        return WORDS[self.state]

    @property
    def when(self) -> str:
        """UTC of its latest inspection; empty without one."""
        return decided(self.inspections[-1]) if self.inspections else ""


@dataclass(frozen=True, slots=True)
class RoundState:
    """A round with all its doors."""

    site: Site
    round: Round
    doors: tuple[RoundDoor, ...]

    @property
    def items(self) -> dict[str, str]:
        """The title of every item that some door has, by its fact."""
        return {item.fact: item.title for one in self.doors for item in one.items}

    @property
    def deficiencies(self) -> list[Deficiency]:
        """Every deficiency, those of a door together; open ones first."""
        found = [one for door in self.doors for one in door.deficiencies]
        return sorted(found, key=lambda one: one.closed is not None)

    @property
    def counted(self) -> dict[str, int]:
        """How many doors are in each state that some door is in, in the order of `WORDS`."""
        states = [one.state for one in self.doors]
        return {state: states.count(state) for state in WORDS if state in states}

    @property
    def over(self) -> bool:
        """Whether a later round of the same check has begun, to which every new inspection belongs."""
        return _until(self.site, self.round) != _NEVER

    @property
    def left(self) -> list[RoundDoor]:
        """The doors that are still to be inspected, those in work first."""
        order = (IN_WORK, INCOMPLETE, TO_DO)
        left = [one for one in self.doors if one.state in order]
        return sorted(left, key=lambda one: one.state != IN_WORK)

    @property
    def to_recheck(self) -> list[RoundDoor]:
        """The doors with open deficiencies, which are inspected again after the repair."""
        return [one for one in self.doors if one.open and one.state != IN_WORK]

    @property
    def next(self) -> RoundDoor | None:
        """The door to go to: one to be inspected, then one to be inspected again; None if all passed."""
        return next(iter([*self.left, *self.to_recheck]), None)


def round_state(site: Site, one: Round, states: Sequence[DoorState]) -> RoundState:
    """How far a round has come; `states` are the doors of the site. A door that was taken off the list is left out."""
    by_key = {state.door.key: state for state in states}
    wanted = [by_key[door_key(number)] for number in one.doors if door_key(number) in by_key]
    until = _until(site, one)
    return RoundState(site, one, tuple(_door(one, until, state) for state in wanted))


def _until(site: Site, one: Round) -> str:
    """UTC from which inspections belong to the next round of the same check; after every time if there is none."""
    later = (other for other in site.rounds if other.begun > one.begun)
    return min((other.begun for other in later if other.procedure == one.procedure), default=_NEVER)


def _door(one: Round, until: str, state: DoorState) -> RoundDoor:
    inspections = sorted(
        (
            run
            for run in state.jobs
            if run.procedure == one.procedure and one.begun <= run.started < until
        ),
        key=lambda run: (decided(run), run.started, run.run),
    )
    by_fact: dict[str, list[Finding]] = {}
    for run in inspections:
        for item in read_items(run.items):
            by_fact.setdefault(item.fact, []).append(Finding(item, run))
    return RoundDoor(
        state,
        tuple(inspections),
        tuple(_latest(findings).item for findings in by_fact.values()),
        tuple(_deficiencies(state, by_fact.values())),
    )


def _latest(findings: list[Finding]) -> Finding:
    reached = [one for one in findings if one.item.result != NOT_REACHED]
    return (reached or findings)[-1]


def _deficiencies(state: DoorState, items: Iterable[list[Finding]]) -> Iterator[Deficiency]:
    """A deficiency for each stretch of an item from a failure to the pass that closes it."""
    for findings in items:
        stretch: list[Finding] = []
        for one in findings:
            if one.item.result == FAIL or (stretch and one.item.result == PASS):
                stretch.append(one)
            if stretch and one.item.result == PASS:
                yield _deficiency(state, stretch)
                stretch = []
        if stretch:
            yield _deficiency(state, stretch)


def _deficiency(state: DoorState, findings: list[Finding]) -> Deficiency:
    since, until = findings[0].utc, findings[-1].utc if findings[-1].item.result == PASS else "9"
    procedure = findings[0].run.procedure
    work = [
        run
        for run in state.jobs
        if run.ended and run.procedure != procedure and since <= run.ended < until
    ]
    return Deficiency(state, tuple(findings), tuple(reversed(work)))
