"""The record of what was heard: its words, how surely, what was read back, and what became of it."""

import json

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.papers.record.heard import heard_data
from guide.papers.record.record import record_json
from guide.papers.record.record_forms import record_text
from guide.run import replies
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.talk import Talk


@pytest.fixture
def session() -> Session:
    """The first question of the shipped fitting job."""
    return Session.begin(
        MemoryJournal(), graph_of(find("procedure", "fit-surface-closer")), device="bench"
    )


def say(talk: Talk, *sayings: str) -> None:
    for words in sayings:
        meaning = talk.asked().grammar.parse(words).meaning
        assert meaning is not None, words
        talk.heard(meaning, words, 0.914)


def test_nothing_heard_leaves_no_line(session: Session) -> None:
    session.send(replies.answer(session.state, "ordinary"))
    assert "What was heard" not in record_text(session.state, session.journal.events())


def test_each_answer_heard_is_a_line(session: Session) -> None:
    first = session.state.at
    fact = session.state.graph.facts[session.state.node.body["fact"]]
    words = [option.say for option in fact.options.values()]
    talk = Talk(Desk(session))
    say(talk, words[1], "no", words[0], "yes")
    rows = heard_data(session.state, session.journal.events())
    assert [row["became"] for row in rows] == ["denied", "confirmed"]
    place = session.state.graph.nodes[first[0]].id
    text = record_text(session.state, session.journal.events())
    shown = next(iter(fact.options.values())).text
    assert f"  {place}: heard “{words[0]}” (0.91), read back {shown}, confirmed" in text


def test_what_is_said_anew_or_dropped_or_still_waits_is_told_apart(session: Session) -> None:
    fact = session.state.graph.facts[session.state.node.body["fact"]]
    one, other, *_ = fact.options
    for label in (one, other):
        session.send(replies.answer(session.state, label, heard=True, words=label))
    session.send(("paused", {}))
    session.send(("resumed", {}))
    session.send(replies.answer(session.state, one, heard=True, words=one))
    rows = heard_data(session.state, session.journal.events())
    assert [row["became"] for row in rows] == ["replaced", "dropped", "waiting for a yes"]


def test_a_journal_from_before_words_were_kept_is_read(session: Session) -> None:
    fact = session.state.graph.facts[session.state.node.body["fact"]]
    session.send(replies.answer(session.state, next(iter(fact.options)), heard=True))
    session.send(replies.confirm(session.state, yes=True))
    data = json.loads(record_json(session.state, session.journal.events()))
    (row,) = data["heard"]
    assert (row["words"], row["confidence"], row["became"]) == ("", None, "confirmed")
    assert "heard an answer, read back" in record_text(session.state, session.journal.events())
