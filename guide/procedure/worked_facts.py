"""Worked (computed) facts: their inputs at one point of a run, and their results, memoized in the journal.

Every result is journalled as a `worked` event and looked up from there, so that replaying a run needs
no computation and an upgrade never moves a running job.
"""

from collections.abc import Callable, Hashable, Iterator, Mapping
from copy import copy
from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from guide.measures import Quantity
from guide.procedure.arithmetic import work_out_formula
from guide.procedure.conditions import UnknownFact
from guide.procedure.facts import NONE, UNSURE, Fact, Value, writing

if TYPE_CHECKING:
    from guide.trade.answer import Answer
    from guide.trade.sheet.sheet import Sheet

RUNS_OWN = ("rules", "nfpa_80", "ibc")
"""The inputs that a run fills with its settings, as it does a sheet: whose rules hold, and in which editions."""

RUNS_UNITS = "units"
"""The input that a run fills with its units: they change how an answer is written, not what it is."""

Memo = dict[str, "Worked"]
"""Results by `fact|input=writing|...`."""


class Worked(NamedTuple):
    """One result."""

    value: Value
    """`none` where the computation has no answer."""
    working: tuple[str, ...]
    cautions: tuple[str, ...]
    reason: str
    """Why there is no answer; empty if there is one."""


class NeedsWork(LookupError):
    """A worked fact is read whose result is not in the journal yet."""

    def __init__(self, fact: str, inputs: dict[str, str]) -> None:
        self.fact = fact
        self.inputs = inputs
        super().__init__(fact)


class Env(Mapping[str, Value]):
    """The environment at one point of a run: the values of asked facts, and worked ones through the memo.

    A worked value is kept until the next answer: conditions read the same few at every step.
    """

    def __init__(
        self, facts: Mapping[str, Fact], memo: Memo, asked: dict[str, Value] | None = None
    ) -> None:
        self.facts = facts
        self.memo = memo
        self.asked: dict[str, Value] = {} if asked is None else asked
        self._worked: dict[str, Value] = {}
        self.taken: dict[Hashable, tuple[str, Value]] = {}
        """Every answer on the way here, by the visit at which it was given, oldest first; only of
        facts that some computed fact reads round by round."""
        self._in_rounds = {
            name for fact in facts.values() for names in fact.rounds.values() for name in names
        }

    def take(self, visit: Hashable, name: str, value: Value) -> None:
        """An answer, at the visit at which it was given."""
        self.asked[name] = value
        self._worked.clear()
        if name in self._in_rounds:
            self.taken[visit] = (name, value)

    def begin_turn(self, turn: str, label: str, forgets: list[str]) -> None:
        """Forget what the turn before asked, as if it had never been, and take this turn's label."""
        for name in forgets:
            self.asked.pop(name, None)
        self.taken = {at: one for at, one in self.taken.items() if one[0] not in forgets}
        self.asked[turn] = label
        self._worked.clear()

    def copied(self, memo: Memo) -> "Env":
        """The same answers, beside another memo."""
        other = copy(self)
        other.memo, other._worked = memo, {}
        other.asked, other.taken = dict(self.asked), dict(self.taken)
        return other

    def __getitem__(self, name: str) -> Value:
        value = self.asked.get(name)
        if value is None:
            value = self._worked.get(name)
        if value is not None:
            return value
        fact = self.facts.get(name)
        if fact is None or not fact.worked:
            raise UnknownFact(name)
        value = self.result(fact).value
        self._worked[name] = value
        return value

    def __contains__(self, name: object) -> bool:
        if name in self.asked or name in self._worked:
            return True
        fact = self.facts.get(str(name))
        if fact is None or not fact.worked:
            return False
        try:
            self.inputs(fact)
        except UnknownFact:
            return False
        return True

    def __iter__(self) -> Iterator[str]:
        return (name for name in self.facts if name in self)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def result(self, fact: Fact) -> Worked:
        """The journalled result. Raises NeedsWork if there is none, UnknownFact for an input."""
        inputs = self.inputs(fact)
        found = self.memo.get(memo_key(fact.name, inputs))
        if found is None:
            raise NeedsWork(fact.name, inputs)
        return found

    def inputs(self, fact: Fact) -> dict[str, str]:
        """Each input with its exact text; an optional input that is not known is left out."""
        found: dict[str, str] = {}
        for name, filler in fact.using.items():
            if filler.startswith("="):
                found[name] = filler[1:].strip()
                continue
            try:
                value = self[filler]
            except UnknownFact:
                if name in fact.optional:
                    continue
                raise
            if name in fact.optional and value in (UNSURE, NONE):
                continue
            found[name] = writing(value)
        for name, columns in fact.rounds.items():
            found[name] = self._lines(columns)
        return found

    def _lines(self, columns: list[str]) -> str:
        """A line for each answer to the first fact: with it, what was answered to the others since.

        What was not asked in that round, or not known, is left empty. Raises UnknownFact if the
        first was never answered.
        """
        lines: list[dict[str, str]] = []
        for name, value in self.taken.values():
            if name == columns[0]:
                lines.append({})
            if lines and name in columns:
                lines[-1][name] = "" if value == UNSURE else writing(value)
        if not lines:
            raise UnknownFact(columns[0])
        return "\n".join(",".join(line.get(name, "") for name in columns) for line in lines)


def memo_key(fact: str, inputs: Mapping[str, str]) -> str:
    """The name under which a result is kept."""
    return "|".join((fact, *(f"{name}={text}" for name, text in sorted(inputs.items()))))


def work_out(
    fact: Fact,
    inputs: Mapping[str, str],
    sheet: "Sheet | None",
    own: Mapping[str, str] | None = None,
    units: str = "",
) -> dict[str, Any]:
    """Compute a worked fact: the body of its `worked` event.

    Sheet, `own` (a setting for each of `RUNS_OWN`) and `units` are the run's; a computation that takes them gets them
    beside its inputs.
    """
    if fact.operation:
        return {"fact": fact.name, "inputs": dict(inputs), **work_out_formula(fact, inputs)}

    from guide.trade import registry
    from guide.trade.answer import BadInput, NoAnswer, OutOfDomain

    computation = registry.find(fact.computation)
    body: dict[str, Any] = {"fact": fact.name, "inputs": dict(inputs)}
    unknown = [name for name, text in inputs.items() if text in (UNSURE, NONE)]
    if unknown:
        return {**body, "value": NONE, "reason": f"{unknown[0].replace('_', ' ')} is not known"}
    sheet_input = computation.input("sheet")
    texts = dict(inputs)
    for name, text in (own or {}).items():
        if text and computation.input(name) is not None:
            texts.setdefault(name, text)
    if units and computation.input(RUNS_UNITS) is not None:
        texts.setdefault(RUNS_UNITS, units)
    if sheet_input is not None and sheet is not None:
        texts["sheet"] = sheet.sheet
    elif sheet_input is not None and sheet_input.required:
        return {**body, "value": NONE, "reason": "no sheet is set for this run"}
    try:
        answer = _answer(computation.name, tuple(texts.items()), _Kept(sheet))
    except (NoAnswer, OutOfDomain, BadInput) as error:
        return {**body, "value": NONE, "reason": str(error)}
    value: Any = answer.value
    if fact.part and isinstance(value, Mapping):
        value = value.get(fact.part)
    return {
        **body,
        "value": _text(value),
        "working": list(answer.working),
        "cautions": list(answer.cautions),
    }


class _Kept:
    """A run's sheet, the same only as itself: two would be compared number by number."""

    def __init__(self, sheet: "Sheet | None") -> None:
        self.sheet = sheet

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Kept) and other.sheet is self.sheet

    def __hash__(self) -> int:
        return id(self.sheet)


@lru_cache(maxsize=16)
def _answer(computation: str, texts: tuple[tuple[str, str], ...], kept: _Kept) -> "Answer":
    """The answer to these inputs: a dozen facts may be parts of one, as those of a setting-out are."""
    from guide.trade import registry

    found = registry.find(computation)
    values = registry.read_inputs(found, dict(texts), open_sheet=_opener(kept.sheet))
    return registry.run(computation, values)


def _opener(sheet: "Sheet | None") -> Callable[[str], "Sheet"] | None:
    """The run's own sheet, under whatever name it is asked for."""
    return (lambda _: sheet) if sheet is not None else None


def _text(value: Any) -> str:
    if value is None:
        return NONE
    if isinstance(value, bool):
        return "yes" if value else "no"
    return writing(value) if isinstance(value, Quantity | int | str) else str(value)


def read_worked(fact: Fact, body: Mapping[str, Any]) -> Worked:
    """A `worked` event's body as a result."""
    return Worked(
        fact.decode(body["value"]),
        tuple(body.get("working", ())),
        tuple(body.get("cautions", ())),
        body.get("reason", ""),
    )
