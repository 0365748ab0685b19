"""The results of practice doors, one line of JSON each, so that a trainer can see a class."""

import csv
import io
import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from guide.files.library import own_folder, papers_folder
from guide.files.writing import append_line, why_not, write_beside
from guide.practice.practice import Practice
from guide.practice.score import Score
from guide.run.settings import BadSettings, load_settings
from guide.translation import ngettext


def kept_in() -> Path:
    """The file they are kept in, in the person's data folder."""
    return own_folder("data") / "practice.jsonl"


def keep(practice: Practice, score: Score) -> str:
    """Add one result. A sentence where that cannot be done; empty where it was."""
    try:
        line = {
            "utc": datetime.now(UTC).isoformat(timespec="seconds"),
            "name": load_settings().name,
            "door": practice.at.name,
            "verdict": practice.verdict,
            "points": score.points,
            "swings": len(practice.swings),
            "slams": sum(swung.slammed for swung in practice.swings),
            "minutes": round(practice.spent / 60),
        }
        append_line(kept_in(), json.dumps(line, ensure_ascii=False))
    except BadSettings as error:
        return f"The result could not be kept: {error}"
    except OSError as error:
        return f"The result could not be kept: {why_not(error, kept_in())}."
    return ""


def results() -> list[dict[str, Any]]:
    """Every result kept, the oldest first; a line that is not one is left out."""
    try:
        lines = kept_in().read_text("utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return []
    found = []
    for line in lines:
        try:
            result = json.loads(line)
        except ValueError:
            continue
        if isinstance(result, dict) and isinstance(result.get("points"), int):
            found.append(result)
    return found


COLUMNS = ("utc", "name", "door", "verdict", "points", "swings", "slams", "minutes")
"""What is kept of a result, in the order of an export."""
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""Signs at which a spreadsheet takes a cell for a formula."""


def results_csv() -> str:
    """Every result kept as a table of comma-separated values, the oldest first, for a trainer's spreadsheet."""
    table = io.StringIO()
    writer = csv.writer(table, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows([_cell(one.get(column)) for column in COLUMNS] for one in results())
    return table.getvalue()


def _cell(value: object) -> str:
    """A cell that no spreadsheet runs."""
    text = "" if value is None else str(value)
    return f"'{text}" if text.startswith(_FORMULA) else text


def put_results() -> str:
    """Write the results into the person's papers folder; a sentence that says where, or why not."""
    found = results()
    if not found:
        return "No result is kept yet: give your verdict at a practice door first."
    path = papers_folder() / "practice-results.csv"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_beside(path, results_csv().encode("utf-8-sig"))
    except OSError as error:
        return f"The results could not be written: {why_not(error, path)}."
    told = ngettext("{count} result: {path}", "{count} results: {path}", len(found))
    return told.format(count=len(found), path=path)


def best_of() -> dict[str, str]:
    """The best result at each door, in a few words, by the door's name."""
    best: dict[str, int] = {}
    for one in results():
        door = str(one.get("door", ""))
        best[door] = max(best.get(door, 0), one["points"])
    return {door: f"best so far: {points} points" for door, points in best.items()}
