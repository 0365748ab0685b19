"""The card of questions that are answered together, as a prompt, and its one answer as an answer for each of them.

The answer is deliberate: Enter alone answers nothing. It says that all that stands on the card is so; blanks are typed
on one line.
"""

from collections.abc import Iterable

from guide.procedure.facts import UNSURE, Fact, WrongAnswer
from guide.run.asked_together import Asked, asked_together
from guide.run.prompt import FROM_THE_SCHEDULE, Accepts, CardLine, Choice, Prompt, by_gravity
from guide.run.settings import DETAILS
from guide.run.state import STANDING, State, occurrence_of
from guide.translation import _

ALL, SINGLY = "all", "singly"
"""The answers to a card without a blank: all of it is so, or ask one by one."""
BLANK = "____"
ELSE = _("else")
AS_IT_STANDS = _("Is all of it so?")
FILL_IN = _("Is all of it so, and what is blank?")
ONLY_BLANKS = _("What is blank?")
_CHOICES = (
    Choice(ALL, _("All of it is so"), _("all of it")),
    Choice(SINGLY, _("Not all: ask one by one"), _("one by one")),
)
_TYPE_ONE = _("type what is blank")
_TYPE_MORE = _("type the {count} blanks in this order, with a comma between")
_REST = _("; it says that the rest is so")


def shown_at(state: State, made: Prompt, detail: str, singly: Iterable[str] = ()) -> Prompt:
    """What is before the person at this detail: the prompt as it is, or its card with the question or questions that
    close it. The questions named in `singly` are asked by themselves."""
    closing = made.card_question if detail == DETAILS[1] else None
    question = closing or made
    if state.status != STANDING or state.pending is not None or question.at in singly:
        return question
    start = occurrence_of(state.graph, question.at)
    title, found = asked_together(state, start, detail) if start is not None else ("", [])
    if question.card == FROM_THE_SCHEDULE and len(question.card_lines) == len(found):
        return question  # the schedule's values alone, which Enter accepts
    steps = [line for line in closing.card_lines if line.at != closing.at] if closing else []
    return _as_card(state, question, title, steps, found) if found else question


def questions_of(state: State, card: Prompt, detail: str) -> list[Asked]:
    """The questions of a card that is before the person."""
    start = occurrence_of(state.graph, card.asked[0])
    return asked_together(state, start, detail)[1] if start is not None else []


def picked_on(card: Prompt, text: str) -> str:
    """Which of a card's answers was given, by its number or its words; empty for another text."""
    said = text.strip().casefold()
    for number, choice in enumerate(_CHOICES, 1):
        numbered = str(number) if card.accepts.kind == "choice" else ""
        if said and said in (numbered, choice.value, choice.text.casefold(), choice.say.casefold()):
            return choice.value
    return ""


def texts_for(found: list[Asked], text: str, units: str) -> list[str]:
    """The text to answer each question with, what is offered included. Raises WrongAnswer if one is not accepted."""
    blank = [one.fact for one in found if one.value is None]
    typed = iter(_parts(text, blank, units) if blank else ())
    return [next(typed) if one.value is None else _offered(one) for one in found]


def _offered(one: Asked) -> str:
    return "" if one.by else str(one.value)


def _as_card(
    state: State, question: Prompt, title: str, steps: list[CardLine], found: list[Asked]
) -> Prompt:
    """The questions as one prompt, with the steps of the card above them."""
    alone = [one.alone for one in found]
    results = [one for asked in found for one in asked.results]
    blank = sum(one.value is None for one in found)
    asks = AS_IT_STANDS if not blank else FILL_IN if blank < len(found) else ONLY_BLANKS
    cautions = [
        *question.card_cautions,
        *(said for one in (*results, *alone) for said in one.cautions),
    ]
    return Prompt(
        "ask",
        question.at,
        asks,
        say=asks,
        why=_each(found, "why", state.units),
        watch=_each(found, "watch", state.units),
        find_out=_each(found, "find_out", state.units),
        tools=list(dict.fromkeys(tool for one in alone for tool in one.tools)),
        minutes=sum(one.minutes for one in alone),
        draws=next((one.draws for one in alone if one.draws is not None), None),
        drawing_says=next((one.drawing_says for one in alone if one.draws is not None), ""),
        accepts=_accepts(blank, len(found)),
        commands=question.commands,
        passed=question.passed,
        card=title,
        card_lines=[*steps, *(line for one in found for line in _lines(one, state.units))],
        card_cautions=by_gravity(dict.fromkeys(cautions)),
        asked=tuple(one.label for one in found),
        progress=question.progress,
        kit=question.kit,
    )


def _accepts(blank: int, questions: int) -> Accepts:
    if not blank:
        return Accepts("choice", choices=_CHOICES)
    wanted = _TYPE_ONE if blank == 1 else _TYPE_MORE.format(count=blank)
    return Accepts("values", wanted=wanted + (_REST if blank < questions else ""))


def _each(found: list[Asked], key: str, units: str) -> str:
    """A text of every question, each after the words it belongs to."""
    told = [(one, getattr(one.alone, key)) for one in found]
    lines = [f"{one.fact.short_question(units)} {text}" for one, text in told if text]
    return "\n".join(lines)


def _lines(one: Asked, units: str) -> list[CardLine]:
    """What was computed since the question before, and the question."""
    results = [CardLine(result.at, result.text) for result in one.results]
    return [*results, _line(one, units)]


def _line(one: Asked, units: str) -> CardLine:
    """A question with what is offered for it. What is not from the schedule has the other answers beside it, so that a
    person sees what is said no to; a blank has its answers beneath it, numbered."""
    question = one.fact.short_question(units) if one.by else one.alone.text
    asks = f"{question} ({one.alone.limit})" if one.alone.limit else question
    choices = one.alone.accepts.choices
    if one.value is None:
        numbered = [f"    {number} {choice.text}" for number, choice in enumerate(choices, 1)]
        text = "\n".join([f"{asks} {BLANK}", *(numbered if one.fact.options else ())])
        return CardLine(one.label, text, asks, BLANK)
    value = one.fact.show(one.value, units)
    if one.by:
        return CardLine(one.label, f"{asks} {value} ({one.by})", asks, value)
    others = "; ".join(c.text for c in choices if c.value not in (one.value, UNSURE))
    return CardLine(one.label, f"{asks} {value} ({ELSE}: {others})", asks, value)


def _parts(text: str, blank: list[Fact], units: str) -> list[str]:
    """What was typed for each blank. Raises WrongAnswer for another number of them, or for one that is not accepted."""
    parts = _parted(text, len(blank))
    if len(parts) != len(blank) or not all(parts):
        raise WrongAnswer(
            f"{len(blank)} answers are wanted, with a comma between; nothing was accepted."
        )
    parts = [_unsure(part, fact) for part, fact in zip(parts, blank, strict=True)]
    for part, fact in zip(parts, blank, strict=True):
        try:
            fact.read(part, units)
        except WrongAnswer as wrong:
            raise WrongAnswer(f"{fact.short_question(units)} {wrong}") from wrong
    return parts


def _parted(text: str, count: int) -> list[str]:
    """A line in parts. A comma may stand within a number too, so the surest sign that gives the right count is used."""
    if count == 1:
        return [text.strip()]
    found: list[str] = []
    for sign in (";", ", ", ","):
        found = [part.strip() for part in text.split(sign)]
        if len(found) == count:
            break
    return found


def _unsure(part: str, fact: Fact) -> str:
    """A choice's last number is “I don't know”, where that is offered."""
    return UNSURE if fact.unsure and part == str(len(fact.options) + 1) and fact.options else part
