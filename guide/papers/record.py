"""The record of a run: what was answered, measured, cut and done, and whether it is whole."""

import csv
import io
import json
from dataclasses import replace
from functools import partial
from typing import Any

from guide.papers.call_back import ADVISERS, call_back_data, call_back_lines, local
from guide.papers.heard import heard_data, heard_lines
from guide.papers.holes import holes_data, holes_lines
from guide.papers.inspection import inspection_lines, items
from guide.papers.rules import rules_data, rules_lines
from guide.papers.swings import swings_data, swings_lines
from guide.procedure.facts import writing
from guide.run.cuts import shown
from guide.run.events import Event
from guide.run.prompt import OUTCOME_WORDS
from guide.run.state import State, label, occurrence_of
from guide.run.texts import block_words, name_of, show_fact, show_piece
from guide.text import fill, printable, tame_cell

KEPT = 2000
"""The longest text of one line in a record."""


TOLD_ELSEWHERE = ("access-and-fire", "rules-asked", "rule-notes", *ADVISERS)
"""Computations that have a part of the record of their own, or only put a rule into words."""
_ABOUT = (
    *(("site", "Site"), ("door", "Door"), ("place", "Place")),
    *(("name", "Installer"), ("firm", "Firm"), ("others", "Other jobs")),
)
"""What a run was begun with, and what it is called; and what other runs are beside it."""


def record_data(state: State, events: list[Event]) -> dict[str, Any]:
    """The record as plain data."""
    facts = {}
    for name, fact in state.graph.facts.items():
        value = state.known(name)
        if value is not None:
            facts[name] = {
                "question": fact.question(state.units) or name.replace("_", " "),
                "value": writing(value),
                "shown": fact.show(value, state.units),
                "computed": fact.worked,
            }
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
        "route": state.route(),
        "facts": facts,
        "cuts": [
            {
                "at": label(state.graph, cut.at),
                "on": cut.basis,
                "done": cut.done,
                "resolution": cut.resolution or None,
            }
            for cut in state.cuts
        ],
        "holes": holes_data(state),
        **call_back_data(state, events),
        "inspection": dict(
            items(state, local(state.last_utc, events[-1].offset) if events else "")
        ),
        "heard": heard_data(state, events),
        "rules": rules_data(state),
        "timed": swings_data(events),
        "not_blind": [event.body["at"] for event in events if event.body.get("looked")],
        "notes": [{"utc": utc, "at": at, "text": text} for utc, at, text in state.notes],
        "events": len(events),
        "repaired": repairs(events),
        "last_digest": events[-1].digest if events else "",
    }


def record_text(state: State, events: list[Event]) -> str:
    """The record to be read: plain lines, no wider than a page. A paper hides nothing."""
    state = replace(state, hidden=frozenset())
    data = record_data(state, events)
    lines = [
        f"RECORD: {data['title']}",
        "=" * min(72, len(data["title"]) + 8),
        f"Outcome    {OUTCOME_WORDS.get(state.ended, 'Not finished')}"
        + (f": {state.ended_why}" if state.ended_why else ""),
    ]
    for key, heading in _ABOUT:
        if state.about.get(key):
            lines.append(f"{heading:<10} {state.about[key]}")
    lines += [f"Repaired   {one['said']}" for one in data["repaired"]]
    lines += [
        f"Procedure  {data['procedure']}, edition {data['edition']}",
        f"Sheet      {data['sheet'] or 'none'}",
        f"Started    {data['started_local']}",
        f"Last event {data['last_local']}",
        "",
        "What is known of the opening",
    ]
    asked = [fact for fact in data["facts"].values() if not fact["computed"]]
    lines += [f"  {fact['question']} {fact['shown']}" for fact in asked]
    told = {name for at in state.path for name in state.graph.nodes[at[0]].shows}
    computed = [
        (name, fact)
        for name, fact in data["facts"].items()
        if fact["computed"] and name in told
        if state.graph.facts[name].computation not in TOLD_ELSEWHERE
    ]
    if computed:
        lines += ["", "What was computed"]
        lines += [f"  {name.replace('_', ' ')}: {fact['shown']}" for name, fact in computed]
    lines += call_back_lines(state, events)
    lines += inspection_lines(state, data["last_local"])
    lines += holes_lines(state)
    if state.cuts:
        lines += ["", "What was cut"]
        for cut in state.cuts:
            fate = cut.resolution or ("done" if cut.done else "begun")
            basis = "; ".join(
                f"{name_of(state, name)}: {shown(state, name, text)}"
                for name, text in cut.basis.items()
            )
            lines.append(f"  {block_words(state, cut.at)}: {fate}. {basis}")
    lines += rules_lines(state)
    lines += swings_lines(events)
    lines += heard_lines(state, events, KEPT)
    if data["not_blind"]:
        lines += ["", "Not measured blind: the numbers were looked at first"]
        lines += [f"  {_place(state, at)}" for at in data["not_blind"]]
    lines += ["", "What was done"]
    lines += _steps(state)
    if state.notes:
        lines += ["", "Notes"]
        lines += [f"  {utc} {_place(state, at)}: {text[:KEPT]}" for utc, at, text in state.notes]
    lines += [
        "",
        f"{data['events']} events, chained. Last digest, to compare by record --verify --digest:",
        f"  {data['last_digest'] or 'none: this run is not kept in a file'}",
        "The maker's sheet, the listing, the local code and the authority having jurisdiction govern.",
    ]
    return "\n".join(printable(line) for line in lines) + "\n"


def repairs(events: list[Event]) -> list[dict[str, Any]]:
    """What was removed from the run's file, and a sentence on each."""
    found = []
    for event in events:
        if event.kind == "repaired":
            body = event.body
            what = "an unfinished line" if body.get("cause") == "torn" else "what was damaged"
            found.append(
                {
                    **body,
                    "utc": event.utc,
                    "said": f"{event.utc}: {what} was removed, {body.get('lines')} lines; kept as {body.get('aside')}",
                }
            )
    return found


def _steps(state: State) -> list[str]:
    passed = state.path if state.ended else state.path[:-1]
    lines = []
    for at in passed:
        node = state.graph.nodes[at[0]]
        if node.kind not in ("do", "hold", "end"):
            continue
        text = node.body.get("text", "") or node.id
        done = state.dones.get(at, {})
        then = partial(_then, done=done)
        said = fill(text, partial(show_piece, state, node=node, of_fact=then))
        mark = {"do": "done", "hold": "read back", "end": "end"}[node.kind]
        lines.append(f"  [{mark}] {said}")
    return lines


def _place(state: State, at: str) -> str:
    """A block in words, where the label of one is given."""
    found = occurrence_of(state.graph, at)
    return at if found is None else block_words(state, found)


def _then(state: State, name: str, *, done: dict[str, str]) -> str:
    """A fact as it was when the step was done."""
    if name in done:
        fact = state.graph.facts[name]
        return fact.show(fact.decode(done[name]), state.units)
    return show_fact(state, name)


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
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(["seq", "utc", "kind", "at", "value"])
    for event in events:
        value = event.body.get("value", event.body.get("text", event.body.get("how", "")))
        row = [event.seq, event.utc, event.kind, event.body.get("at", ""), value]
        writer.writerow([tame_cell(str(cell)) for cell in row])
    return out.getvalue()


FORMATS = {"text": record_text, "json": record_json, "csv": record_csv}
"""The formats a record can be written in."""
