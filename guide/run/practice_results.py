"""The results of practice doors, one line of JSON each, so that a trainer can see a class."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from guide.files.library import own_folder
from guide.files.writing import append_line, why_not
from guide.practice.practice import Practice
from guide.practice.score import Score
from guide.run.settings import BadSettings, load_settings


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


def best_of() -> dict[str, str]:
    """The best result at each door, in a few words, by the door's name."""
    best: dict[str, int] = {}
    for one in results():
        door = str(one.get("door", ""))
        best[door] = max(best.get(door, 0), one["points"])
    return {door: f"reached before: {points} points" for door, points in best.items()}
