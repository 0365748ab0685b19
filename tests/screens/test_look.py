"""How a page looks: nothing is cut off unseen, nothing is told by colour alone, nothing is markup."""

from pathlib import Path

import pytest
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Paste

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.store import begin_run
from guide.screens.answers import Answers, numbered
from guide.screens.cautions import COLOURS, Cautions
from guide.screens.glyphs import GLYPHS, ascii_only, wants_ascii
from guide.screens.hanging import HangingText
from guide.screens.run_screen import RunScreen
from guide.screens.step_words import help_words
from guide.screens.words_shown import Words, clean
from guide.words.commands import ANSWERS, COMMANDS, PAGES
from tests.screens.back_door import PROCEDURE, Hand, app_of, begin_back_door, joined
from tests.screens.seen import lines_seen, resized, seen, words_seen

INJECTIONS = ["[b]x", "[/]", "[@click=app.quit]x", "fit [A-1]", "[$x] [red", "{{door}} \\[b]"]


@pytest.mark.parametrize("text", INJECTIONS)
async def test_a_text_of_a_file_or_a_person_is_shown_as_it_is_written(
    tmp_path: Path, text: str
) -> None:
    """In the bar, the action, the cautions, the answers, the long words and a note that is typed."""
    session = begin_back_door(tmp_path, door=text)
    app = app_of(session)
    async with app.run_test(size=(100, 40)) as pilot:
        screen = app.screen
        assert isinstance(screen, RunScreen)
        assert f"{text} · Fit a kick plate" in seen(app)
        for words in screen.query(Words):
            words.tell(text, (text, "bold"))
            assert words.text == text * 2
        screen.query_one(Cautions).show([("warning", text)])
        await screen.mount(answers := Answers(id="answers"))
        answers.show(numbered([text]))
        assert str(answers.get_option_at_index(0).prompt) == f" 1  {text}"
        assert screen.query_one(Cautions).text == f" /!\\ WARNING  {text}"
        await pilot.pause()


async def test_typed_words_are_never_markup(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(100, 24)) as pilot:
        for text in INJECTIONS:
            await pilot.press("m")
            app.screen.post_message(Paste(text))
            await pilot.pause()
            assert text in seen(app)
            await pilot.press("enter")
            assert session.state.notes[-1][2] == text


async def test_signal_words_stand_beside_their_colours(session: Session) -> None:
    app = app_of(session)
    told = [("danger", "Live."), ("warning", "Chips."), ("caution", "Oil."), ("notice", "No.")]
    async with app.run_test(size=(80, 40)):
        cautions = app.screen.query_one(Cautions)
        cautions.show([*told, *told])
        for word, sentence in told:
            assert f"{word.upper()}  {sentence}" in cautions.text
            assert COLOURS[word]
        assert cautions.text.count("WARNING") == 2


async def test_a_warning_is_never_cut_off_by_what_stood_there_before(tmp_path: Path) -> None:
    """The hold before it is wider, and the step before that had no warning."""
    said = "Wear eye protection. Chips fall on you when you drill above your head; let nobody stand below."
    path = tmp_path / "fit-kick-plate.yaml"
    path.write_text(PROCEDURE.replace("Wear eye protection.", said), "utf-8")
    for size in ((80, 24), (60, 20), (40, 30)):
        session = begin_run(graph_of(path), units="inch")
        app = app_of(session)
        async with app.run_test(size=size) as pilot:
            await pilot.press("enter", "enter", "1", *"36", "enter")
            await pilot.pause()
            await pilot.press("space", "y")
            await pilot.pause()
            assert session.state.node.id == "drill"
            await pilot.pause()
            assert f"WARNING {said}" in " ".join(
                line[: size[0] - (24 if size[0] >= 80 else 0)].strip() for line in lines_seen(app)
            ).replace("  ", " ")
        session.close()


def test_the_help_lists_every_key_and_every_word() -> None:
    text = joined(help_words())
    for command in (*COMMANDS, *PAGES, *ANSWERS):
        assert f"{command.key_shown:<8}“{command.word}”: {command.meaning}" in text


def test_every_command_of_the_table_is_answered_by_its_key(hand: Hand) -> None:
    for command in COMMANDS:
        if command.name not in ("done", "pause"):
            character = command.key if len(command.key) == 1 else None
            hand.view.press(command.key, character)
            hand.view.press("tab", None)
            hand.view.press("enter", None)
    assert hand.view.session.state.ended == ""


async def test_a_drawing_is_never_wrapped(session: Session) -> None:
    for size in ((80, 40), (40, 40)):
        app = app_of(session)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            assert "+--------+" in seen(app)
            assert "|  leaf  |" in seen(app)


async def test_a_drawing_that_does_not_fit_is_told_in_words(tmp_path: Path) -> None:
    path = tmp_path / "fit-kick-plate.yaml"
    path.write_text(PROCEDURE.replace("+--------+", "+" + "-" * 50 + "+"), "utf-8")
    session = begin_run(graph_of(path), units="inch")
    for size, drawn in (((100, 40), True), ((40, 60), False)):
        app = app_of(session)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            assert ("-" * 50 in seen(app)) == drawn
            assert drawn or "-" * 30 not in seen(app)
            assert "The wedge stands under" in words_seen(app)
    session.close()


async def test_what_is_below_the_window_is_announced(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(40, 12)) as pilot:
        await pilot.pause()
        assert "more: Space" in seen(app)
        await pilot.press("space")
        await pilot.pause()
        assert "Watch for" in seen(app)


async def test_a_blank_line_below_the_window_is_not_announced_and_holds_up_no_answer() -> None:
    session = Session.begin(
        MemoryJournal(),
        graph_of(find("procedure", "fit-surface-closer")),
        device="bench",
        units="inch",
        sheet=None,
    )
    app = app_of(session)
    async with app.run_test(size=(40, 20)) as pilot:
        await pilot.pause()
        card = app.screen.query_one("#leaf", VerticalScroll)
        assert card.max_scroll_y == 1  # the room beneath the answers
        assert "more: Space" not in seen(app)
        await pilot.press("1")
        await pilot.pause()
        assert session.state.node.id == "may-i-drill/fire-door"
        # An answer that just fills its line: the list has no scrollbar of its own that breaks it and hides the last.
        await pilot.press("2", "1")
        await resized(app, pilot, 40, 12)
        assert "more: Space" in seen(app)
        await pilot.press("w")
        await pilot.pause()
        await pilot.pause()
        assert "Drilled and tapped for this closer" in seen(app)
        assert "I don't know" in seen(app)


async def test_a_refusal_is_whole_in_a_narrow_window(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(40, 12)) as pilot:
        await pilot.pause()
        assert "more: Space" in seen(app)
        await pilot.press("y")
        await pilot.pause()
        assert "Y is not accepted here; press Enter when it is done." in words_seen(app)
        await pilot.press("w", "w")
        await pilot.pause()
        assert "more: Space" in seen(app)


def test_an_answer_goes_on_beneath_its_words_not_beneath_its_number() -> None:
    answer = Content(" 3  The owner agrees, and a spotter has you clear it at once")
    assert HangingText(answer, indent=4).at(40).plain.split("\n") == [
        " 3  The owner agrees, and a spotter has",
        "    you clear it at once",
    ]


async def test_the_first_thing_to_read_is_the_action_at_forty_by_twelve(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(40, 12)) as pilot:
        await pilot.pause()
        lines = lines_seen(app)
        assert lines[1].strip().startswith("Wedge the leaf")
        assert len(lines) == 12


async def test_the_keys_along_the_bottom_always_end_in_help(session: Session) -> None:
    for width in (30, 40, 80, 200):
        app = app_of(session)
        async with app.run_test(size=(width, 24)) as pilot:
            await pilot.pause()
            assert lines_seen(app)[-1].rstrip().endswith("?  Help")


async def test_the_end_of_a_long_typed_text_stays_in_sight(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(40, 12)) as pilot:
        await pilot.press("m")
        app.screen.post_message(Paste("hinge screws loose " * 9))
        await pilot.pause()
        assert "screws loose" in seen(app)


def test_controls_and_direction_marks_never_reach_the_terminal() -> None:
    assert clean("a\x1b[31mb\u202ec\u2066d\x07\ue000") == "a[31mbcd"
    assert clean("one\ntwo\tthree") == "one\ntwo three"


def test_ascii_where_there_is_no_unicode() -> None:
    assert ascii_only("“35 7/8″ → Zürich … ½ °") == '"35 7/8" -> Zurich ... 1/2  deg'
    assert all(plain.isascii() for plain in GLYPHS.values())
    assert wants_ascii({"TERM": "linux", "LANG": "C.UTF-8"})
    assert wants_ascii({"LC_ALL": "C", "LANG": "de_CH.UTF-8"})
    assert not wants_ascii({"TERM": "xterm", "LANG": "de_CH.UTF-8"})


async def test_ascii_reaches_every_line_of_the_screen(session: Session) -> None:
    app = app_of(session, ascii=True)
    async with app.run_test(size=(80, 24)) as pilot:
        for key in ("question_mark", "enter", "enter", "enter", "1", "3", "6", "enter"):
            await pilot.pause()
            assert seen(app).isascii()
            await pilot.press(key)


async def test_no_measure_is_broken_over_two_lines(session: Session) -> None:
    said = "Body, how far from the datum: 1 1/2 in; let it go from 90 degrees, 5 s at least, to 7 1/2 in, No. 14."
    whole = ("1 1/2 in", "90 degrees", "5 s", "7 1/2 in", "No. 14")
    app = app_of(session)
    async with app.run_test(size=(80, 40)) as pilot:
        for width in range(30, 60, 2):
            await pilot.resize_terminal(width, 40)
            await pilot.pause()
            app.screen.query_one("#ask", Words).tell(said)
            await pilot.pause()
            assert all(any(one in line for line in lines_seen(app)) for one in whole), width


def test_an_answer_past_the_ninth_shows_the_key_that_marks_it_not_a_number_that_picks_the_first() -> (
    None
):
    session = begin_run(graph_of(find("procedure", "find-the-fault")), units="inch")
    complaints = Hand(session)
    complaints.press("2")
    shown = complaints.look()
    assert "9 The door sags or binds" in shown
    assert "↓ Air from a lift lobby or a fan" in shown
    assert "1-9 ↓" in shown
    assert "1-11" not in shown
    complaints.press("up", "enter")
    assert str(complaints.view.session.state.env["symptom"]) == "pressure"


def test_a_line_of_a_list_goes_on_beneath_its_words() -> None:
    holes = HangingText(
        Content("Drill:\n- body, 7 in along from the pin\n  of the hinge\nG       Draw it")
    )
    lines = ["Drill:", "- body, 7 in along", "  from the pin", "  of the hinge", "G       Draw it"]
    assert str(holes.at(20)).split("\n") == lines
