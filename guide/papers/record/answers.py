"""The answers of a run with how each was taken, and every answer that was changed."""

from collections.abc import Sequence
from typing import Any

from guide.papers.record.times import local
from guide.procedure.facts import Fact, Value, writing
from guide.run.events import Event
from guide.run.offers import offered
from guide.run.state import GivenAnswer, Occurrence, State, label, occurrence_of
from guide.run.turns import later_turn

KEYED, SPOKEN, STOPWATCH, CARRIED = "keyed", "spoken", "stopwatch", "carried"
SCHEDULE, SHEET, TOGETHER = "schedule", "sheet", "together"
HOW_WORDS = {
    KEYED: "keyed",
    SPOKEN: "spoken, and read back",
    STOPWATCH: "by stopwatch",
    CARRIED: "from the job before",
    SCHEDULE: "by the schedule",
    SHEET: "by the sheet",
    TOGETHER: "as it stood on a card, confirmed with others",
}


def answers_data(state: State, events: Sequence[Event]) -> list[dict[str, Any]]:
    """The last answer in force of each fact, in the order of the questions; `number` is its number in the record."""
    last: dict[str, tuple[Occurrence, GivenAnswer]] = {}
    for at in state.path:
        answer = state.answers.get(at)
        if answer is not None:
            name = state.graph.nodes[at[0]].body["fact"]
            last.pop(name, None)
            last[name] = at, answer
    return [
        {
            "number": number,
            "at": label(state.graph, at),
            "fact": name,
            "question": _question(state, name),
            "value": writing(answer.value),
            "shown": _show(state, name, answer.value),
            **_taken(state, events, at, answer),
        }
        for number, (name, (at, answer)) in enumerate(last.items(), 1)
    ]


def changed_data(state: State, events: Sequence[Event]) -> list[dict[str, Any]]:
    """Every answer that another took the place of, in the order of the changes."""
    found: list[dict[str, Any]] = []
    values: dict[str, str] = {}
    pending: dict[str, str] = {}
    for event in events:
        at, value = str(event.body.get("at", "")), event.body.get("value")
        if event.kind == "heard":
            pending[at] = str(value)
            continue
        if event.kind == "confirmed" and event.body.get("yes"):
            value = pending.pop(at, None)
        elif event.kind not in ("answered", "timed", "revised"):
            continue
        if value is None:
            continue
        if values.get(at, value) != value:
            found.append(_changed(state, event, at, values[at], str(value)))
        values[at] = str(value)
    return found


def changed_lines(state: State, events: Sequence[Event]) -> list[str]:
    """The same as lines of a record."""
    return [
        f"{one['local']}: {one['question']} {one['before']}, changed to {one['after']}"
        + (f", by {one['by']}" if one["by"] else "")
        for one in changed_data(state, events)
    ]


def how_said(answer: dict[str, Any]) -> str:
    """How an answer was taken, in words."""
    words = HOW_WORDS[answer["how"]]
    return f"{words}; the {answer['other_of']} has {answer['other']}" if answer["other"] else words


def _taken(
    state: State, events: Sequence[Event], at: Occurrence, answer: GivenAnswer
) -> dict[str, Any]:
    fact = state.graph.facts[state.graph.nodes[at[0]].body["fact"]]
    event = events[answer.seq - 1] if answer.seq <= len(events) else None
    how, other_of, other = _how(events, event), "", ""
    suggested, of = _suggested(state, fact, at)
    if how == KEYED and suggested is None and _as_expected(state, event):
        how = TOGETHER
    if how == KEYED and suggested is not None:
        if suggested == answer.value:
            how = of
        else:
            other_of, other = of, fact.show(suggested, state.units)
    return {
        "how": how,
        "other_of": other_of,
        "other": other,
        "by": event.by if event is not None else "",
        "utc": event.utc if event is not None else "",
        "local": local(event.utc, event.offset) if event is not None else "",
    }


def _how(events: Sequence[Event], event: Event | None) -> str:
    """By what means, off the event that put the answer in force."""
    if event is None:
        return KEYED
    if event.kind == "confirmed":
        heard = (one for one in reversed(events[: event.seq - 1]) if one.kind == "heard")
        event = next((one for one in heard if one.body["at"] == event.body["at"]), event)
        return SPOKEN if event.body.get("by") == "voice" else KEYED
    if event.body.get("swings"):
        return STOPWATCH
    return CARRIED if event.body.get("carried") else KEYED


def _as_expected(state: State, event: Event | None) -> bool:
    """Whether an answer stood on a card of questions, and one answer confirmed it with the others there."""
    if event is None or not event.body.get("together"):
        return False
    found = occurrence_of(state.graph, str(event.body["at"]))
    expected = None if found is None else state.graph.nodes[found[0]].body.get("expects")
    return bool(expected == event.body["value"])


def _suggested(state: State, fact: Fact, at: Occurrence) -> tuple[Value | None, str]:
    """What schedule or sheet say of a fact, and which of them does; the schedule says it of the first turn."""
    if fact.name in state.supplied and not later_turn(state, at):
        return state.supplied[fact.name], SCHEDULE
    return offered(state, fact), SHEET


def question_at(state: State, at: str) -> str:
    """The question of a block, by its label; the label where it asks none."""
    found = occurrence_of(state.graph, at)
    name = "" if found is None else state.graph.nodes[found[0]].body.get("fact", "")
    return _question(state, name) if name in state.graph.facts else at


def _changed(state: State, event: Event, at: str, before: str, after: str) -> dict[str, Any]:
    found = occurrence_of(state.graph, at)
    name = "" if found is None else state.graph.nodes[found[0]].body.get("fact", "")
    fact = state.graph.facts.get(name)
    return {
        "at": at,
        "question": question_at(state, at),
        "before": before if fact is None else fact.show(fact.decode(before), state.units),
        "after": after if fact is None else fact.show(fact.decode(after), state.units),
        "by": event.by,
        "utc": event.utc,
        "local": local(event.utc, event.offset),
    }


def _question(state: State, name: str) -> str:
    return state.graph.facts[name].question(state.units) or name.replace("_", " ")


def _show(state: State, name: str, value: Value) -> str:
    return state.graph.facts[name].show(value, state.units)
