"""The prompt of a state: everything a person sees and may answer, the same for every front end."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from guide.measures import with_quantities
from guide.measures.mentioned import with_conversions
from guide.procedure.facts import NONE, UNSURE, Fact, Value
from guide.procedure.graph import Node
from guide.procedure.outcomes import ACHIEVED
from guide.run.ahead import card_of, following, question_after
from guide.run.cuts import shown, stopped_by
from guide.run.hole_lines import HoleLine, hole_lines
from guide.run.making_safe import to_make_safe
from guide.run.pages.kit import kit_due
from guide.run.state import (
    CUT_OPEN,
    ENDED,
    FAULT,
    STANDING,
    STOPPED,
    Occurrence,
    State,
    label,
)
from guide.run.step import CUT_REPORTS, RESOLUTIONS
from guide.run.step_drawing import Drawn, drawn, says
from guide.run.texts import filled, limit_in_words, name_of, show_fact
from guide.run.turns import answer_of_turn_before, end_of_turn, later_turn, turn_around
from guide.run.walk import basis_of, in_passing, known_at
from guide.run.worked_ahead import ahead_of
from guide.translation import _

OUTCOME_WORDS = {
    "finished": "Finished",
    "left-to-do": "Finished, with something left to do",
    "not-started": "Not to be done as it is",
    "made-safe": "Made safe and handed to the foreman",
    "found": "Fault found",
}


FETCH = "Before this, have at hand what is left to use:"


class NextJob(NamedTuple):
    """The job that an end leads to."""

    name: str
    """The procedure's, as the library has it."""
    title: str


class Choice(NamedTuple):
    """One answer that may be picked."""

    value: str
    text: str
    say: str


class Accepts(NamedTuple):
    """The answers that the run waits for."""

    kind: str
    """`done choice measure count text values begin hold read-back resolve report end nothing`; a time and a
    measured check are `measure`, several answers on one line `values`."""
    fact: str = ""
    measure: str = ""
    """The kind of measure wanted."""
    choices: tuple[Choice, ...] = ()
    wanted: str = ""
    """The values accepted, as the end of a sentence."""
    suggestion: str = ""
    """A value to confirm: from the schedule, the sheet, or a branch that was left."""
    suggested_by: str = ""


class CardLine(NamedTuple):
    """One step of a card, for a practised fitter, or one question of it."""

    at: str
    text: str
    question: str = ""
    """What a question's text begins with; its answer follows."""
    answer: str = ""


class Passed(NamedTuple):
    """A computed result that the run did not wait at."""

    at: str
    text: str
    say: str
    working: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...] = ()
    """What the computation warns of: signal word and sentence."""


@dataclass(slots=True)
class Prompt:
    """Everything to show for one block."""

    kind: str
    """The block's kind, or `stop`, `report`, `fault`, `ended`."""
    at: str
    text: str
    say: str = ""
    why: str = ""
    watch: str = ""
    looks_right: str = ""
    photo: str = ""
    """What the photo that the step wants must show; empty for none."""
    photos: tuple[str, ...] = ()
    """The names of those that were added to it."""
    find_out: str = ""
    cautions: list[tuple[str, str]] = field(default_factory=list)
    """Signal word and sentence, the gravest first."""
    tools: list[str] = field(default_factory=list)
    parts: list[str] = field(default_factory=list)
    minutes: int = 0
    drawing: str = ""
    """The step's own picture, written in the procedure."""
    draws: Drawn | None = None
    """This opening, to be drawn by `guide.drawing.for_step` in the room there is; None if the step
    draws none."""
    drawing_says: str = ""
    """Picture and drawing in words."""
    accepts: Accepts = field(default_factory=lambda: Accepts("nothing"))
    commands: tuple[str, ...] = ()
    read_back: list[tuple[str, str]] = field(default_factory=list)
    """Name and value, each read back before it counts."""
    holes: list[HoleLine] = field(default_factory=list)
    """The holes that the step lists, from where they are measured first and what to drill last."""
    working: list[str] = field(default_factory=list)
    passed: list[Passed] = field(default_factory=list)
    """The results computed since the block before, to be shown above the step."""
    card: str = ""
    card_lines: list[CardLine] = field(default_factory=list)
    """The steps that a card shows together, this one first; empty for a step by itself."""
    card_cautions: list[tuple[str, str]] = field(default_factory=list)
    """The cautions of every step of the card, each once, the gravest first."""
    asked: tuple[str, ...] = ()
    """On a card of questions: where each is asked, in order."""
    card_question: "Prompt | None" = None
    """The question that closes the card; with cards, its answer says that the steps are done."""
    turn: str = ""
    """In a later turn of several things, which of them this is about: “Other leaf”."""
    progress: float = 0.0
    """How far through the procedure, 0 to 1."""
    view: bool = False
    """Whether this is an earlier block looked at again."""
    limit: str = ""
    """For a `check`: what the reading is compared with."""
    kit: list[str] = field(default_factory=list)
    """At the first step on a ladder, or that marks or cuts: tools and parts to fetch before it."""
    answer: str = ""
    """For an earlier block: what was answered."""
    safe: list[str] = field(default_factory=list)
    """At an end that makes safe: what must be safe before the yes."""
    readings: list[str] = field(default_factory=list)
    """At the end of a job, each reading off the door as it was left and as it was found."""
    next_title: str = ""
    """The title of the job that is offered next, at an end that leads to one."""
    again: bool = False
    """Whether this ended job can be taken up again."""

    def together(self, detail: str) -> bool:
        """Whether the lines of a card are shown at this detail, and so are done or accepted together."""
        if self.asked:
            return True
        from_schedule = self.accepts.suggested_by == SCHEDULE
        return bool(self.card_lines) and (detail == "cards" or (detail == "full" and from_schedule))


SCHEDULE = "the schedule"
"""Who offers a value that the door schedule supplied."""
JOB_BEFORE = "the job before"
"""Who offers a value that the job before at this door supplied."""
TURN_BEFORE = _("as before")
"""Who offers what the turn before was answered."""
FROM_THE_SCHEDULE = "From the schedule"
"""The title of a card of such values."""
ALL_ACCEPTED = "Enter accepts all of these ({by}). Another answer changes the first."
_GRAVITY = ("danger", "warning", "caution", "notice")
_COMMANDS = ("back", "why", "status", "note", "photo", "pause", "safe", "help")


def prompt(state: State, at: Occurrence | None = None) -> Prompt:
    """The prompt of the block the run is at, or of an earlier block of the path (`at`)."""
    if at is not None and at != state.at:
        return _earlier(state, at)
    made = _standing(state)
    made.progress = state.at[0] / max(1, len(state.graph.nodes) - 1) if not state.ended else 1.0
    return made


def _standing(state: State) -> Prompt:
    where = label(state.graph, state.at)
    if state.status == ENDED:
        return _ended(state, where)
    if state.status == FAULT:
        return Prompt("fault", where, state.why, say="Stop here.", commands=_COMMANDS)
    if state.status == STOPPED:
        return _stop(state)
    if state.status == CUT_OPEN:
        return _report(state, where)
    if state.pending is not None:
        return _read_back(state)
    made = block_prompt(state, state.node, state.at)
    made.cautions = [one for one in made.cautions if one not in _just_said(state, made.card)]
    return made


def _just_said(state: State, card: str) -> list[tuple[str, str]]:
    """The cautions shown at the step before on the same card, which need no second showing now.

    A danger is shown every time, and so is every caution of a cut.
    """
    before = next(
        (state.graph.nodes[index] for index, _ in reversed(state.path[:-1]) if _seen(state, index)),
        None,
    )
    cut = state.node.body.get("cuts")
    if before is None or not card or before.body.get("card") != card or cut:
        return []
    return [one for one in _cautions(state, before) if one[0] != "danger"]


def _seen(state: State, index: int) -> bool:
    node = state.graph.nodes[index]
    return node.seen and not in_passing(state, node) and not _decided(state, node)


def _decided(state: State, node: Node) -> bool:
    """Whether a check compares what is computed, so that nobody is asked and the run does not wait there."""
    return node.kind == "check" and state.graph.facts[node.body["fact"]].worked


def _ended(state: State, where: str) -> Prompt:
    words, follows = OUTCOME_WORDS[state.ended], next_job(state)
    reason = state.ended_why or _text(state, state.node, "text")
    if state.node.kind == "end" and not state.ended_why:
        reason = end_of_turn(state, reason)
    made = Prompt("ended", where, f"{words}. {reason}".strip(), say=words)
    made.next_title = follows.title if follows is not None else ""
    made.again = can_be_taken_up(state)
    made.readings = _readings(state)
    return made


def _readings(state: State) -> list[str]:
    from guide.run.found_and_left import readings_at_the_end  # only an end shows them

    return readings_at_the_end(state)


def can_be_taken_up(state: State) -> bool:
    """Whether a job has ended before its purpose."""
    return bool(state.ended) and state.ended not in ACHIEVED


def next_job(state: State) -> NextJob | None:
    """The job that the end the run is at leads to; None if it is at no such end."""
    body = state.node.body
    if state.node.kind != "end" or state.ended_why or state.status not in (STANDING, ENDED):
        return None
    name = body.get("leads_to")
    return NextJob(name, body.get("next_title", name)) if name else None


def _stop(state: State) -> Prompt:
    cut = stopped_by(state)
    assert cut is not None  # the walk stopped for it
    place = label(state.graph, cut.at)
    choices = tuple(
        Choice(how, text, how)
        for how, text in zip(
            RESOLUTIONS,
            (
                "Remade: the work was done again to fit",
                "Plugged: the old holes are filled",
                "Abandoned: left as it is, with the foreman's word",
            ),
            strict=True,
        )
    )
    return Prompt(
        "stop",
        place,
        f"STOP. {state.why}",
        say="Stop. What was cut no longer fits.",
        why="Holes do not go away. Say what became of the old work, and add a note. Was the change a mistake? Go back"
        " to that answer and change it again.",
        accepts=Accepts("resolve", choices=choices, wanted="what became of it, and a note"),
        commands=("back", "status", "note", "pause", "safe", "help"),
        read_back=[
            (name_of(state, name), shown(state, name, then)) for name, then in cut.basis.items()
        ],
    )


def _report(state: State, where: str) -> Prompt:
    choices = tuple(
        Choice(how, text, how)
        for how, text in zip(
            CUT_REPORTS,
            ("All of it is done", "Part of it is done", "Nothing is cut yet"),
            strict=True,
        )
    )
    return Prompt(
        "report",
        where,
        f"{state.why} What was drilled?",
        say="What was drilled?",
        why="The program cannot know what was done since; look at the work and say.",
        accepts=Accepts("report", choices=choices, wanted="all, part or none"),
        commands=("status", "note", "pause", "safe", "help"),
    )


def _read_back(state: State) -> Prompt:
    pending = state.pending
    assert pending is not None
    node = state.graph.nodes[pending.at[0]]
    fact = state.graph.facts[node.body["fact"]]
    value = fact.show(pending.value, state.units)
    asked = fact.question(state.units)
    text = pending.doubt or f"{asked} {value}. Is that right?"
    return Prompt(
        "read-back",
        label(state.graph, pending.at),
        text,
        say=f"{value}, yes or no?",
        accepts=Accepts(
            "read-back",
            fact.name,
            choices=(
                Choice("yes", "Yes, that is right", "yes"),
                Choice("no", "No, ask again", "no"),
            ),
            wanted="yes or no",
        ),
        commands=("note", "pause", "safe", "help"),
        read_back=[(fact.short_question(state.units).rstrip("?"), value)],
    )


def block_prompt(state: State, node: Node, at: Occurrence) -> Prompt:
    """The prompt of a block as it is by itself."""
    body = node.body
    fact = state.graph.facts.get(body.get("fact", ""))
    asked = fact.question(state.units) if fact else ""
    short = fact.short_question(state.units) if fact and fact.say else ""
    text = _text(state, node, "text") or asked or _default_text(state, node)
    made = Prompt(
        node.kind,
        label(state.graph, at),
        text,
        turn=later_turn(state, at),
        say=_text(state, node, "say") or short or text,
        why=_text(state, node, "why"),
        watch=_text(state, node, "watch"),
        looks_right=_text(state, node, "looks_right"),
        photo=_text(state, node, "photo"),
        photos=tuple(one.name for one in state.photos if one.at == label(state.graph, at)),
        find_out=fact.how_to_find_out(state.units) if fact else "",
        cautions=_cautions(state, node),
        tools=list(body.get("tools", ())),
        parts=list(body.get("parts", ())),
        minutes=body.get("minutes", 0),
        draws=drawn(state, body["draws"]) if "draws" in body else None,
        drawing=body.get("picture", {}).get("drawing", "").rstrip("\n"),
        drawing_says=body.get("picture", {}).get("says", ""),
        commands=_COMMANDS,
        card=body.get("card", ""),
    )
    if "holes" in body:
        made.holes = hole_lines(state, body["holes"])
    if made.draws is not None:
        made.drawing_says = f"{made.drawing_says} {says(made.draws)}".strip()
    if node.kind in ("ask", "time", "check") and fact is not None:
        made.accepts = _asked(state, fact, at)
        made.limit = limit_in_words(state, node)
        if at == state.at and made.accepts.suggested_by == SCHEDULE:
            made.card, made.card_lines = FROM_THE_SCHEDULE, _from_schedule(state, node)
    elif node.kind == "work" and fact is not None:
        _show_work(state, fact, made)
        made.accepts = Accepts("done", fact.name)
    elif node.kind == "do":
        made.kit = _to_fetch(state, node, at)
        begun = any(c.at == at and not c.done and not c.resolution for c in state.cuts)
        cuts = bool(body.get("cuts"))
        made.accepts = Accepts("begin" if cuts and not begun else "done")
        if not cuts:
            ahead = ahead_of(state) if made.card else state
            steps = card_of(ahead, node)
            made.card_lines = [
                CardLine(label(state.graph, (one.index, at[1])), _with_holes(ahead, one))
                for one in steps
            ]
            made.card_cautions = by_gravity(
                dict.fromkeys(said for one in steps for said in _cautions(ahead, one))
            )
            question = question_after(ahead, steps[-1]) if steps else None
            if question is not None and at == state.at:
                first_round = (1,) * (len(question.loops) - len(node.loops))
                where = question.index, at[1] + first_round
                made.card_question = _with_its_steps(made, ahead, where)
    elif node.kind == "hold":
        values = basis_of(state, node)
        made.read_back = [
            (
                name_of(state, name),
                shown(state, name, values[name]),
            )
            for name in node.shows
        ]
        made.accepts = Accepts("hold", wanted="yes to every value")
    elif node.kind == "end":
        made.accepts = Accepts("end")
        made.text = end_of_turn(state, made.text) if at == state.at else made.text
        made.next_title = body.get("next_title", "")
        if body["outcome"] == "made-safe":
            made.safe = to_make_safe(state)
        elif at == state.at:
            made.readings = _readings(state)
    made.passed = _passed(state, at)
    return made


def _with_holes(ahead: State, step: Node) -> str:
    """The text of a step on a card, with the holes it lists beneath it, a line each."""
    rows = hole_lines(ahead, step.body["holes"]) if "holes" in step.body else []
    return "\n".join([_text(ahead, step, "text"), *(f"    {row.text}" for row in rows)])


def _to_fetch(state: State, node: Node, at: Occurrence) -> list[str]:
    """What to fetch before the first step of the work; only where the run is."""
    lines = kit_due(state, node) if at == state.at else []
    return [FETCH, *lines] if lines else []


def _with_its_steps(steps: Prompt, ahead: State, at: Occurrence) -> Prompt:
    """The question that closes a card, with the card's steps above it."""
    made = block_prompt(ahead, ahead.graph.nodes[at[0]], at)
    made.card, made.passed, made.progress = steps.card, steps.passed, steps.progress
    made.kit = steps.kit
    made.card_lines = [*steps.card_lines, CardLine(made.at, made.text)]
    cautions = dict.fromkeys([*steps.card_cautions, *made.cautions])
    made.card_cautions = by_gravity(cautions)
    return made


def _passed(state: State, at: Occurrence) -> list[Passed]:
    """The results between this block and the one that was waited at before it, oldest first."""
    found: list[Passed] = []
    before = state.path[: state.path.index(at)] if at in state.path else []
    for occurrence in reversed(before):
        node = state.graph.nodes[occurrence[0]]
        if not node.seen or _decided(state, node):
            continue
        if not in_passing(state, node):
            break
        name = node.body["fact"]
        if name in state.hidden:
            continue
        where = label(state.graph, occurrence)
        result = Prompt(node.kind, where, _text(state, node, "text"), _text(state, node, "say"))
        _show_work(state, state.graph.facts[name], result)
        if _worked_with_hidden(state, name):
            result.working = []
        say = result.say or result.text
        found.insert(
            0, Passed(where, result.text, say, tuple(result.working), tuple(result.cautions))
        )
    return found


def gives_away(state: State, at: Occurrence) -> bool:
    """Whether an earlier block shows or draws what the question the run is at hides."""
    node = state.graph.nodes[at[0]]
    return bool(state.hidden) and ("draws" in node.body or not state.hidden.isdisjoint(node.shows))


def _worked_with_hidden(state: State, name: str) -> bool:
    """Whether a computed fact is one part of an answer that has a hidden part too, so that the working names both."""
    facts = state.graph.facts
    fact = facts[name]
    return any(
        other.worked and (other.computation, other.using) == (fact.computation, fact.using)
        for other in (facts[one] for one in state.hidden)
    )


def _default_text(state: State, node: Node) -> str:
    if node.kind == "hold":
        return "Hold. Read these back before anything is cut."
    if node.kind == "end":
        return OUTCOME_WORDS[node.body["outcome"]] + "."
    if node.kind == "check":  # of a computed value, which nobody is asked for
        name = node.body["fact"]
        said = name_of(state, name)
        return f"{said[:1].upper()}{said[1:]}: {show_fact(state, name)}."
    return ""


def _text(state: State, node: Node, key: str) -> str:
    text = node.body.get(key, "")
    return filled(state, text, node) if text else ""


def _cautions(state: State, node: Node) -> list[tuple[str, str]]:
    own = [
        (word, filled(state, text, node))
        for caution in node.body.get("caution", ())
        for word, text in caution.items()
    ]
    if not own:
        hazards = [state.graph.hazard(name) for name in node.body.get("hazards", ())]
        own = [
            (word, with_quantities(text, state.units))
            for hazard in hazards
            for word, text in hazard.cautions
        ]
    return by_gravity(own)


def by_gravity(cautions: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    """Cautions, the gravest first."""
    return sorted(cautions, key=lambda caution: _GRAVITY.index(caution[0]))


def _asked(state: State, fact: Fact, at: Occurrence) -> Accepts:
    suggestion, by = suggested(state, fact, at)
    text = fact.show(suggestion, state.units) if suggestion is not None else ""
    common = {"fact": fact.name, "wanted": fact.wanted(state.units), "suggestion": text}
    if fact.kind in ("choice", "yesno"):
        choices = [Choice(o.label, o.text, o.say) for o in fact.options.values()]
        if fact.unsure:
            choices.append(Choice(UNSURE, "I don't know", "I don't know"))
        return Accepts("choice", choices=tuple(choices), suggested_by=by, **common)
    kind = fact.kind if fact.kind in ("count", "text") else "measure"
    unsure = (Choice(UNSURE, "I don't know", "I don't know"),) if fact.unsure else ()
    measure = fact.kind if kind == "measure" else ""
    return Accepts(kind, measure=measure, choices=unsure, suggested_by=by, **common)


def photo_in_words(made: Prompt, add: str) -> str:
    """The photo that the step wants, with how it is added (`add`), or the names of those it has; empty for none."""
    if made.photos:
        return _("Photo added: {names}.").format(names=", ".join(made.photos))
    if not made.photo or made.view:
        return ""
    return _("Photo wanted: {photo} {add} adds it.").format(photo=made.photo, add=add)


def suggestion_in_words(accepts: Accepts, *, as_card: bool) -> str:
    """What Enter accepts: one value, or a card of them."""
    if as_card:
        return ALL_ACCEPTED.format(by=accepts.suggested_by)
    return f"Enter accepts {accepts.suggestion} ({accepts.suggested_by})."


def suggested(state: State, fact: Fact, at: Occurrence) -> tuple[Value | None, str]:
    """A value to offer for confirmation, and who offers it; none where a person measures blind."""
    if state.graph.nodes[at[0]].body.get("blind"):
        return None, ""
    if at in state.suggestions:
        return state.suggestions[at], "your earlier answer"
    turn = turn_around(state.graph, at)
    if turn is not None and turn[1] > 1:
        earlier = answer_of_turn_before(state, fact, at)
        if earlier is not None:
            return earlier, TURN_BEFORE
    elif fact.name in state.supplied:
        before = bool(state.about.get("after"))
        return state.supplied[fact.name], JOB_BEFORE if before else SCHEDULE
    if fact.offer is not None and state.sheet is not None:
        from guide.run.offers import offered

        value = offered(state, fact)
        if value is not None:
            return value, f"the sheet {state.sheet['sheet']}"
    return None, ""


def _show_work(state: State, fact: Fact, made: Prompt) -> None:
    result = state.env.result(fact)
    value = fact.show(result.value, state.units)
    if result.value == NONE:
        made.text = f"{made.text} No answer: {with_conversions(result.reason, state.units)}".strip()
        made.say = made.say or "There is no answer."
    elif not made.text:
        made.text = f"{fact.name.replace('_', ' ').capitalize()}: {value}"
        made.say = made.text
    working = (with_conversions(one, state.units) for one in result.working)
    made.working = [one for one in working if one not in made.text]
    made.cautions += [("notice", with_conversions(one, state.units)) for one in result.cautions]


def _from_schedule(state: State, node: Node) -> list[CardLine]:
    """This question and those that follow it at once and are answered by the schedule too; empty for one by itself."""
    ahead = ahead_of(state)
    lines: list[CardLine] = []
    place: Node | None = node
    while place is not None and place.kind == "ask" and place.loops == node.loops:
        fact = state.graph.facts[place.body["fact"]]
        at = (place.index, state.at[1])
        value, by = suggested(state, fact, at)
        if value is None or by != SCHEDULE or at in state.answers:
            break
        question = fact.short_question(state.units) or fact.question(state.units)
        lines.append(
            CardLine(label(state.graph, at), f"{question} {fact.show(value, state.units)}")
        )
        ahead.env.take(at, fact.name, value)
        place = following(ahead, place)
    return lines if len(lines) > 1 else []


def _earlier(state: State, at: Occurrence) -> Prompt:
    """An earlier block, looked at again: what was said there, and the way to change it."""
    node = state.graph.nodes[at[0]]
    if at in state.path:
        state = replace(state, env=known_at(state, at), hidden=frozenset())
    made = block_prompt(state, node, at)
    made.view = True
    answer = state.answers.get(at)
    if answer is not None:
        fact = state.graph.facts[node.body["fact"]]
        made.answer = fact.show(answer.value, state.units)
        if state.status in (FAULT, ENDED):
            made.accepts = Accepts("nothing")
    else:
        made.answer = "done" if at in state.dones else ""
        made.accepts = Accepts("nothing")
    made.card_lines, made.card_cautions, made.card_question = [], [], None
    made.progress = at[0] / max(1, len(state.graph.nodes) - 1)
    return made
