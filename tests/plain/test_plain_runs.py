"""Whole runs line by line, through the program's own reader and printer."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from guide.checker.check import check
from guide.plain.loop import run_plain
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.state import State, label

GYM_STORE = Path(__file__).parents[1] / "run" / "procedures" / "gym-store.yaml"


class Carried:
    """A run of the gym store's door, carried line by line until the lines run out."""

    def __init__(self, *lines: str, detail: str = "full") -> None:
        graph = check(GYM_STORE).graph
        assert graph is not None
        self.session = Session.begin(MemoryJournal(), graph, device="bench")
        self.printed: list[str] = []
        self.carry_on(*lines, detail=detail)

    def carry_on(self, *lines: str, detail: str = "full") -> None:
        """Feed more lines, as after a pause."""
        waiting = iter(lines)
        desk = Desk(self.session, detail)
        run_plain(desk, lambda: next(waiting, None), self.printed.append)

    @property
    def state(self) -> State:
        return self.session.state

    @property
    def stands(self) -> str:
        return label(self.state.graph, self.state.at)

    @property
    def text(self) -> str:
        return "\n".join(self.printed)

    def kinds(self) -> list[str]:
        return [event.kind for event in self.session.journal.events()]


TO_THE_HOLD = ("wood", "no", "", "36 in", "", "0")
WHOLE = (*TO_THE_HOLD, "yes", "begin", "done", "", "yes")


def test_a_whole_run() -> None:
    run = Carried(*WHOLE)
    assert run.state.ended == "finished"
    assert run.printed[-1] == "Finished. The 36 in leaf closes by itself."
    assert "Set the spring to EN size 3." in run.text


def test_when_the_lines_run_out_the_run_is_paused() -> None:
    run = Carried("wood", "no")
    assert run.kinds()[-1] == "paused"
    assert run.printed[-1].startswith("Paused.")


@pytest.mark.parametrize(
    ("before", "wrong", "sentence"),
    [
        (
            (),
            "marble",
            "“marble” is not one of the answers; type the number of the answer, 1 to 3, or its words.",
        ),
        ((), "", "Answer first: type the number of the answer, 1 to 3, or its words."),
        (
            ("wood",),
            "maybe",
            "“maybe” is not one of the answers; type the number of the answer, 1 or 2",
        ),
        (TO_THE_HOLD[:3], "3 in", "out of range"),
        (TO_THE_HOLD[:3], "wide", "wide"),
        (TO_THE_HOLD[:3], "20 lb", "lb"),
        (TO_THE_HOLD[:2], "36 in", "“36 in” is not understood here; press Enter when it is done"),
        (TO_THE_HOLD[:5], "two", "“two” is not a whole number"),
        (TO_THE_HOLD, "ok", "A hold is passed when every value is right: type “yes”."),
        ((*TO_THE_HOLD, "yes"), "done", "This cannot be undone: type “begin” when you begin."),
        (
            (*TO_THE_HOLD, "yes"),
            "stop",
            "Stop? Type “pause” to go on later, or “make it safe” to call the foreman.",
        ),
        ((), "forward", "This is the step the job is at."),
        ((), "back", "This is the first step."),
        (
            WHOLE[:-1],
            "",
            "This ends the job: type “yes” to end it.",
        ),
        ((), "change", "First go back to the answer you want to change: type “go back”."),
        ((), ":jump", "“jump” is not a command"),
    ],
)
def test_what_is_wrong_is_told_and_changes_nothing(
    before: Sequence[str], wrong: str, sentence: str
) -> None:
    stood = Carried(*before)
    run = Carried(*before, wrong)
    assert run.stands == stood.stands
    assert run.kinds() == stood.kinds()
    told = [line for line in run.printed if line.startswith("! ")]
    assert len(told) == 1
    assert sentence in told[0]


@pytest.mark.parametrize("line", ["", " ", "done", "no"])
def test_nothing_but_yes_passes_a_hold(line: str) -> None:
    assert Carried(*TO_THE_HOLD, *([line] * 5)).stands == "hold-timber"


@pytest.mark.parametrize("line", ["", " ", "yes", "done"])
def test_nothing_but_begin_begins_a_cut(line: str) -> None:
    assert Carried(*TO_THE_HOLD, "yes", *([line] * 5)).state.cuts == []


def test_no_answers_a_yes_or_no_question_and_is_a_command_elsewhere() -> None:
    run = Carried("wood", "no")
    assert run.state.env["fire"] == "no"
    doubted = Carried("wood", "no", "", "50 in")
    assert doubted.state.pending is not None
    assert Carried("wood", "no", "", "50 in", "no").state.pending is None
    assert Carried("wood", "n").state.env["fire"] == "no"


def test_an_unusual_width_counts_only_after_a_yes() -> None:
    run = Carried("wood", "no", "", "50 in", "maybe", "yes")
    assert "! “maybe” is not understood here; type “yes” or “no”." in run.printed
    assert str(run.state.env["width"]) == "50 in"


@pytest.mark.parametrize("words", ["pause", "back", "help", "no", "done", "note the date", "b"])
def test_where_words_are_asked_a_command_word_is_an_answer(words: str) -> None:
    run = Carried("wood", "yes", words)
    assert run.state.env["label"] == words
    assert "Put a colon before a command" in run.text


def test_where_words_are_asked_a_colon_makes_a_command() -> None:
    assert "The step is done" in Carried("wood", "yes", ":help").text
    assert Carried("wood", "yes", ":note painted over").state.notes[0][2] == "painted over"
    safe = Carried("wood", "yes", ":safe the ladder slipped", "yes")
    assert safe.state.ended == "made-safe"


def test_i_do_not_know_by_word_and_by_number() -> None:
    for words in ("unsure", "I don't know", "3"):
        assert Carried(words).state.env["leaf"] == "unsure"


def test_where_the_run_is_stopped_the_note_may_follow_on_a_line_of_its_own() -> None:
    stopped = (*TO_THE_HOLD, "yes", "begin", "", *["back"] * 5, "change", "34 in")
    run = Carried(*stopped, "2", "dowels glued in")
    assert run.state.cuts[0].resolution == "plugged"
    assert run.state.notes[0][2] == "plugged: dowels glued in"


def test_a_question_mark_asks_for_help_even_where_not_knowing_is_an_answer() -> None:
    run = Carried("?")
    assert "  help                Every key and word" in run.printed
    assert "leaf" not in run.state.env


def test_back_looks_and_writes_nothing() -> None:
    run = Carried("wood", "no", "back", "back", "", "forward")
    assert run.kinds() == ["started", "answered", "answered", "paused"]
    assert "Answered: Timber. “change” gives another answer; “forward” goes on." in run.text


def test_change_gives_another_answer_to_an_earlier_question() -> None:
    run = Carried(*TO_THE_HOLD, "back", "back", "back", "change", "38 in")
    assert str(run.state.env["width"]) == "38 in"
    assert run.stands == "show-size"


def test_a_change_may_be_a_word_that_is_also_a_command() -> None:
    run = Carried("wood", "yes", "no label", "back", "back", "change", "no")
    assert run.state.env["fire"] == "no"


def test_looking_at_words_a_command_stays_a_command() -> None:
    run = Carried("wood", "yes", "no label", "back", "forward")
    assert run.state.env["label"] == "no label"
    run = Carried("wood", "yes", "no label", "back", "20 minutes")
    assert "! Type “change it” first, then give the new answer." in run.printed
    run = Carried("wood", "yes", "no label", "back", "change", "20 minutes")
    assert run.state.env["label"] == "20 minutes"


def test_what_was_only_done_has_no_answer_to_change() -> None:
    run = Carried("wood", "no", "", "back", "change", "36 in")
    assert "! First go back to the answer you want to change: type “go back”." in run.printed
    assert "! Nothing was asked there; press Enter to return to the job's step." in run.printed


def test_status_says_what_is_known() -> None:
    assert "  Which leaf? Timber   (leaf-of)" in Carried("wood", "status").printed


def test_why_and_detail() -> None:
    brief = Carried("why", detail="cards")
    assert brief.text.count("To find out: Tap it and try a magnet.") == 1
    run = Carried("detail", "detail", "detail")
    words = [line for line in run.printed if line.startswith("Detail: ")]
    assert words == ["Detail: cards.", "Detail: spoken.", "Detail: full."]
    assert "Which leaf?" in run.printed


def test_a_note_goes_into_the_record_where_it_was_made() -> None:
    run = Carried("wood", "Note hinge screws were loose")
    assert run.state.notes[0][1:] == ("fire-door", "hinge screws were loose")


def test_safe_with_a_reason_ends_the_run() -> None:
    run = Carried("wood", "Make it safe the ladder is cracked", "yes")
    assert run.state.ended == "made-safe"
    assert "Made safe and handed to the foreman. the ladder is cracked" in run.printed


@pytest.mark.parametrize("line", ["", "no", "3", "done", "the ladder"])
def test_nothing_but_yes_makes_safe_and_ends_the_run(line: str) -> None:
    run = Carried("wood", "safe the ladder is cracked", line)
    assert run.state.ended == ""
    assert run.kinds()[1:] == ["answered", "paused"]


def test_words_for_a_note_and_a_reason_may_be_given_on_the_next_line() -> None:
    run = Carried("wood", "note", "hinge screws were loose", "m", "", "x", "rain", "yes")
    assert [note[2] for note in run.state.notes] == ["hinge screws were loose"]
    assert run.state.ended_why == "rain"


@pytest.mark.parametrize("line", ["", " ", "done", "3"])
def test_nothing_but_yes_ends_a_run_that_has_come_to_its_end(line: str) -> None:
    assert Carried(*WHOLE[:-1], line).state.ended == ""


def test_an_answer_is_looked_at_before_it_is_changed() -> None:
    run = Carried("wood", "b", "steel", "c", "2")
    assert "! Type “change it” first, then give the new answer." in run.printed
    assert run.kinds()[1:] == ["answered", "revised", "paused"]
    assert run.state.env["leaf"] == "steel"


def test_a_value_read_back_takes_the_numbers_that_are_listed() -> None:
    assert str(Carried("wood", "no", "", "50 in", "1").state.env["width"]) == "50 in"
    assert "width" not in Carried("wood", "no", "", "50 in", "2").state.env


def test_pause_and_go_on() -> None:
    run = Carried("wood", "pause", "no")
    assert run.stands == "fire-door"
    run.carry_on("no")
    assert run.stands == "wedge"


def test_a_stopped_run_takes_what_became_of_the_cut_and_a_note() -> None:
    run = Carried(*TO_THE_HOLD, "yes", "begin", "", *["back"] * 5, "change", "34 in")
    assert "STOP. “Drill the lead holes in the leaf” was already cut on other" in run.text
    run.carry_on("", "plugged", "dowels glued in")
    assert run.state.cuts[0].resolution == "plugged"
    assert run.state.notes[0][2] == "plugged: dowels glued in"
    assert run.stands == "hold-timber"


@pytest.mark.parametrize(
    ("line", "stands"),
    [("all", "set-spring"), ("2", "pilot"), ("none", "pilot"), ("", "pilot")],
)
def test_after_a_kill_inside_a_cut_the_report_is_asked_first(line: str, stands: str) -> None:
    run = Carried(*TO_THE_HOLD, "yes", "begin")
    run.session.send(("resumed", {}))
    run.carry_on(line)
    assert run.stands == stands
    assert "What was drilled?" in run.text


def test_lines_are_no_wider_than_a_narrow_terminal() -> None:
    assert max(len(line) for line in Carried(*WHOLE).printed) <= 80


def test_no_measure_is_broken_over_two_lines() -> None:
    from guide.plain.render import WIDTH, wrapped

    for before in range(WIDTH - 12, WIDTH + 1):
        lines = wrapped(f"{'x' * before} 1 1/2 in from the top of the leaf", "  ")
        assert any("1 1/2 in" in line for line in lines), before


def test_the_name_of_a_procedure_is_not_broken_over_lines() -> None:
    from guide.plain.render import wrapped

    text = "It hangs. Keep the barriers up and go straight on, today still, with adjust-a-closer."
    assert wrapped(text)[-1] == "adjust-a-closer."
