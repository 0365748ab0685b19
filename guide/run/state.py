"""The state of a run, which is the fold of its events: answers in force, cuts made, and the place in the procedure.

An occurrence is one visit to a node: the node and the iteration of each loop around it. Answers belong to
occurrences, so that a run is at the same place as a fresh run with the last answers.
"""

from dataclasses import dataclass, field
from typing import Any, NamedTuple

from guide.procedure.conditions import UnknownFact
from guide.procedure.facts import Value
from guide.procedure.graph import Graph, Node
from guide.procedure.worked_facts import Env, Memo, NeedsWork

Occurrence = tuple[int, tuple[int, ...]]
"""Node index, and the count of each loop in `node.loops`, from 1."""

STANDING = "standing"
"""At a block that waits for the person."""
NEEDS_WORK = "needs-work"
"""A computation must be journalled before the run can go on; a Session does that by itself."""
STOPPED = "stopped"
"""A cut no longer fits what is known."""
CUT_OPEN = "cut-open"
"""The program ended inside a cut: the person is asked what was drilled."""
FAULT = "fault"
"""The procedure itself cannot go on here."""
ENDED = "ended"


@dataclass(slots=True)
class GivenAnswer:
    """An answer in force."""

    value: Value
    seq: int
    heard: bool = False
    """Whether it was heard or doubted and then confirmed, rather than simply keyed."""
    basis: dict[str, str] = field(default_factory=dict)
    """The values its question showed, in exact writing: for another mount the answer may be another."""


@dataclass(slots=True)
class Cut:
    """Work that cannot be undone. It never goes away; it can only be resolved."""

    at: Occurrence
    basis: dict[str, str]
    """The facts it depends on, in their exact writing when it was begun."""
    begun: int
    """Sequence number of the `cut begun` event."""
    done: bool = False
    resolution: str = ""
    """`remade`, `plugged` or `abandoned`; empty while the cut stands."""
    unreported: bool = False
    """Whether the program ended while it was under way, and nobody has said yet how far it got."""


class KeptPhoto(NamedTuple):
    """A photo that was added to a step."""

    utc: str
    at: str
    sha256: str
    """Of the copy that is kept, which is found by it alone (photos.py)."""
    original: str
    """SHA-256 of the file as it was."""
    name: str
    """What the file was called; never used to find it."""
    size: int
    """Bytes of the copy."""
    shows: str
    after_end: bool = False
    """Whether the job had ended."""


@dataclass(slots=True)
class Pending:
    """A value read back to the person, waiting for yes or no."""

    at: Occurrence
    value: Value
    doubt: str


@dataclass(slots=True)
class State:
    """The place and all facts of a run. Made by `step` alone."""

    graph: Graph
    run: str
    units: str
    sheet: dict[str, Any] | None
    started: str
    """UTC of the first event."""
    supplied: dict[str, Value]
    """The schedule's values for the opening: suggested at their questions, never used unconfirmed."""
    about: dict[str, Any]
    """Names, door label, app version, as the run began."""
    carried: frozenset[str] = frozenset()
    """Facts among `supplied` that were answered in the same visit: they are used without being asked again."""
    seq: int = 0
    last_utc: str = ""
    answers: dict[Occurrence, GivenAnswer] = field(default_factory=dict)
    dones: dict[Occurrence, dict[str, str]] = field(default_factory=dict)
    """The basis each `done`, `hold passed` and shown computation was given on."""
    suggestions: dict[Occurrence, Value] = field(default_factory=dict)
    """Answers from branches that were left: suggested again, never used unconfirmed."""
    decided: dict[Occurrence, int] = field(default_factory=dict)
    """The edge last taken at each choice."""
    cuts: list[Cut] = field(default_factory=list)
    memo: Memo = field(default_factory=dict)
    notes: list[tuple[str, str, str]] = field(default_factory=list)
    """UTC, place, words."""
    photos: list[KeptPhoto] = field(default_factory=list)
    pending: Pending | None = None
    paused: bool = False
    ended: str = ""
    """The outcome, once ended."""
    ended_why: str = ""
    path: list[Occurrence] = field(default_factory=list)
    """Every occurrence passed, the one the run is at last."""
    env: Env = field(default_factory=lambda: Env({}, {}))
    status: str = STANDING
    hidden: frozenset[str] = frozenset()
    """The facts whose values are not shown now, because the question the run is at is answered blind."""
    why: str = ""
    """For a stop or a fault: what changed or what is wrong."""
    effort: int = field(default=0, compare=False)
    """The cost of all walks so far, in comparisons; a run that would take too long to be read stops at a bound."""
    work: tuple[str, dict[str, str]] | None = None
    """While NEEDS_WORK: the fact and its inputs."""

    @property
    def at(self) -> Occurrence:
        """The occurrence the run is at."""
        return self.path[-1]

    @property
    def node(self) -> Node:
        """The node the run is at."""
        return self.graph.nodes[self.path[-1][0]]

    def open_cut(self) -> Cut | None:
        """The cut that was begun and neither finished nor resolved."""
        return next((c for c in self.cuts if not c.done and not c.resolution), None)

    def unreported_cut(self) -> Cut | None:
        """The cut of which somebody must say what was drilled before the program ended."""
        return next((c for c in self.cuts if c.unreported and not c.resolution), None)

    def known(self, name: str) -> Value | None:
        """A fact's value where the run is; None if it is not asked or not computed yet."""
        try:
            return self.env[name]
        except (UnknownFact, NeedsWork):
            return None

    def route(self) -> list[str]:
        """The blocks passed, in order, as a person saw them; the one stood at is left out unless
        the run has ended there."""
        passed = self.path if self.ended else self.path[:-1]
        return [label(self.graph, o) for o in passed if self.graph.nodes[o[0]].seen]


def label(graph: Graph, occurrence: Occurrence) -> str:
    """An occurrence in writing: the block's id, with its try numbers if one is not the first. A first turn, around all
    the tries, is left out."""
    index, counts = occurrence
    if all(count == 1 for count in counts):
        return graph.nodes[index].id
    first = 0
    while counts[first] == 1 and graph.takes_turns(graph.nodes[index].loops[first]):
        first += 1
    return f"{graph.nodes[index].id}#" + ".".join(map(str, counts[first:]))


def occurrence_of(graph: Graph, text: str) -> Occurrence | None:
    """Read back what `label` wrote; None if there is no such block or count."""
    id_, _, tries = text.partition("#")
    index = graph.index_of(id_)
    if index is None:
        return None
    loops = graph.nodes[index].loops
    if not tries:
        return index, (1,) * len(loops)
    parts = tries.split(".")
    left_out = loops[: len(loops) - len(parts)]
    if all(graph.takes_turns(number) for number in left_out):
        parts = ["1"] * len(left_out) + parts
    if len(parts) != len(loops) or not all(p.isascii() and p.isdigit() for p in parts):
        return None
    return index, tuple(int(part) for part in parts)


HIDDEN = "hidden for now"
"""What is shown in place of a value while a question is answered blind."""
