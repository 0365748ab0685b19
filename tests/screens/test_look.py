"""How a page looks: nothing is cut off unseen, nothing is told by colour alone, nothing is markup."""

from pathlib import Path

import pytest
from guide.screens.help_rows import help_rows
from guide.screens.layout import arrange
from guide.screens.page import KeyHint, Page
from guide.screens.paint import STYLES, Pane
from guide.screens.rows import Row, cells, clean, fit, wrap
from guide.screens.step_rows import step_rows

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.run.prompt import Accepts, Choice, Prompt
from guide.run.session import Session
from guide.run.store import begin_run
from guide.screens.glyphs import GLYPHS, ascii_only, wants_ascii
from guide.words.commands import ANSWERS, COMMANDS
from tests.screens.back_door import PROCEDURE, Hand, app_of, begin_back_door
from tests.screens.seen import seen

INJECTIONS = ["[b]x", "[/]", "[@click=app.quit]x", "fit [A-1]", "[$x] [red", "{{door}} \\[b]"]


@pytest.mark.parametrize("text", INJECTIONS)
def test_a_text_of_a_file_or_a_person_is_shown_as_it_is_written(text: str) -> None:
    shown = Prompt(
        "ask",
        "what-leaf",
        text,
        why=text,
        cautions=[("warning", text)],
        accepts=Accepts(
            "choice", choices=(Choice("a", text, text),), suggestion=text, suggested_by=text
        ),
        read_back=[(text, text)],
    )
    lines = fit(step_rows(shown, "full", long=True), 60)
    for place in ("Why: ", " WARNING ", " 1 ", "  - ", "▌ "):
        assert any(text in line.text for line in lines if line.text.startswith(place)), place


@pytest.mark.parametrize("text", INJECTIONS)
async def test_typed_words_and_the_name_of_a_door_are_never_markup(
    tmp_path: Path, text: str
) -> None:
    session = begin_back_door(tmp_path, door=text)
    app = app_of(session)
    async with app.run_test(size=(100, 24)) as pilot:
        await pilot.press("m")
        app.pasted(text)
        await pilot.pause()
        shown = seen(app)
        assert f"Fit a kick plate · {text}" in shown
        assert f"> {text}" in shown
        await pilot.press("enter")
        assert session.state.notes[0][2] == text


def test_signal_words_stand_beside_their_colours() -> None:
    shown = Prompt(
        "do",
        "drill",
        "Drill.",
        cautions=[
            ("danger", "Live wires."),
            ("warning", "Chips."),
            ("caution", "Fire door."),
            ("notice", "No."),
        ],
    )
    text = "\n".join(line.text for line in fit(step_rows(shown, "spoken", long=False), 40))
    for word in ("DANGER", "WARNING", "CAUTION", "NOTICE"):
        assert word in text
        assert STYLES[word.lower()].bgcolor is not None


def test_the_help_lists_every_key_and_every_word() -> None:
    text = "\n".join(line.text for line in fit(help_rows(), 200))
    for command in (*COMMANDS, *ANSWERS):
        assert f"“{command.word}”: {command.meaning}" in text
        assert f" {command.key_shown} " in text


def test_every_command_of_the_table_is_answered_by_its_key(hand: Hand) -> None:
    for command in COMMANDS:
        if command.name not in ("done", "pause"):
            character = command.key if len(command.key) == 1 else None
            hand.view.press(command.key, character)
            hand.view.press("tab", None)
            hand.view.press("enter", None)
    assert hand.view.session.state.ended == ""


def test_a_drawing_is_never_wrapped(session: Session) -> None:
    wide, narrow = Hand(session).look(), Hand(session, width=40, height=40).look()
    for shown in (wide, narrow):
        assert "+--------+" in shown
        assert "|  leaf  |" in shown


def test_a_drawing_that_does_not_fit_is_told_in_words(tmp_path: Path) -> None:
    path = tmp_path / "fit-kick-plate.yaml"
    path.write_text(PROCEDURE.replace("+--------+", "+" + "-" * 50 + "+"), "utf-8")
    session = begin_run(graph_of(path), units="inch")
    assert "-" * 50 in Hand(session, width=80, height=40).look()
    small = Hand(session, width=40, height=60).look()
    assert "-" * 30 not in small
    assert "The wedge stands under" in small
    session.close()


def test_what_is_below_the_window_is_announced(session: Session) -> None:
    hand = Hand(session, width=40, height=12)
    assert "more: Page Down" in hand.look()
    assert "Watch for" in hand.press("pagedown")


def test_the_first_row_of_the_body_is_the_action_at_forty_by_twelve(session: Session) -> None:
    lines = Hand(session, width=40, height=12).look().split("\n")
    assert lines[1].strip().startswith("▌ Wedge the leaf")
    assert len(lines) == 12
    assert all(cells(line) <= 40 for line in lines)


def test_the_keys_along_the_bottom_always_end_in_help(session: Session) -> None:
    for width in (30, 40, 80):
        assert "?  Help" in Hand(session, width=width).look().split("\n")[-1]


def test_the_end_of_a_long_typed_text_stays_in_sight() -> None:
    text = "hinge screws loose " * 9
    page = Page("Fit", typed=text, cursor=len(text), keys=[KeyHint("enter", "Enter", "Take")])
    fitted = arrange(page, 40, 12, 0)
    assert fitted.entry.text.rstrip().endswith("loose")
    assert cells(fitted.entry.text) <= 40


def test_wide_letters_are_counted_by_their_columns() -> None:
    assert wrap("扉扉扉扉", 4) == ["扉扉", "扉扉"]
    assert wrap("a word-longer-than-the-line", 10) == ["a", "word-longe", "r-than-the", "-line"]


def test_controls_and_direction_marks_never_reach_the_terminal() -> None:
    assert clean("a\x1b[31mb\u202ec\u2066d\x07") == "a[31mbcd"
    assert fit([Row("one\ntwo")], 20)[1].text == "two"


def test_ascii_where_there_is_no_unicode() -> None:
    assert ascii_only("“35 7/8″ → Zürich … ½ °") == '"35 7/8" -> Zurich ... 1/2  deg'
    assert all(plain.isascii() for plain in GLYPHS.values())
    assert wants_ascii({"TERM": "linux", "LANG": "C.UTF-8"})
    assert wants_ascii({"LC_ALL": "C", "LANG": "de_CH.UTF-8"})
    assert not wants_ascii({"TERM": "xterm", "LANG": "de_CH.UTF-8"})


async def test_ascii_reaches_every_line_of_the_screen(session: Session) -> None:
    app = app_of(session, ascii=True)
    async with app.run_test(size=(80, 24)) as pilot:
        for key in ("question_mark", "enter", "enter", "enter"):
            assert seen(app).isascii()
            await pilot.press(key)


def test_only_lines_that_changed_are_painted_again() -> None:
    pane = Pane()
    first = fit([Row("Wedge the leaf."), Row("Enter")], 40)
    pane.show(first)
    pane.show(fit([Row("Lay a dust sheet."), Row("Enter")], 40))
    assert pane.lines[1] == first[1]


def test_no_measure_is_broken_over_two_lines() -> None:
    said = "Body, how far from the datum: 1 1/2 in; let it go from 90 degrees, 5 s at least, to 7 1/2 in."
    whole = ("1 1/2 in", "90 degrees", "5 s", "7 1/2 in")
    for width in range(12, 60):
        lines = wrap(said, width)
        assert all(any(measure in line for line in lines) for measure in whole), width
        assert " ".join(lines) == said


def test_an_answer_past_the_ninth_shows_the_key_that_marks_it_not_a_number_that_picks_the_first() -> (
    None
):
    session = begin_run(graph_of(find("procedure", "find-the-fault")), units="inch")
    complaints = Hand(session)
    complaints.press("2")
    shown = complaints.look()
    assert " 9 The door sags or binds" in shown
    assert " ↓ Air from a lift lobby or a fan" in shown
    assert "1-9 ↓" in shown
    assert "1-11" not in shown
    complaints.press("up", "enter")
    assert str(complaints.view.session.state.env["symptom"]) == "pressure"
