"""The plan of a site as text, JSON and CSV; `plan_pdf` prints it."""

import csv
import io
import json
import textwrap
from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from guide.measures import Quantity, freed, held, to_json
from guide.papers.site.site_list import cut, name_of
from guide.procedure.facts import Value
from guide.site.plan.door_plan import DoorPlan, Fasteners
from guide.site.plan.site_plan import SitePlan
from guide.site.schedule.reading import ReadCell
from guide.text import printable, tame_cell
from guide.trade.holes.fixing import KIND_WORDS
from guide.trade.mounts import MOUNT_WORDS

FORM = 1
"""Of the JSON: raised when a key changes its meaning or goes."""
WIDTH = 100
"""Columns of the text."""
_INVENTED = "The sheet is invented, for practice: never drill from it."
GOVERN = "What the schedule says is confirmed at each door before it counts."
_SHORT = {
    "ready": "there already",
    "not-known": "open",
    "nothing": "nothing holds",
    "no-holes": "-",
}


# --- text ---


def plan_text(plan: SitePlan) -> str:
    """The plan to be read in a terminal."""
    lines = [*heading(plan), "", *_table(plan)]
    for title, section in sections(plan):
        lines += ["", title, *(line for one in section for line in _wrapped(one))]
    return "\n".join(printable(line) for line in lines) + "\n"


def heading(plan: SitePlan) -> list[str]:
    """What the plan is of, and its totals."""
    planned, aside = len(plan.planned), len(plan.set_aside)
    asking = sum(1 for one in plan.planned if own_questions(one))
    lines = [
        f"PLAN of {plan.schedule.name}",
        f"Doors to fit: {planned} ({asking} with questions from the schedule). Set aside: {aside}.",
        f"Closer: {plan.sheet or 'no sheet given, so holes and their number stay open'}",
        f"Time at the doors: {_hours(plan.minutes[0])} to {_hours(plan.minutes[1])}",
    ]
    sheet = plan.planning.sheet
    if sheet is not None and "invented" in sheet.about.casefold():
        lines.append(_INVENTED)
    return lines


def _hours(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest:02} min" if hours else f"{rest} min"


_COLUMNS = (
    ("DOOR", 10),
    ("PLACE", 22),
    ("MOUNT", 12),
    ("SIZE", 4),
    ("LEAF", 18),
    ("FRAME", 18),
    ("MIN", 7),
)


def _table(plan: SitePlan) -> Iterator[str]:
    yield "  ".join(name.ljust(width) for name, width in _COLUMNS).rstrip()
    for one in plan.planned:
        frame = next((row for row in one.fasteners if row.part != "leaf"), None)
        leaf = next((row for row in one.fasteners if row.part == "leaf"), None)
        size = "?" if one.size is None else str(one.size)
        cells = (
            *(one.door.number, one.door.place, MOUNT_WORDS[one.mount], size),
            *(_fastener(leaf), _fastener(frame), f"{one.least}-{one.most}"),
        )
        shown = (cut(text, width) for text, (_, width) in zip(cells, _COLUMNS, strict=True))
        yield "  ".join(shown).rstrip()


def _fastener(row: Fasteners | None) -> str:
    if row is None:
        return "open"
    kind = row.fixing.kind
    words = KIND_WORDS.get(kind) or _SHORT[kind]
    counted = kind in KIND_WORDS and row.count is not None
    return f"{row.count} {words}" if counted else words


def sections(plan: SitePlan) -> Iterator[tuple[str, list[str]]]:
    """Every part of the plan after its table: a title and its lines. None is empty."""
    found = (
        ("SET ASIDE: do not start these", [f"{name_of(one.door)}: {one.set_aside}" for one in plan.set_aside]),
        ("WHY ANOTHER MOUNT", list(_ruled_out(plan))),
        ("PLATES AND BRACKETS", list(_accessories(plan))),
        ("TO FIND OUT, door by door", list(_questions(plan))),
        ("NOT IN THE SCHEDULE, asked at the door unless somebody knows", list(_silent(plan))),
        ("CAUTIONS, door by door", list(_cautions(plan))),
        ("CAUTIONS for every door", [*plan.cautions, GOVERN]),
        ("PICK LIST", list(pick_lines(plan))),
        ("TOOLS", [", ".join(plan.tools)] if plan.tools else []),
        ("TOOLS that some answer may need", [", ".join(plan.perhaps)] if plan.perhaps else []),
        ("HOW THE SCHEDULE WAS READ", list(plan.schedule.notes)),
        ("NOT UNDERSTOOD in the schedule", list(_not_understood(plan))),
    )  # fmt: skip
    return ((title, lines) for title, lines in found if lines)


def _ruled_out(plan: SitePlan) -> Iterator[str]:
    """The mounts that were passed over, with the doors of each reason together."""
    found: dict[str, list[str]] = defaultdict(list)
    for one in plan.planned:
        for mount, why in one.ruled_out:
            found[f"{MOUNT_WORDS[mount].capitalize()} is ruled out: {why}"].append(one.door.number)
    return (f"{', '.join(doors)}. {why}" for why, doors in found.items())


def _accessories(plan: SitePlan) -> Iterator[str]:
    for one in plan.planned:
        for part in one.accessories:
            told = f" {part.told}" if part.told else ""
            yield f"{name_of(one.door)}: {part.name} for the {part.carries}, because {part.why}.{told}"


def own_questions(one: DoorPlan) -> list[str]:
    """The questions that the schedule raises on a door, each with its cell."""
    return [f"{question.where} {question.text}" for question in one.open if question.where]


def _silent(plan: SitePlan) -> Iterator[str]:
    """The questions on which the schedule is silent, with the doors of each together."""
    for text, doors in plan.not_in_schedule.items():
        every = len(doors) == len(plan.planned)
        yield f"{text} {'Every door.' if every else _some(tuple(doors))}"


def _questions(plan: SitePlan) -> Iterator[str]:
    for one in plan.planned:
        for text in own_questions(one):
            yield f"{name_of(one.door)}: {text}"


def _cautions(plan: SitePlan) -> Iterator[str]:
    """The cautions of some doors, with the doors of each together."""
    found: dict[str, list[str]] = defaultdict(list)
    for one in plan.planned:
        for caution in one.cautions:
            if caution not in plan.cautions:
                found[caution].append(one.door.number)
    return (f"{', '.join(doors)}: {caution}" for caution, doors in found.items())


def pick_lines(plan: SitePlan) -> Iterator[str]:
    """The pick list, a line for each part."""
    for one in plan.pick_list:
        more = " or more" if one.at_least else ""
        count = f"{one.count}{more} x " if one.count else "as many as the closer's holes: "
        yield f"{count}{one.part} for {_some(one.doors)}"


_NAMED = 12


def _some(doors: tuple[str, ...]) -> str:
    more = f" and {len(doors) - _NAMED} more" if len(doors) > _NAMED else ""
    return f"{', '.join(doors[:_NAMED])}{more}"


def _not_understood(plan: SitePlan) -> Iterator[str]:
    """Cells with words that were not understood, those of one column and text together."""
    found: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for one in _cells(plan):
        found[one.heading or "outside the table", one.left, one.why].append(one.where)
    for (heading, left, why), places in found.items():
        because = f" ({why})" if why else ""
        yield f"{_some(tuple(places))}, {heading}: “{left}”{because}"


def _cells(plan: SitePlan) -> Iterator[ReadCell]:
    for door in plan.schedule.doors:
        yield from door.not_understood
    yield from plan.schedule.beside


def _wrapped(line: str) -> list[str]:
    return [
        freed(one)
        for one in textwrap.wrap(
            held(line), WIDTH, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False
        )
    ]


# --- JSON ---


def plan_json(plan: SitePlan) -> str:
    """The plan as one JSON object on one line."""
    return json.dumps(plan_data(plan), ensure_ascii=False) + "\n"


def plan_data(plan: SitePlan) -> dict[str, Any]:
    """The plan as plain data."""
    graph = plan.planning.graph
    return {
        "format": FORM,
        "schedule": plan.schedule.name,
        "units": plan.schedule.units,
        "procedure": graph.name,
        "edition": graph.edition,
        "sheet": plan.sheet or None,
        "doors": [_door_data(one) for one in plan.planned],
        "set_aside": [
            {"door": one.door.number, "place": one.door.place, "why": one.set_aside}
            for one in plan.set_aside
        ],
        "pick_list": [
            {
                "kind": one.kind,
                "sheet": one.sheet or None,
                "part": one.part,
                "count": one.count or None,
                "at_least": one.at_least,
                "doors": list(one.doors),
            }
            for one in plan.pick_list
        ],
        "tools": list(plan.tools),
        "tools_perhaps": list(plan.perhaps),
        "minutes": list(plan.minutes),
        "cautions": list(plan.cautions),
        "notes": list(plan.schedule.notes),
        "not_understood": [
            {"cell": one.where, "heading": one.heading, "text": one.text, "left": one.left}
            for one in _cells(plan)
        ],
    }


def _door_data(one: DoorPlan) -> dict[str, Any]:
    door = one.door
    return {
        "door": door.number,
        "place": door.place,
        "hardware": door.hardware or None,
        "facts": {name: _value(value) for name, value in door.facts.items()},
        "cells": dict(door.found_at),
        "supposed": one.supposed,
        "worked": {
            "mount": one.mount,
            "mount_why": one.mount_why,
            "ruled_out": [{"mount": mount, "why": why} for mount, why in one.ruled_out],
            "size": one.size,
            "size_working": list(one.size_why),
            "spring": one.turns or None,
            "accessories": [
                {
                    "name": part.name,
                    "carries": part.carries,
                    "why": part.why,
                    "told": part.told or None,
                }
                for part in one.accessories
            ],
            "fasteners": [
                {"part": row.part, "kind": row.fixing.kind, "count": row.count, "drill": row.drill}
                for row in one.fasteners
            ],
            "minutes": [one.least, one.most],
        },
        "open": [
            {"text": question.text, "fact": question.fact or None, "cell": question.where or None}
            for question in one.open
        ],
        "cautions": list(one.cautions),
    }


def _value(value: Value) -> object:
    return to_json(value) if isinstance(value, Quantity) else value


# --- CSV ---

CSV_COLUMNS = (
    *("door", "place", "hardware", "state", "mount", "why", "size", "spring", "accessories"),
    *("leaf", "frame", "least_minutes", "most_minutes", "open", "cautions"),
)


def plan_csv(plan: SitePlan) -> str:
    """One line a door, those set aside too. A cell that a spreadsheet would compute is quoted."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(CSV_COLUMNS)
    for one in plan.doors:
        writer.writerow([tame_cell(str(cell)) for cell in _csv_row(one)])
    return out.getvalue()


def _csv_row(one: DoorPlan) -> tuple[object, ...]:
    state = "set aside" if one.set_aside else "to fit"
    drills = {"leaf" if row.part == "leaf" else "frame": row.drill for row in one.fasteners}
    return (
        *(one.door.number, one.door.place, one.door.hardware, state),
        *(
            one.mount,
            one.set_aside or one.mount_why,
            "" if one.size is None else one.size,
            one.turns,
        ),
        "; ".join(f"{part.name} for the {part.carries}" for part in one.accessories),
        *(drills.get("leaf", ""), drills.get("frame", "")),
        *(one.least or "", one.most or ""),
        " ".join(f"{question.where} {question.text}".strip() for question in one.open),
        " ".join(one.cautions),
    )


FORMATS = {"text": plan_text, "json": plan_json, "csv": plan_csv}
"""What can be printed; a PDF is made by `plan_pdf`."""
