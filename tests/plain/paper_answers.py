"""What a person types who copies a sheet from its paper: here the paper is the data of a sheet."""

import copy
from typing import Any

from guide.plain.sheet_paper import Answers, Question, next_of
from tests.trade.shipped_sheets import raw


def on_paper(data: Any, question: Question) -> str:
    """The answer that a paper with this data gives: a number, a count, or yes for a part; empty if it is silent."""
    found = data
    for step in question.path:
        found = found.get(step) if isinstance(found, dict) else found[step]
        if found is None:
            return ""
    if isinstance(found, list):
        return str(len(found))
    return "yes" if isinstance(found, dict) else str(found)


def answers_for(data: Any) -> Answers:
    """The answers for the whole sheet, in the order in which they are asked."""
    answers: Answers = {("sheet",): data["sheet"]}
    while isinstance(question := next_of(answers), Question):
        answers[question.path] = question.read(on_paper(data, question))
    return answers


def lines_for(data: Any) -> list[str]:
    """The lines that are typed for the sheet; its name is on the command line."""
    return list(answers_for(data).values())[1:]


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
