"""Promises that no sound procedure shows by itself: each test fails without the line that keeps it."""

import csv
import io
from pathlib import Path

from guide.checker.check import check
from guide.papers.record.record import record_csv
from guide.run import replies
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.state import State, label
from tests.run.small_procedures import begin, give

NOON = "2026-03-02T12:00:00.000Z"
HEAD = """\
procedure: clinic
title: The clinic's corridor door
facts:
  width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
  twelve: {worked: chord, using: {width: width, angle: "= 12 deg"}}
steps:
"""
END = "  - end: {id: done, outcome: finished}\n"


def session_of(folder: Path, steps: str) -> Session:
    path = folder / "clinic.yaml"
    path.write_text(HEAD + steps + END, "utf-8")
    report = check(path)
    assert report.sound, report.findings
    assert report.graph is not None
    return Session.begin(
        MemoryJournal(), report.graph, device="bench", units="inch", clock=lambda: NOON
    )


def stands(state: State) -> str:
    return label(state.graph, state.at)


def test_a_hold_keeps_what_a_cut_computes_from_what_it_reads_back(tmp_path: Path) -> None:
    """The second hold reads the width only, and the cut after it is made on the mark at 12 degrees too."""
    session = session_of(
        tmp_path,
        "  - ask: {id: how-wide, fact: width}\n"
        "  - hold: {id: first, reads_back: [width, twelve]}\n"
        "  - hold: {id: second, reads_back: [width]}\n"
        "  - do: {id: drill, cuts: true, reads: [width, twelve], text: Drill it.}\n",
    )
    state = give(session, "36 in", "hold")
    assert stands(state) == "second"
    assert list(replies.pass_hold(state)[1]["values"]) == ["width", "twelve"]


def test_a_round_that_is_no_longer_gone_is_asked_anew_if_it_comes_back() -> None:
    session = begin("one-leaf")
    assert stands(give(session, "36 in", "done", "no", "done", "yes")) == "before-drill"
    assert stands(give(session, "square-yet = yes")) == "before-drill"
    state = give(session, "square-yet = no")
    assert stands(state) == "mark#2"
    assert stands(give(session, "done")) == "square-yet#2"


def test_the_gravest_caution_comes_first(tmp_path: Path) -> None:
    session = session_of(
        tmp_path,
        "  - do:\n      id: drill-over-head\n      text: Stand clear.\n"
        "      caution: [{notice: Keep the carpet clean.}, {danger: It is live.}, {warning: It falls.}]\n"
        "  - ask: {id: how-wide, fact: width}\n"
        '  - do: {id: mark, text: "Mark {twelve}."}\n',
    )
    said = [word for word, _ in prompt(session.state).cautions]
    assert said == ["danger", "warning", "notice"]


def test_a_formula_behind_blanks_is_text_in_the_csv(tmp_path: Path) -> None:
    """Our own notes begin with no blanks; those of a run from elsewhere may."""
    session = session_of(
        tmp_path, '  - ask: {id: how-wide, fact: width}\n  - do: {id: mark, text: "{twelve}"}\n'
    )
    session.send(replies.note(session.state, "=1+1 done"))
    events = session.journal.events()
    for blank in ("", " ", "   "):
        words = {**events[-1].body, "text": f"{blank}=1+1 done"}
        last = record_csv(session.state, [*events[:-1], events[-1]._replace(body=words)])
        (*_, row) = csv.DictReader(io.StringIO(last))
        assert row["value"].startswith("'")
