"""The record of a run as plain data, by the schema in `record.schema.json`, and as JSON and CSV.

`record_paper.py` makes a paper of the same data, which is rendered as text, HTML or PDF.
"""

import csv
import io
import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from guide.papers.record.addenda import addenda_data, after_end
from guide.papers.record.answers import answers_data, changed_data
from guide.papers.record.call_back import ADVISERS, call_back_data
from guide.papers.record.heard import heard_data
from guide.papers.record.holes import holes_data
from guide.papers.record.inspection import items
from guide.papers.record.photos import photos_data, photos_not_taken
from guide.papers.record.rules import rules_data, verdicts
from guide.papers.record.swings import swings_data
from guide.papers.record.times import local
from guide.procedure.conditions import UnknownFact
from guide.procedure.facts import writing
from guide.procedure.worked_facts import NeedsWork
from guide.run.events import Event
from guide.run.state import State, label
from guide.run.turn_views import turn_views
from guide.text import printable, tame_cell
from guide.trade.registry import COMPUTATIONS

FORM = 1
"""Of the JSON: raised when a key goes or changes its meaning."""
TOLD_ELSEWHERE = ("access-and-fire", "rules-asked", "rule-notes", *ADVISERS)
"""Computations that have a part of the record of their own, or only put a rule into words."""
UNSEEN = "lines cut from the end or a file rewritten throughout cannot be seen from the file alone"
"""What no verification of a file can find."""


def record_data(state: State, events: list[Event]) -> dict[str, Any]:
    """The record as plain data. A paper hides nothing, so no value is hidden for a blind question."""
    state = replace(state, hidden=frozenset())
    rules = rules_data(state)
    return {
        "hingeside": "record",
        "form": FORM,
        **_head(state, events),
        "route": state.route(),
        "facts": _facts(state),
        "answers": answers_data(state, events),
        "changed": changed_data(state, events),
        "computed": computed_data(state),
        "cuts": _cuts(state),
        "holes": holes_data(state),
        **call_back_data(state, events),
        "inspection": dict(
            items(state, local(state.last_utc, events[-1].offset) if events else "")
        ),
        "heard": heard_data(state, events),
        "rules": rules,
        "verdicts": verdicts(rules),
        "timed": swings_data(events),
        "not_blind": [event.body["at"] for event in events if event.body.get("looked")],
        "photos": photos_data(state),
        "photos_not_taken": photos_not_taken(state),
        "notes": _notes(state, events),
        "addenda": addenda_data(state, events),
        "people": sorted({event.by for event in events if event.by}),
        "devices": sorted({event.device for event in events}),
        "events": len(events),
        "repaired": repairs(events),
        "last_digest": events[-1].digest if events else "",
        "turns": [turn_data(label, view, events) for label, view in turn_views(state)],
        "cannot_be_seen": UNSEEN,
    }


def turn_data(label: str, view: State, events: list[Event]) -> dict[str, Any]:
    """What belongs to one turn of several, such as one leaf of a pair."""
    rules = rules_data(view)
    asked_of_it = {view.graph.nodes[index].body.get("fact") for index, _ in view.path}
    call_back = call_back_data(view, events)
    del call_back["remains"]
    return {
        "turn": label,
        "facts": {name: one for name, one in _facts(view).items() if name in asked_of_it},
        "answers": answers_data(view, events),
        "computed": computed_data(view),
        "cuts": _cuts(view),
        "holes": holes_data(view),
        **call_back,
        "rules": rules,
        "verdicts": verdicts(rules),
    }


def _head(state: State, events: Sequence[Event]) -> dict[str, Any]:
    return {
        "run": state.run,
        "procedure": state.graph.name,
        "edition": state.graph.edition,
        "title": state.graph.title,
        "digest": state.graph.digest,
        "units": state.units,
        "sheet": state.sheet["sheet"] if state.sheet else None,
        "about": state.about,
        "started": state.started,
        "last": state.last_utc,
        "started_local": local(state.started, events[0].offset) if events else state.started,
        "last_local": local(state.last_utc, events[-1].offset) if events else state.last_utc,
        "outcome": state.ended or "open",
        "why": state.ended_why,
    }


def _facts(state: State) -> dict[str, Any]:
    return {
        name: {
            "question": fact.question(state.units) or name.replace("_", " "),
            "value": writing(value),
            "shown": fact.show(value, state.units),
            "computed": fact.worked,
        }
        for name, fact in state.graph.facts.items()
        if (value := state.known(name)) is not None
    }


def computed_data(state: State) -> list[dict[str, Any]]:
    """What was computed and shown at some block of the path, with its working and its source."""
    told = {name for at in state.path for name in state.graph.nodes[at[0]].shows}
    return [
        {
            "fact": name,
            "value": writing(value),
            "shown": fact.show(value, state.units),
            "computation": fact.computation,
            "source": _source(state, fact.computation),
            "working": _working(state, name),
        }
        for name, fact in state.graph.facts.items()
        if fact.worked
        and name in told
        and fact.computation not in TOLD_ELSEWHERE
        and (value := state.known(name)) is not None
    ]


_AMERICAN = re.compile(r"ADA|NFPA|International Building Code|North American")
_BRITISH = re.compile(r"BS \d|Home Office|Approved Document")
_ELSEWHERE = ("uk", "eu")


def _source(state: State, computation: str) -> str:
    """Where a computation has its numbers from; a sum of the procedure's own has no source.

    A job by other rules than those of the United States names no American rule, and one by those no British one:
    none of them was used there.
    """
    if computation not in COMPUTATIONS:
        return ""
    parts = COMPUTATIONS[computation].source.replace(" (most moments from memory)", "").split("; ")
    if state.about.get("rules") in _ELSEWHERE:
        parts = [one for one in parts if not _AMERICAN.search(one)] or ["common practice"]
    elif state.about.get("rules") == "us":
        parts = [one for one in parts if not _BRITISH.search(one)] or ["common practice"]
    return "; ".join(parts)


def _working(state: State, name: str) -> list[str]:
    try:
        return list(state.env.result(state.graph.facts[name]).working)
    except (UnknownFact, NeedsWork):
        return []


def _cuts(state: State) -> list[dict[str, Any]]:
    return [
        {
            "at": label(state.graph, cut.at),
            "on": cut.basis,
            "done": cut.done,
            "resolution": cut.resolution or None,
        }
        for cut in state.cuts
    ]


def _notes(state: State, events: Sequence[Event]) -> list[dict[str, Any]]:
    """The notes before the end; those after it are addenda."""
    later = {(event.utc, event.body.get("text")) for event in after_end(events)}
    offsets = {event.utc: event.offset for event in events}
    return [
        {"utc": utc, "local": local(utc, offsets.get(utc, "+00:00")), "at": at, "text": text}
        for utc, at, text in state.notes
        if (utc, text) not in later
    ]


def repairs(events: Iterable[Event]) -> list[dict[str, Any]]:
    """What was removed from the run's file, and a sentence on each."""
    return [
        {**event.body, "utc": event.utc, "said": _repaired(event)}
        for event in events
        if event.kind == "repaired"
    ]


def _repaired(event: Event) -> str:
    body = event.body
    what = "an unfinished line" if body.get("cause") == "torn" else "what was damaged"
    when = local(event.utc, event.offset)
    return f"{when}: {what} was removed, {body.get('lines')} lines; kept as {body.get('aside')}"


def record_json(state: State, events: list[Event]) -> str:
    """The record as JSON, the events with it."""
    data = record_data(state, events)
    data["journal"] = [
        {
            "seq": event.seq,
            "utc": event.utc,
            "kind": event.kind,
            "body": event.body if event.kind != "started" else {"digest": state.graph.digest},
            "by": event.by,
            "offset": event.offset,
            "line_digest": event.digest,
        }
        for event in events
    ]
    text = json.dumps(data, ensure_ascii=False, indent=1)
    return "\n".join(printable(line) for line in text.split("\n")) + "\n"


def record_csv(state: State, events: list[Event]) -> str:
    """One line an event, for a spreadsheet. A cell that a spreadsheet would compute is quoted."""
    later = {event.seq for event in after_end(events)}
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(["seq", "utc", "local", "by", "kind", "at", "value", "addendum"])
    for event in events:
        words = (event.body.get(key) for key in ("value", "text", "how", "shows", "outcome"))
        value = next((one for one in words if one is not None), "")
        row = [event.seq, event.utc, local(event.utc, event.offset), event.by, event.kind]
        row += [event.body.get("at", ""), value, "yes" if event.seq in later else ""]
        writer.writerow([tame_cell(str(cell)) for cell in row])
    return out.getvalue()
