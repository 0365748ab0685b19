"""A prompt as rows: the action first, then its cautions, the answers, and the long words."""

from collections.abc import Iterable

from guide.run.desk_words import NUMBERED
from guide.run.overview import Known
from guide.run.prompt import Prompt, suggestion_in_words
from guide.screens.rows import Row

CHOOSING = ("choice", "report", "resolve", "read-back")
"""What is answered by picking one of the choices."""
_STOP_BANNER = "STOP   STOP   STOP"


def step_rows(
    shown: Prompt, detail: str, *, long: bool, picked: int = -1, roomy: bool = True
) -> list[Row]:
    """The body of the run screen. `long` adds why, what to watch for and the rest at any detail."""
    rows = [Row(f" {_STOP_BANNER}", "stop", fill=True)] if shown.kind == "stop" else []
    for passed in shown.passed:
        rows.append(Row(passed.say if detail == "spoken" else passed.text))
        rows += _cautions(passed.cautions)
    rows += _action(shown, detail, roomy)
    as_card = detail == "cards" and bool(shown.card_lines)
    cautions = shown.card_cautions if as_card else shown.cautions
    rows += _cautions(cautions)
    if cautions and roomy:
        rows.append(Row())
    if shown.limit:
        rows.append(Row(f"Limit: {shown.limit}."))
    rows += [Row(one.text, mark="  - " if one.name else "  ") for one in shown.holes]
    rows += [Row(f"{name}: {value}", mark="  - ") for name, value in shown.read_back]
    rows += [Row(one, mark="  - ") for one in shown.safe]
    if shown.next_title and not shown.view:
        ends = "ends this job and begins" if shown.kind == "end" else "begins"
        rows.append(
            Row(f"{ends}: {shown.next_title}", "bold", mark=" J ", mark_style="key", key="j")
        )
    if shown.again:
        again = "goes on with this job, with what has changed"
        rows.append(Row(again, mark=" A ", mark_style="key", key="a"))
    if shown.read_back and shown.accepts.choices and roomy:
        rows.append(Row())
    rows += _answers(shown, picked, as_card=as_card)
    if long:
        rows += _long_words(shown, roomy)
    return rows


def _cautions(cautions: Iterable[tuple[str, str]]) -> list[Row]:
    return [
        Row(sentence, "bold", mark=f" {word.upper()} ", mark_style=word)
        for word, sentence in cautions
    ]


def _action(shown: Prompt, detail: str, roomy: bool) -> list[Row]:
    if detail == "cards" and shown.card_lines:
        rows = [Row(shown.card, "label")]
        rows += [Row(line.text, "action", mark="- ") for line in shown.card_lines]
    else:
        text = shown.say if detail == "spoken" and shown.say and not shown.view else shown.text
        rows = [Row(text, "action", mark="▌ ", mark_style="rule", spaced=roomy)]
    return [Row(), *rows, Row()] if roomy else rows


def _answers(shown: Prompt, picked: int, *, as_card: bool) -> list[Row]:
    accepts = shown.accepts
    rows: list[Row] = []
    if shown.view and shown.answer:
        rows.append(Row(f"Answered: {shown.answer}."))
    if accepts.kind in CHOOSING:
        rows += [
            Row(
                choice.text,
                "picked" if number == picked else "",
                mark=f" {key or '↓'} ",
                mark_style="key",
                key=key,
            )
            for number, choice in enumerate(accepts.choices)
            for key in (str(number + 1) if number < NUMBERED else "",)
        ]
    elif accepts.wanted and accepts.kind in ("measure", "count", "text"):
        unsure = " U: I don't know." if accepts.choices else ""
        rows.append(Row(f"{accepts.wanted[:1].upper()}{accepts.wanted[1:]}.{unsure}"))
    if accepts.suggestion and not shown.view:
        rows.append(Row(suggestion_in_words(accepts, as_card=as_card), "bold"))
    return rows


def _long_words(shown: Prompt, roomy: bool) -> list[Row]:
    working = [line for passed in shown.passed for line in passed.working] + shown.working
    rows = [Row(line, mark="  ") for line in working]
    rows += [
        Row(text, mark=f"{heading}: ", mark_style="label")
        for heading, text in (
            ("Right when", shown.looks_right),
            ("Watch for", shown.watch),
            ("Why", shown.why),
            ("To find out", shown.find_out),
            ("Tools", ", ".join(shown.tools)),
            ("Parts", ", ".join(shown.parts)),
            ("About", f"{shown.minutes} min" if shown.minutes else ""),
        )
        if text
    ]
    if shown.drawing:
        rows += [Row(line, whole=True) for line in shown.drawing.split("\n")]
    if shown.drawing_says:
        rows.append(Row(shown.drawing_says, "dim"))
    return [Row(), *rows] if rows and roomy else rows


def known_rows(known: list[Known], picked: int = -1) -> list[Row]:
    """What is known of the opening; the one that is picked can be gone back to."""
    if not known:
        return [Row("Nothing yet.", "dim")]
    return [
        Row(f"{fact.question} {fact.value}", "picked" if number == picked else "", mark="- ")
        for number, fact in enumerate(known)
    ]
