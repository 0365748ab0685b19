"""The command lexicon: a word for every key, a key for every word, and no two that an ear confuses."""

from itertools import combinations

import pytest

from guide.words import ANSWERS, COMMANDS, DECLINED, PAGES, VOICE, by_name, by_word
from guide.words.language_file import sayings
from guide.words.sounds import alike
from guide.words.spoken import grammar_for

ALL = (*COMMANDS, *ANSWERS, *PAGES, *VOICE)
SPOKEN = [(one.name, word) for one in ALL for word in (one.word, *one.also)]
SPOKEN += [(one.name, word) for one in DECLINED for word in (one.word, *one.also)]

SAID_FOR = {
    "next": "done",
    "done": "done",
    "all done": "done",
    "yes": "yes",
    "that's right": "yes",
    "no": "no",
    "that's wrong": "no",
    "back": "back",
    "go back": "back",
    "go forward": "forward",
    "change it": "change",
    "why": "why",
    "tell me why": "why",
    "status": "status",
    "make a note": "note",
    "make the template": "papers",
    "pause": "pause",
    "make it safe": "safe",
    "repeat": "repeat",
    "say again": "repeat",
    "help": "help",
    "which words": "help",
    "start": "begin",
    "i don't know": "unsure",
    "start the clock": "watch",
    "listen": "listen",
    "mute": "deaf",
    "stop": "hush",
    "cancel": "cancel",
    "resume": "resume",
    "continue": "resume",
    "begin the cut": "cut",
    "every value is right": "hold",
    "skip": "skip",
    "undo": "undo",
    "start over": "restart",
    "photo": "photo",
    "trade words": "words",
    "which tools": "tools",
    "the sheet": "sheet",
    "tests so far": "tests",
}


@pytest.mark.parametrize("said", SAID_FOR)
def test_what_a_fitter_says_is_the_command_meant(said: str) -> None:
    names = [command.name for command in ALL] + [one.name for one in DECLINED]
    meaning = grammar_for("nothing", commands=names).parse(said).meaning
    assert meaning is not None
    assert (meaning.kind, meaning.value) == ("command", SAID_FOR[said])


def test_every_command_has_a_word_and_a_key_and_every_word_a_command() -> None:
    assert all(command.word and command.key and command.key_shown for command in ALL)
    assert {command.name for command in ALL} == set(sayings("english"))
    assert {told.name for told in DECLINED} == set(sayings("english", "declined"))


def test_one_saying_is_never_two_commands() -> None:
    said = [word for _, word in SPOKEN]
    assert len(said) == len(set(said))
    typed = [word for one in (*COMMANDS, *PAGES) for word in (one.word, *one.also, *one.typed)]
    assert len(typed) == len(set(typed))


def test_no_two_commands_are_alike_by_ear() -> None:
    assert [
        (word, other)
        for (name, word), (another, other) in combinations(SPOKEN, 2)
        if name != another and alike(word, other)
    ] == []


def test_one_key_is_two_commands_only_where_never_both_are_taken() -> None:
    keys = [command.key for command in COMMANDS]
    assert len(keys) == len(set(keys))
    free = [command.key for command in VOICE if command.name in ("listen", "hush", "cancel")]
    assert set(free).isdisjoint(keys)


@pytest.mark.parametrize("name", ["done", "yes", "no", "change", "note", "pause", "safe", "begin"])
def test_what_changes_the_run_needs_the_higher_confidence(name: str) -> None:
    assert by_name(name).changes


@pytest.mark.parametrize("name", ["back", "forward", "why", "status", "repeat", "help", "hush"])
def test_what_changes_nothing_does_not(name: str) -> None:
    assert not by_name(name).changes


def test_short_forms_are_typed_and_never_listened_for() -> None:
    listened = grammar_for("nothing", commands=[command.name for command in COMMANDS])
    for typed, name in {"y": "yes", "b": "back", "ok": "done", "note": "note"}.items():
        found = by_word(typed)
        assert found is not None
        assert found.name == name
        assert listened.parse(typed).meaning is None


def test_where_the_work_cuts_no_short_word_will_do() -> None:
    for name in ("cut", "hold"):
        command = by_name(name)
        assert all(len(said.split()) > 1 for said in (command.word, *command.also))


def test_what_cannot_be_done_is_answered_with_what_can() -> None:
    for told in DECLINED:
        assert told.says.endswith(".")
        assert "say “" in told.says
