"""What a person types who copies a sheet from its paper: here the paper is the data of a sheet."""

import copy
from typing import Any

from guide.plain.sheet_paper import Answers, answered, answers_of
from tests.trade.shipped_sheets import raw


def typed_for(answers: Answers) -> list[str]:
    """The lines that are typed for these answers, each number with its side in words; the name of the sheet is on the
    command line."""
    questions = {one.path: one for one in answered(answers)}
    return [questions[path].shown(text) for path, text in answers.items()][1:]


def lines_for(data: Any) -> list[str]:
    """The lines that are typed for the sheet."""
    return typed_for(answers_of(data))


def small_paper() -> dict[str, Any]:
    """The paper of generic-b without its parallel arm, chart, accessories, and screws in the box."""
    data = copy.deepcopy(raw("generic-b"))
    for key in ("chart", "accessories"):
        del data[key]
    data["mounts"].pop()
    data["body"]["holes"] = [hole for hole in data["body"]["holes"] if "kind" not in hole]
    for part in ("body", "shoe"):
        del data[part]["packed"]
    return dict(data)
