"""The holes of a run in its record: which lines, where each one is, and what it takes."""

from typing import Any

from guide.run.run_opening import setting_out_of_run
from guide.run.state import State
from guide.trade.answer import result_json
from guide.trade.holes.rows import (
    carried_over,
    drill_sentence,
    holding,
    place_on,
    row_that_covers,
    rows,
)
from guide.trade.holes.set_out import SettingOut


def holes_data(state: State) -> dict[str, Any] | None:
    """Where the holes of the run's opening go; None if no numbers are known for them."""
    so = setting_out_of_run(state)
    if so.layout is None:
        return None
    units = state.units
    return {
        "source": so.source,
        "row": row_that_covers(so),
        "body": _place(so, "body", units),
        "shoe": _place(so, "shoe", units),
        "accessories": [one.name for one in so.accessories.found],
        "holes": [
            {
                "name": row.hole.name,
                "part": row.hole.part,
                "along": result_json(row.along),
                "along_from": row.along_from,
                "across": result_json(row.across),
                "across_from": row.across_from,
                "direction": row.direction,
                "drill": row.drill,
                "only_if": row.hole.only_if or None,
            }
            for row in rows(so, None, units)
        ],
    }


def holes_lines(state: State) -> list[str]:
    """The same as lines of a record; none if no numbers are known."""
    so = setting_out_of_run(state)
    if so.layout is None:
        return []
    units = state.units
    found = [row_that_covers(so), carried_over(so, units)]
    found += [f"Body: {_place(so, 'body', units)}.", f"Shoe: {_place(so, 'shoe', units)}."]
    found += [row.text for row in rows(so, None, units)]
    for part in ("leaf", "frame face", "soffit"):
        words, holds = drill_sentence(so, part, units), holding(so, part)
        found += [f"{part.capitalize()}: {words}{f'; {holds}' if holds else ''}."] if words else []
    return [line for line in found if line]


def _place(so: SettingOut, of: str, units: str) -> str:
    line = so.body if of == "body" else so.shoe
    return "" if line is None else place_on(so, line, units)
