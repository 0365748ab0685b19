"""Answers as events: what a person enters becomes the draft of an event, the same way for every front end."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from guide.procedure.facts import Value, writing
from guide.run.cuts import stopped_by
from guide.run.making_safe import to_make_safe
from guide.run.prompt import suggested
from guide.run.state import Occurrence, State, label
from guide.run.step import Refused
from guide.run.turns import outcome_here
from guide.run.walk import basis_of
from guide.text import LONGEST_NOTE, tidy

if TYPE_CHECKING:
    from guide.run.photos import CleanPhoto

Draft = tuple[str, dict[str, Any]]
"""Kind and body of an event to be."""


def answer(
    state: State,
    text: str,
    at: Occurrence | None = None,
    *,
    heard: bool = False,
    words: str = "",
    confidence: float | None = None,
    swings: Mapping[str, Any] | None = None,
    looked: bool = False,
    together: bool = False,
) -> Draft:
    """An answer to the question the run is at, or a new one to an earlier question (`at`).

    An empty answer accepts the suggestion. A value that was heard, or that is unusual for its fact,
    becomes `heard` and waits for a yes. `words` are those that were heard, `confidence` 0 to 1;
    both go into the event, and so do the `swings` that a time is the median of (swings.py). `looked`
    says that the values a blind question hides were looked at before it was answered, `together` that it was answered
    with others on one card. Raises WrongAnswer for what the fact does not accept, Refused if nothing is asked.
    """
    place = at if at is not None else state.at
    node = state.graph.nodes[place[0]]
    fact = state.graph.facts.get(node.body.get("fact", ""))
    if fact is None or fact.worked or node.kind not in ("ask", "time", "check"):
        raise Refused("Nothing is asked here.")
    value: Value | None = None
    if not text.strip():
        value, _ = suggested(state, fact, place)
    if value is None:
        value = fact.read(text, state.units)
    where = label(state.graph, place)
    doubt = fact.doubt(value)
    beside = {**(swings or {}), **({"looked": True} if looked and node.body.get("blind") else {})}
    beside |= {"together": True} if together else {}
    if text.strip() and not heard and not doubt:
        doubt = fact.doubt_of_unit(text, value, (str(node.body.get("text", "")),), state.units)
    if heard or doubt:
        body: dict[str, Any] = {
            "at": where,
            "value": writing(value),
            "doubt": doubt,
            "by": "voice" if heard else "key",
        }
        if words:
            body["words"] = words
        if confidence is not None:
            body["confidence"] = round(confidence, 3)
        return "heard", {**body, **beside}
    body = {"at": where, "value": writing(value), **beside}
    if place in state.answers and place in state.path:
        return "revised", body
    return ("timed" if node.kind == "time" else "answered"), body


def confirm(state: State, yes: bool) -> Draft:
    """Yes or no to the value read back."""
    if state.pending is None:
        raise Refused("Nothing is waiting for a yes.")
    return "confirmed", {"at": label(state.graph, state.pending.at), "yes": yes}


def done(state: State) -> Draft:
    """The step is done, its computation seen, the cut finished, or the end reached."""
    if state.node.kind == "end":
        outcome = outcome_here(state)
        safe = {"safe": to_make_safe(state)} if outcome == "made-safe" else {}
        return "ended", {"outcome": outcome, **safe}
    return "done", {"at": label(state.graph, state.at)}


def begin(state: State) -> Draft:
    """The cut is begun."""
    return "cut begun", {"at": label(state.graph, state.at)}


def pass_hold(state: State) -> Draft:
    """Every value read back is right."""
    if state.node.kind != "hold":
        raise Refused("There is no hold point here.")
    return "hold passed", {
        "at": label(state.graph, state.at),
        "values": basis_of(state, state.node),
    }


def resolve(state: State, how: str, note: str) -> Draft:
    """The resolution of the cut that stopped the run."""
    cut = stopped_by(state)
    at = label(state.graph, cut.at) if cut is not None else ""
    return "cut resolved", {"at": at, "how": how, "note": _words(note)}


def report(state: State, how: str) -> Draft:
    """What was drilled before the interruption."""
    cut = state.unreported_cut()
    if cut is None:
        raise Refused("No cut was interrupted.")
    return "cut resolved", {"at": label(state.graph, cut.at), "how": how}


def make_safe(state: State, why: str) -> Draft:
    """Stop, make it safe, hand over to the foreman."""
    why = _words(why)
    if not why:
        raise Refused("Say in a few words why, for the foreman.")
    return "ended", {"outcome": "made-safe", "why": why, "safe": to_make_safe(state)}


def take_up(state: State, why: str) -> Draft:
    """Go on with a job that ended before its purpose, on what has changed or on the foreman's word."""
    return "taken up", {"why": _words(why)}


def note(state: State, text: str) -> Draft:
    """A note at the place the run stands."""
    return "noted", {"at": label(state.graph, state.at), "text": _words(text)}


def correction(at: str, text: str) -> Draft:
    """What is right in the place of an answer of an ended job; `at` is the label of its block."""
    return "corrected", {"at": at, "text": _words(text)}


def photo(state: State, read: "CleanPhoto", shows: str, at: Occurrence | None = None) -> Draft:
    """A photo at the place the run stands, or at an earlier one that is looked at."""
    shows = _words(shows)
    if not shows:
        raise Refused("Say in a few words what the photo shows.")
    return "photo added", {
        "at": label(state.graph, at if at is not None else state.at),
        "sha256": read.digest,
        "original": read.original,
        "name": read.name,
        "bytes": len(read.data),
        "shows": shows,
    }


def _words(text: str) -> str:
    """A person's words as one line that prints. Raises Refused where they are too long."""
    words = tidy(text)
    if len(words) > LONGEST_NOTE:
        raise Refused(
            f"This has {len(words):,} characters, and {LONGEST_NOTE:,} are kept; write less."
        )
    return words
