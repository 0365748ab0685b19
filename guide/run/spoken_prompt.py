"""The spoken form of a prompt: what is said aloud of a step and of its values."""

import re

from guide import measures
from guide.measures import MeasureError, Quantity, parse
from guide.measures.in_text import AT_LEAST, AT_MOST
from guide.measures.parsing import parse_signed
from guide.procedure.facts import Fact, Value
from guide.procedure.graph import Node
from guide.run.hole_lines import HoleLine
from guide.run.overview import known
from guide.run.prompt import Passed, Prompt
from guide.run.state import HIDDEN, STANDING, State, occurrence_of
from guide.run.texts import show_piece
from guide.text import LIMIT, fill, is_quantity
from guide.translation import _
from guide.words import by_name
from guide.words.spoken import Language, Unsayable, read_back, say

ABOUT = "about "
MINUS = "minus "
MOST_KNOWN = 5
"""Values that are said at once."""


def value_aloud(fact: Fact, value: Value, language: Language) -> str:
    """A value as it was given, in words: a measure with its unit, what is easily misheard with its digits.

    What has no exact words is given as it is written.
    """
    if isinstance(value, Quantity) and value.magnitude < 0:
        return MINUS + value_aloud(fact, Quantity(-value.magnitude, value.unit), language)
    if isinstance(value, int) and value < 0:
        return MINUS + value_aloud(fact, -value, language)
    if isinstance(value, Quantity | int):
        try:
            return read_back(value, language)
        except Unsayable:
            return str(value)
    option = fact.options.get(value)
    if option is not None:
        return option.say or option.text
    shown = fact.show(value)
    return _LENGTH.sub(lambda m: _length_aloud(m[0], language), shown) if fact.worked else shown


_LENGTH = re.compile(r"(?<![\w./])\d+(?:[ .]\d+)?(?:/\d+)? (?:in|mm)\b")
"""A length within a computed sentence."""


def _length_aloud(text: str, language: Language) -> str:
    try:
        return say(measures.parse(text, "length"), language)
    except Unsayable:
        return text


def known_aloud(fact: Fact, value: Value, system: str, language: Language) -> str:
    """A value in the units of the run, in words: what the screen shows of it."""
    if not isinstance(value, Quantity):
        return value_aloud(fact, value, language)
    shown = measures.show(value, system)
    near = parse_signed(shown.removeprefix(ABOUT), value.kind, system)
    said = value_aloud(fact, near, language)
    return ABOUT + said if shown.startswith(ABOUT) else said


def all_known_aloud(state: State, language: Language) -> str:
    """The latest of what is known and not hidden; a screen shows all of it."""
    latest = [one for one in known(state) if one.fact not in state.hidden][-MOST_KNOWN:]
    said = [
        f"{one.question.rstrip('?')}: {_name_aloud(state, one.fact, language)}" for one in latest
    ]
    return ". ".join(said) + "." if said else _("Nothing is known yet.")


def step_aloud(state: State, made: Prompt, language: Language) -> str:
    """The short words of a step, with every value that must be read back and the words that pass it."""
    if state.pending is not None and made.kind == "read-back":
        return _pending_aloud(state, language)
    passed = [_sentence(_passed_aloud(state, one, language)) for one in made.passed]
    holes = [_sentence(_hole_aloud(one, language)) for one in made.holes]
    said = " ".join([*passed, _sentence(_short(state, made, language)), *holes])
    if made.kind == "hold" and not made.view:
        values = [
            _sentence(f"{name}: {_name_aloud(state, fact, language)}")
            for (name, _), fact in zip(made.read_back, state.node.shows, strict=True)
        ]
        return " ".join([said, *values, f"Say “{by_name('hold').word}”, or “no”."])
    if made.accepts.kind == "begin":
        return f"{said} Say “{by_name('cut').word}” when you begin."
    if made.accepts.kind == "end" and not made.view:
        safe = f" {' '.join(made.safe)}" if made.safe else ""
        return f"{said}{safe} Say “{by_name('yes').word}” to end the job.{_offers_aloud(made)}"
    return f"{said}{_offers_aloud(made)}" if made.kind == "ended" else said


def _offers_aloud(made: Prompt) -> str:
    """What an end offers, with the words that take it."""
    follows = f" Next: {made.next_title}. Say “{by_name('next job').word}” to begin it."
    again = f" Say “{by_name('take up').word}” to go on with this one."
    return (follows if made.next_title else "") + (again if made.again else "")


def _hole_aloud(line: HoleLine, language: Language) -> str:
    """A hole's name and its two numbers in words; any other line as it is written."""
    if not line.name:
        return line.text
    numbers = [f"{_length_aloud(str(length), language)} {way}" for length, way in line.places]
    only_if = [line.only_if] if line.only_if else []
    return f"{line.name}: {', '.join([*numbers, *only_if])}"


def _passed_aloud(state: State, passed: Passed, language: Language) -> str:
    """The short words of a result that was not waited at, its values in words."""
    at = occurrence_of(state.graph, passed.at)
    assert at is not None  # it is on the path
    body = state.graph.nodes[at[0]].body
    written: str = body.get("say") or body.get("text", "")
    return _filled_aloud(state, written, state.graph.nodes[at[0]], language) or passed.say


def why_aloud(state: State, made: Prompt, language: Language) -> str:
    """The long words: the whole text, its cautions, why, what to watch for, what it looks like when right."""
    text, why, watch, right = (
        _words_of(state, made, key, shown, language)
        for key, shown in (
            ("text", made.text),
            ("why", made.why),
            ("watch", made.watch),
            ("looks_right", made.looks_right),
        )
    )
    cautions = [f"{word}: {sentence}" for word, sentence in made.cautions]
    return " ".join(_sentence(part) for part in (text, *cautions, why, watch, right) if part)


def _short(state: State, made: Prompt, language: Language) -> str:
    key = "text" if made.say == made.text else "say"
    return _words_of(state, made, key, made.say, language)


def _words_of(state: State, made: Prompt, key: str, shown: str, language: Language) -> str:
    """Words of the step with its values in words too; as they are shown if it is not a step of the procedure."""
    written: str = state.node.body.get(key, "") if _at_the_step(state, made) else ""
    return _filled_aloud(state, written, state.node, language) if written else shown


def _filled_aloud(state: State, text: str, node: Node, language: Language) -> str:
    """A text with its facts, measures and limit in words."""

    def piece(inner: str) -> str:
        if inner == LIMIT or is_quantity(inner):
            return _measures_aloud(show_piece(state, inner, node), language)
        return _name_aloud(state, inner, language)

    return fill(text, piece)


def _measures_aloud(shown: str, language: Language) -> str:
    """What is shown of a measure or a limit, with its numbers in words: `5 lbf (22 N)` is five pounds, 22 newtons."""
    bound = next((one for one in (AT_MOST, AT_LEAST) if shown.lower().startswith(one)), "")
    parts = shown[len(bound) :].removesuffix(")").split(" (")
    return shown[: len(bound)] + ", ".join(_measure_aloud(part, language) for part in parts)


def _measure_aloud(shown: str, language: Language) -> str:
    try:
        return read_back(parse(shown, None), language)
    except (MeasureError, Unsayable):
        return shown


def _at_the_step(state: State, made: Prompt) -> bool:
    return not made.view and state.status == STANDING and made.kind == state.node.kind


def _name_aloud(state: State, name: str, language: Language) -> str:
    fact = state.graph.facts[name]
    if name in state.hidden:
        return HIDDEN
    if name not in state.env:
        return "not known yet"
    return known_aloud(fact, state.env[name], state.units, language)


def _pending_aloud(state: State, language: Language) -> str:
    pending = state.pending
    assert pending is not None
    fact = state.graph.facts[state.graph.nodes[pending.at[0]].body["fact"]]
    unusual = " That is unusual here." if pending.doubt else ""
    return f"{_sentence(value_aloud(fact, pending.value, language))}{unusual} Yes or no?"


def _sentence(text: str) -> str:
    text = text.strip()
    text = text[:1].upper() + text[1:]
    return text if not text or text[-1] in ".?!" else f"{text}."
