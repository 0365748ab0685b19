"""What a person types who copies a sheet from its paper: here the paper is the data of a sheet."""

from typing import Any

from guide.plain.sheet_paper import Answers, Question, next_of
from guide.trade.sheet.codec import Path


def on_paper(data: Any, question: Question) -> str:
    """The answer that a paper with this data gives: a number, a count, or yes and no for a part; empty if silent."""
    found = data
    for step in question.path:
        found = found.get(step) if isinstance(found, dict) else found[step]
        if found is None:
            return ""
    if isinstance(found, list):
        return str(len(found))
    return "yes" if isinstance(found, dict) else str(found)


def lines_for(data: Any, until: Path = ()) -> list[str]:
    """The lines for a whole sheet after its name, or for what comes before one place."""
    answers: Answers = {("sheet",): data["sheet"]}
    lines: list[str] = []
    while isinstance(question := next_of(answers), Question) and question.path != until:
        lines.append(on_paper(data, question))
        answers[question.path] = question.read(lines[-1])
    return lines
