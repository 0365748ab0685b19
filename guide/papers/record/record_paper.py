"""The record of a run as a paper: one page for the customer, then everything an inspector or a fitter looks for."""

from collections import Counter
from dataclasses import dataclass, replace
from functools import cached_property, partial
from pathlib import Path
from typing import Any

from guide.papers.record.addenda import addenda_lines
from guide.papers.record.answers import answers_data, changed_lines, how_said
from guide.papers.record.call_back import round_lines, rounds, works
from guide.papers.record.heard import heard_lines
from guide.papers.record.holes import holes_lines
from guide.papers.record.inspection import KEPT as KEEP
from guide.papers.record.photos import said_of
from guide.papers.record.record import record_data
from guide.papers.record.rules import FAIL, NOT_APPLICABLE, without_source
from guide.papers.record.swings import swings_lines
from guide.papers.rendering.paper import (
    Bullets,
    Pairs,
    Paper,
    Photo,
    Photos,
    Section,
    Signature,
    Signatures,
    Sketch,
    Table,
    Words,
    section,
    there,
)
from guide.procedure.facts import NONE
from guide.run.cuts import shown
from guide.run.events import Event
from guide.run.found_and_left import found_and_left
from guide.run.photos import KEPT, photo_bytes, read_photo
from guide.run.prompt import OUTCOME_WORDS
from guide.run.run_opening import SETTING_OUT
from guide.run.state import Cut, Occurrence, State, occurrence_of
from guide.run.step_drawing import ELEVATION, PLAN, door_of
from guide.run.texts import block_words, name_of, show_fact, show_piece
from guide.run.turn_views import before_the_turns, turn_views
from guide.text import fill
from guide.trade.answer import NoAnswer

LONGEST = 2000
"""The longest text of one line on paper; the JSON form has all of it."""
MOST_DONE = 9
"""Lines of work on the first page; all of it is in the detail."""
GOVERN = (
    "The maker's sheet, the listing, the local code and the authority having jurisdiction govern."
)
VERIFY = "To check that it was not altered: hingeside record --verify FILE --digest DIGEST."
_ABOUT = (
    *(("site", "Site"), ("door", "Door"), ("place", "Place"), ("firm", "Firm")),
    ("others", "Other jobs"),
)
"""What a run was begun with, and what it is called; and what other runs are beside it."""
_DRAWN = (100, 30)
"""Cells of a picture for which the drawings choose how much of the leaf they show."""


def record_paper(state: State, events: list[Event], signature: Path | None = None) -> Paper:
    """The record as a paper. `signature` is a picture of the fitter's own.

    Raises BadPhoto for a signature that is not a picture.
    """
    state = replace(state, hidden=frozenset())
    made = _Record(state, events, record_data(state, events))
    drawn = read_photo(signature).data if signature is not None else None
    return made.paper(drawn)


@dataclass(frozen=True)
class _Record:
    """A run with the data of its record; each method is a section."""

    state: State
    events: list[Event]
    data: dict[str, Any]

    def paper(self, drawn: bytes | None) -> Paper:
        """The whole."""
        data = self.data
        digest = data["last_digest"]
        kept = f"last digest {digest}" if digest else "not kept in a file"
        return Paper(
            "Record",
            data["title"],
            self.status,
            there(
                (
                    self.job(),
                    *self._of_each_turn("closer", "done_shortly", "found_and_left", "verdicts"),
                    self.remains(),
                    self.addenda(),
                    self.signatures(drawn),
                )
            ),
            there(self.detail()),
            f"Run {data['run'][:8]}, {kept}. {GOVERN}",
            units=data["units"],
            good=data["outcome"] in ("finished", "found"),
            dated=data["last"],
            by=", ".join(data["people"]),
            notes=tuple(f"Repaired: {one['said']}" for one in data["repaired"]),
        )

    @property
    def status(self) -> str:
        """How it ended."""
        why = f": {self.data['why']}" if self.data["why"] else ""
        return f"{OUTCOME_WORDS.get(self.state.ended, 'Not finished')}{why}"

    @cached_property
    def turns(self) -> list[tuple[str, "_Record"]]:
        """Each of several things in turn, such as the leaves of a pair; empty for a job on one."""
        views = zip(turn_views(self.state), self.data["turns"], strict=True)
        return [
            (label, replace(self, state=view, data={**self.data, **data}))
            for (label, view), data in views
        ]

    def _of_each_turn(self, *names: str) -> list[Section | None]:
        """These sections, or those of each turn under its name."""
        if not self.turns:
            return [getattr(self, name)() for name in names]
        return [
            replace(made, title=f"{label}: {made.title[:1].lower()}{made.title[1:]}")
            for label, one in self.turns
            for name in names
            if (made := getattr(one, name)()) is not None
        ]

    # The first page

    def job(self) -> Section | None:
        """Which opening, who and when."""
        data, about = self.data, self.data["about"]
        rows = [(heading, str(about[key])) for key, heading in _ABOUT if about.get(key)]
        who = ", ".join(data["people"]) or str(about.get("name", ""))
        rows += [("Done by", who)] if who else []
        first, last = data["started_local"], data["last_local"]
        rows.append(("When", first if first == last else f"{first} to {last}"))
        return section("The job", Pairs(tuple(rows)))

    def closer(self) -> Section | None:
        """What hangs there, as far as it is known."""
        return section("The closer", Pairs(tuple(self.data["closer"].items())))

    def done_shortly(self) -> Section | None:
        """The work that changed the door: what was cut, turned and put right; the rest is counted."""
        state = self.state
        lines = [self._cut_shortly(cut) for cut in state.cuts]
        for one in rounds(state):
            lines += () if one.marks else (*one.turned, *one.done)
        ended = state.ended == "finished"
        end = [self._worded(state.at)] if ended and "text" in state.node.body else []
        lines = list(dict.fromkeys(lines)) or self._worked()
        many = len(self.steps)
        more = len(lines) - MOST_DONE
        said = lines if more <= 0 else lines[:MOST_DONE]
        last = f"{many} step{'s' if many > 1 else ''} in all, listed below." if many else ""
        if more > 0:
            last = f"And {more} more; {last}"
        return section("What was done", Bullets((*end, *said, *([last] if last else []))))

    def found_and_left(self) -> Section | None:
        """Each reading off the door, first and last."""
        return section(
            "As found, and as left",
            Table(
                ("Reading", "As found", "As left"),
                tuple(found_and_left(self.state)),
                (": ", ", left at "),
                (0.4, 0.3, 0.3),
            ),
        )

    def verdicts(self) -> Section | None:
        """Which rules the last readings pass, and which they do not."""
        rows = tuple(
            (one["rule"].capitalize(), one["verdict"].upper(), without_source(one["said"]))
            for one in self.data["verdicts"]
            if one["verdict"] != NOT_APPLICABLE
        )
        failed = any(row[1] == FAIL.upper() for row in rows)
        none = Words("No rule fails.") if rows and not failed else None
        table = Table(("Rule", "Result", "Reading"), rows, (": ", ". "), (0.22, 0.18, 0.6))
        return section("Rules", none, table)

    def remains(self) -> Section | None:
        """What is left to do."""
        lines = self.data["remains"]
        if not self.state.ended:
            lines = [
                f"The job is not finished. It waits at “{block_words(self.state, self.state.at)}”"
            ]
        return section("What remains", Bullets(tuple(lines)) if lines else Words("Nothing."))

    def addenda(self) -> Section | None:
        """What was added after the end, told apart from the rest."""
        lines = addenda_lines(self.data["addenda"])
        return section("Added after the end", Bullets(tuple(lines)))

    def signatures(self, drawn: bytes | None) -> Section | None:
        """Who did it, and who had it done."""
        name = ", ".join(self.data["people"]) or str(self.data["about"].get("name", ""))
        lines = (Signature("Done by", name, drawn), Signature("For the customer"))
        return section("Signatures", Signatures(lines))

    # The detail

    def detail(self) -> tuple[Section | None, ...]:
        """What comes after the first page."""
        state, events, data = self.state, self.events, self.data
        return (
            self._inspection(),
            self._known_of_all() if self.turns else None,
            *self._of_each_turn("_answers"),
            section("Answers that were changed", Bullets(tuple(changed_lines(state, events)))),
            *self._of_each_turn(
                *("_computed", "_plan", "_elevation", "_holes", "_cuts", "_rounds", "_rules")
            ),
            section("What was timed by stopwatch", Bullets(tuple(swings_lines(events)))),
            section("What was heard", Bullets(tuple(heard_lines(state, events, LONGEST)))),
            section(
                "Not measured blind: the numbers were looked at first",
                Bullets(tuple(self._place(at) for at in data["not_blind"])),
            ),
            self._photos(),
            section("Every step", Bullets(tuple(self.steps), numbered=True)),
            section("Notes", Bullets(tuple(map(self._note, data["notes"])))),
            self._verification(),
        )

    def _inspection(self) -> Section | None:
        items = tuple(self.data["inspection"].items())
        keep = Words(KEEP) if items else None
        return section(
            "Inspection record of a fire door (NFPA 80 5.2.2.4, 2013)", Pairs(items), keep
        )

    def _known_of_all(self) -> Section | None:
        """What was asked once, beside the answers of each turn."""
        found = answers_data(before_the_turns(self.state), self.events)
        return replace(self, data={**self.data, "answers": found})._answers()

    def _answers(self) -> Section | None:
        rows = tuple(
            (f"{one['number']}. {one['question']}", one["shown"], how_said(one))
            for one in self.data["answers"]
        )
        return section(
            "What is known of the opening",
            Table(
                ("Question", "Answer", "How it was taken"), rows, (": ", "; "), (0.55, 0.23, 0.22)
            ),
        )

    def _computed(self) -> Section | None:
        """By where the numbers are from, each source once; pieces of the setting-out stand with the holes."""
        found: dict[str, list[tuple[str, str]]] = {}
        parts = Counter(one["computation"] for one in self.data["computed"])
        for one in self.data["computed"]:
            if one["computation"] == SETTING_OUT and not self.state.graph.facts[one["fact"]].say:
                continue
            if one["value"] == NONE and parts[one["computation"]] > 1:
                continue  # of several answers the one that this opening has not, such as an accessory's name
            rows = found.setdefault(one["source"] or "the procedure itself", [])
            rows.append((_named(self.state, one["fact"]), one["shown"][:LONGEST]))
        blocks = [
            block
            for source, rows in found.items()
            for block in (Words(f"By {source}:", strong=True), Pairs(tuple(rows)))
        ]
        return section("What was computed", *blocks)

    def _plan(self) -> Section | None:
        return self._drawn("The opening from above", PLAN)

    def _elevation(self) -> Section | None:
        return self._drawn("The head of the door", ELEVATION)

    def _drawn(self, title: str, view: str) -> Section | None:
        sketch = self._sketch(view)
        return section(title, sketch) if sketch is not None else None

    def _sketch(self, view: str) -> Sketch | None:
        door = door_of(self.state)
        if door is None:
            return None
        from guide.drawing.for_step import scene_for

        try:
            return Sketch(scene_for(door, *_DRAWN, view=view))
        except NoAnswer:
            return None

    def _rounds(self) -> Section | None:
        lines = [row for one in rounds(self.state) for row in round_lines(one)]
        return section("Tests and turns", Bullets(tuple(lines)))

    def _holes(self) -> Section | None:
        return section("Where the holes go", Bullets(tuple(holes_lines(self.state))))

    def _cuts(self) -> Section | None:
        return section("What was cut", Bullets(tuple(map(self._cut, self.state.cuts))))

    def _rules(self) -> Section | None:
        return section("Rules on the final readings", Bullets(tuple(self.data["rules"])))

    def _photos(self) -> Section | None:
        photos = tuple(
            Photo(
                one["shows"],
                f"{one['step']}; {one['name']}, {said_of(one)}",
                one["sha256"],
                photo_bytes(one["sha256"]) if one["file"] == KEPT else None,
            )
            for one in self.data["photos"]
        )
        missing = tuple(f"Wanted and not taken: {one}" for one in self.data["photos_not_taken"])
        return section("Photos", Photos(photos), Bullets(missing))

    def _verification(self) -> Section | None:
        data = self.data
        procedure = f"{data['procedure']}, edition {data['edition']} ({data['digest'][:16]})"
        rows = [("Procedure", procedure), ("Sheet", data["sheet"] or "none")]
        rows += [
            ("Run", data["run"]),
            ("Entries", f"{data['events']}, each chained to the one before"),
        ]
        rows += [("Devices", ", ".join(data["devices"]))]
        rows += [("Added after the end", str(len(data["addenda"])))] if data["addenda"] else []
        rows.append(("Last digest", data["last_digest"] or "none: this run is not kept in a file"))
        unseen = f"{data['cannot_be_seen'][:1].upper()}{data['cannot_be_seen'][1:]}: compare this digest."
        return section("How to verify this record", Pairs(tuple(rows)), Words(f"{VERIFY} {unseen}"))

    # Words

    @cached_property
    def steps(self) -> list[str]:
        """Every step, hold and end passed, as it was worded when it was done."""
        state = self.state
        passed = state.path if state.ended else state.path[:-1]
        marks = {"do": "", "hold": "Read back: ", "end": "End: "}
        return [
            f"{marks[kind]}{self._worded(at)}"
            for at in passed
            if (kind := state.graph.nodes[at[0]].kind) in marks
        ]

    def _worked(self) -> list[str]:
        """Work at the door, where nothing was cut or turned."""
        state = self.state
        done = [at for at in state.path if at in state.dones]
        return list(
            dict.fromkeys(self._worded(at) for at in done if works(state.graph.nodes[at[0]]))
        )

    def _worded(self, at: Occurrence) -> str:
        node = self.state.graph.nodes[at[0]]
        then = partial(_then, done=self.state.dones.get(at, {}))
        text = node.body.get("text", "") or node.id
        return fill(text, partial(show_piece, self.state, node=node, of_fact=then))

    def _cut_shortly(self, cut: Cut) -> str:
        return f"{block_words(self.state, cut.at)}: {_fate(cut)}."

    def _cut(self, cut: Cut) -> str:
        state = self.state
        basis = "; ".join(
            f"{name_of(state, name)}: {shown(state, name, text)}"
            for name, text in cut.basis.items()
        )
        return f"{block_words(state, cut.at)}: {_fate(cut)}. {basis}"[: 2 * LONGEST]

    def _note(self, note: dict[str, Any]) -> str:
        return f"{note['local']} {self._place(note['at'])}: {note['text'][:LONGEST]}"

    def _place(self, at: str) -> str:
        """A block in words, where the label of one is given."""
        found = occurrence_of(self.state.graph, at)
        return at if found is None else block_words(self.state, found)


def _named(state: State, name: str) -> str:
    words = name_of(state, name)
    return f"{words[:1].upper()}{words[1:]}"


def _fate(cut: Cut) -> str:
    return cut.resolution or ("done" if cut.done else "begun")


def _then(state: State, name: str, *, done: dict[str, str]) -> str:
    """A fact as it was when the step was done."""
    if name in done:
        fact = state.graph.facts[name]
        return fact.show(fact.decode(done[name]), state.units)
    return show_fact(state, name)
