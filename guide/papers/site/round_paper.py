"""The summary of a round of inspections for owner and authority: each door, each item, each deficiency and its closing.

Source of what a fire door's inspection record holds: NFPA 80 (2013), 5.2.2.4; kept for at least three years, 5.2.2. The
record of each door (`hingeside record JOB`) has all eleven items; this is the list over them.
"""

import csv
import io
import json
from collections.abc import Iterator
from typing import Any

from guide.papers.record.inspection import BLANK, KEPT, US
from guide.papers.site.site_list import (
    date_of,
    job_data,
    name_of,
    number_room,
    round_head,
    said_counts,
    table,
    text_of,
    wrapped,
)
from guide.run.inspection import FAIL, NOT_REACHED, PASS, Item
from guide.site.round_state import WORDS, Deficiency, RoundDoor, RoundState
from guide.text import tame_cell

FORM = 1
"""Of the JSON: raised when a key changes its meaning or goes."""
MARKS = {PASS: "+", FAIL: "X", NOT_REACHED: "."}
"""How the result of an item is marked in the table."""
LEGEND = "+ passed   X failed   . not reached   (blank: does not apply)"
GOVERN = "The edition adopted where the doors stand, their listings and the authority govern."


def round_text(one: RoundState) -> str:
    """The summary to be read."""
    lines = [*heading(one), "", *_items_table(one)]
    for title, section in sections(one):
        lines += ["", title, *(line for each in section for line in wrapped(each))]
    return text_of(lines)


def heading(one: RoundState) -> list[str]:
    """What the round was, when, by whom, and how it stands."""
    runs = [run for door in one.doors for run in door.inspections]
    days = sorted({date_of(run.started) for run in runs})
    names = sorted({run.by for run in runs if run.by})
    titles = sorted({run.title for run in runs}) or [one.round.procedure]
    between = " to ".join(dict.fromkeys([*days[:1], *days[-1:]]))
    return [
        f"ROUND {one.round.title}: {one.site.name}",
        f"Inspection: {', '.join(titles)}",
        f"Inspected: {between or 'not yet'}, by {', '.join(names) or BLANK}",
        f"Doors: {len(one.doors)}; {said_counts(one.counted, WORDS)}.",
        round_head(one)[1],
    ]


def _items_table(one: RoundState) -> Iterator[str]:
    """A line for each door, a column for each item."""
    items = one.items
    number = number_room((door.door.door for door in one.doors), 12)
    columns = [("DOOR", number), ("PLACE", 32 - number), ("STATE", 16), ("WHEN", 10)]
    columns += [(str(number), max(2, len(str(number)))) for number in range(1, len(items) + 1)]
    rows = []
    for door in one.doors:
        results = {item.fact: MARKS[item.result] for item in door.items}
        about = door.door.door
        marks = [results.get(fact, "") for fact in items]
        rows.append((about.number, about.place, door.words, date_of(door.when), *marks))
    yield from table(columns, rows)
    yield ""
    yield LEGEND


def sections(one: RoundState) -> Iterator[tuple[str, list[str]]]:
    """Every part after the table: a title and its lines. None is empty."""
    open_ = [fault for fault in one.deficiencies if fault.closed is None]
    closed = [fault for fault in one.deficiencies if fault.closed is not None]
    found = (
        ("ITEMS", [f"{number}. {title}" for number, title in enumerate(one.items.values(), 1)]),
        ("DEFICIENCIES, open", [line for fault in open_ for line in fault_lines(fault)]),
        ("DEFICIENCIES, closed", [line for fault in closed for line in fault_lines(fault)]),
        ("STILL TO INSPECT", [name_of(door.door.door) for door in one.left]),
        ("RECORDS of the inspections", list(_records(one))),
        ("FOR OWNER AND AUTHORITY", signing(one)),
    )
    return ((title, lines) for title, lines in found if lines)


def fault_lines(fault: Deficiency) -> list[str]:
    """A deficiency, from finding to closing."""
    failed, closed = fault.failed, fault.closed
    noted = f" Noted: {failed.item.noted}" if failed.item.noted else ""
    noted += "".join(f" Photo: {shows} ({sha[:16]})." for shows, sha in failed.item.photos)
    found = f"{failed.item.title}: {failed.item.found.rstrip('.')}.{noted}"
    since = f"Found {date_of(fault.first.utc)}{_by(fault.first.run.by)}."
    lines = [f"{name_of(fault.door.door)}: {found} {since}"]
    again = sum(one.item.result == FAIL for one in fault.findings) - 1
    lines += [f"- failed again {again} times, the last {date_of(failed.utc)}"] if again else []
    lines += [f"- {date_of(run.ended)} {run.title}{_by(run.by)} ({run.name})" for run in fault.work]
    if closed is not None:
        lines.append(f"- closed {date_of(closed.utc)}{_by(closed.run.by)} ({closed.run.name})")
    return lines


def _by(name: str) -> str:
    return f", {name}" if name else ""


def _records(one: RoundState) -> Iterator[str]:
    for door in one.doors:
        for run in door.inspections:
            yield f"{name_of(door.door.door)}: {date_of(run.ended or run.updated)} {run.name}, digest {run.digest[:16]}"


def signing(one: RoundState) -> list[str]:
    """What the paper leaves to the pen, and what governs."""
    lines = [f"Facility: {one.site.name}. Address: {BLANK}", f"Signature: {BLANK}  Date: {BLANK}"]
    return [*lines, GOVERN, *([KEPT] if one.round.rules == US else [])]


# --- data ---


def round_data(one: RoundState) -> dict[str, Any]:
    """The summary as plain data."""
    following = one.next
    return {
        "format": FORM,
        "site": one.site.name,
        "round": one.round.title,
        "procedure": one.round.procedure,
        "begun": one.round.begun,
        "counts": one.counted,
        "next": None if following is None else following.door.door.number,
        "items": one.items,
        "doors": [_door_data(door) for door in one.doors],
        "deficiencies": [_fault_data(fault) for fault in one.deficiencies],
    }


def _door_data(door: RoundDoor) -> dict[str, Any]:
    return {
        "door": door.door.door.number,
        "place": door.door.door.place,
        "rating": door.door.door.rating or None,
        "state": door.state,
        "when": door.when or None,
        "items": {item.fact: _item_data(item) for item in door.items},
        "inspections": [job_data(run) for run in door.inspections],
    }


def _item_data(item: Item) -> dict[str, str]:
    return {"result": item.result, "found": item.found, "noted": item.noted}


def _fault_data(fault: Deficiency) -> dict[str, Any]:
    closed = fault.closed
    return {
        "door": fault.door.door.number,
        "place": fault.door.door.place,
        "item": fault.first.item.fact,
        "title": fault.first.item.title,
        "found": fault.failed.item.found,
        "noted": fault.failed.item.noted,
        "photos": [{"shows": shows, "sha256": sha} for shows, sha in fault.failed.item.photos],
        "since": fault.first.utc,
        "by": fault.first.run.by,
        "job": fault.first.run.name,
        "history": [
            {
                "utc": one.utc,
                "result": one.item.result,
                "found": one.item.found,
                "job": one.run.name,
            }
            for one in fault.findings
        ],
        "work": [{"job": run.name, "title": run.title, "ended": run.ended} for run in fault.work],
        "closed": None
        if closed is None
        else {"utc": closed.utc, "by": closed.run.by, "job": closed.run.name},
    }


def round_json(one: RoundState) -> str:
    """The summary as one JSON object on one line."""
    return json.dumps(round_data(one), ensure_ascii=False) + "\n"


_CSV = (
    *("door", "place", "rating", "state", "item", "result", "found", "noted"),
    *("inspected", "by", "job", "open since", "closed"),
)


def round_csv(one: RoundState) -> str:
    """A line for each item of each door; a door without an inspection has one line."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(_CSV)
    for door in one.doors:
        for row in _csv_rows(door):
            writer.writerow([tame_cell(cell) for cell in row])
    return out.getvalue()


def _csv_rows(door: RoundDoor) -> Iterator[tuple[str, ...]]:
    about = door.door.door
    named = (about.number, about.place, about.rating, door.words)
    last = door.inspections[-1] if door.inspections else None
    by = ("", "", "") if last is None else (date_of(door.when), last.by, last.name)
    faults = {fault.first.item.fact: fault for fault in door.deficiencies}
    for item in door.items:
        fault = faults.get(item.fact)
        since = "" if fault is None else date_of(fault.first.utc)
        closed = date_of(fault.closed.utc) if fault is not None and fault.closed is not None else ""
        yield (*named, item.title, item.result, item.found, item.noted, *by, since, closed)
    if not door.items:
        yield (*named, "", "", "", "", *by, "", "")


FORMATS = {"text": round_text, "json": round_json, "csv": round_csv}
"""The formats a round's summary can be written in; `site_paper.py` renders it for a browser and to print."""
