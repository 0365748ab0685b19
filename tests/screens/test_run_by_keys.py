"""A run carried out with keys alone."""

from collections.abc import Sequence
from pathlib import Path

from guide.run.events import Event
from guide.run.journal import JournalError
from guide.run.overview import known
from guide.run.session import Session
from guide.run.store import open_run, read_run
from tests.screens.back_door import Hand, app_of, begin_back_door
from tests.screens.seen import seen


def test_a_whole_run_from_the_first_step_to_the_end(hand: Hand) -> None:
    assert "Wedge the leaf" in hand.look()
    assert "dust sheet" in hand.press("enter")
    assert "1 Steel" in hand.press("enter")
    assert "How wide is the leaf?" in hand.press("1")
    assert "Hold." in hand.type("35 7/8")
    assert "Drill the holes" in hand.press("y")
    hand.press("y", "enter")
    assert "How long does the leaf take" in hand.look()
    hand.type("5.5 s")
    assert "colour" in hand.press("y")
    assert "The plate is fitted." in hand.type("Green")
    assert "This ends the job: press Y to end it." in hand.press("enter", "space", "enter")
    assert hand.view.session.state.ended == ""
    assert "Finished" in hand.press("y")
    state = hand.view.session.state
    assert state.ended == "finished"
    assert str(state.env["width"]) == "35 7/8 in"
    assert state.env["colour"] == "Green"


def test_what_the_screen_acknowledged_is_on_the_disk(at_the_hold: Hand) -> None:
    session = at_the_hold.view.session
    kinds = [event.kind for event in session.journal.events()]
    assert kinds == ["started", "done", "done", "answered", "answered"]


def test_enter_never_passes_a_hold(at_the_hold: Hand) -> None:
    shown = at_the_hold.press("enter", "space")
    assert "A hold is passed when every value is right: press Y." in shown
    assert at_the_hold.at == "before-drilling"
    at_the_hold.press("y")
    assert at_the_hold.at == "drill"


def test_looking_back_at_an_answer_names_the_key_that_changes_it(at_the_hold: Hand) -> None:
    """At a hold with a wrong value a person must see how it is put right."""
    assert "←, then C" in at_the_hold.look()
    assert "How wide is the leaf?" in at_the_hold.press("left")
    assert "C  Change" in at_the_hold.look()
    assert "Looking back; nothing changes." in at_the_hold.look()
    assert "Press C first, then give the new answer." in at_the_hold.press("9")
    at_the_hold.press("left", "left")
    assert "dust sheet" in at_the_hold.look()
    assert "C  Change" not in at_the_hold.look()
    assert "Changing this answer." in at_the_hold.press("right", "right", "c")


def test_a_number_where_none_is_asked_says_what_is(hand: Hand) -> None:
    assert "“1” is not understood here; press Enter when it is done." in hand.press("1")
    assert hand.at == "wedge"


def test_a_hold_reads_every_value_back(at_the_hold: Hand) -> None:
    shown = at_the_hold.look()
    assert "Which leaf: Steel" in shown
    assert "How wide: 36 in" in shown


async def test_a_hold_is_not_passed_before_its_last_value_was_on_the_screen(
    session: Session,
) -> None:
    app = app_of(session)
    async with app.run_test(size=(30, 8)) as pilot:
        await pilot.press("enter", "enter", "1", "3", "6", "enter")
        await pilot.pause()
        assert "more: Space" in seen(app)
        await pilot.press("y")
        assert session.state.node.id == "before-drilling"
        assert app.run_view is not None
        assert "Read the values below first" in app.run_view.message
        for _ in range(4):
            await pilot.press("space")
        await pilot.pause()
        await pilot.press("y")
        assert session.state.node.id == "drill"


def test_a_cut_is_begun_with_a_key_of_its_own_and_ends_with_enter(at_the_hold: Hand) -> None:
    at_the_hold.press("y")
    assert "cannot be undone" in at_the_hold.press("enter")
    assert at_the_hold.view.session.state.cuts == []
    at_the_hold.press("y")
    assert not at_the_hold.view.session.state.cuts[0].done
    at_the_hold.press("enter")
    assert at_the_hold.view.session.state.cuts[0].done


def test_caps_lock_changes_no_command(at_the_hold: Hand) -> None:
    at_the_hold.press("Y")
    assert at_the_hold.at == "drill"


def test_an_answer_is_changed_where_it_was_given(at_the_hold: Hand) -> None:
    shown = at_the_hold.press("left")
    assert "Answered: 36 in." in shown
    at_the_hold.press("c")
    shown = at_the_hold.type("32")
    assert "Changed." in shown
    assert "How wide: 32 in" in shown


def test_looking_back_and_forth_writes_nothing(at_the_hold: Hand) -> None:
    before = len(at_the_hold.view.session.journal.events())
    assert "Wedge the leaf" in at_the_hold.press("left", "left", "left", "left")
    assert "This is the first step." in at_the_hold.press("left")
    assert "dust sheet" in at_the_hold.press("right")
    assert "Hold." in at_the_hold.press("enter")
    assert len(at_the_hold.view.session.journal.events()) == before


def test_a_known_value_leads_back_to_its_question(at_the_hold: Hand) -> None:
    assert "How wide? 36 in" in at_the_hold.press("s")
    assert "Answered: Steel." in at_the_hold.press("down", "enter")


def test_a_width_changed_after_drilling_stops_the_run_until_it_is_resolved(
    at_the_hold: Hand,
) -> None:
    at_the_hold.press("y", "y", "enter")
    at_the_hold.press("left", "left", "left", "c")
    shown = at_the_hold.type("34")
    assert "STOP" in shown.split("\n")
    assert "How wide: it was 36 in, now it is 34 in" in at_the_hold.view.desk.shown.text
    assert "Write what was done" in at_the_hold.press("2")
    shown = at_the_hold.type("Filled both holes with steel filler.")
    assert "STOP" not in shown.split("\n")
    cut = at_the_hold.view.session.state.cuts[0]
    assert cut.resolution == "plugged"


def test_a_stop_is_not_resolved_without_a_note(at_the_hold: Hand) -> None:
    at_the_hold.press("y", "y", "enter", "left", "left", "left", "c")
    at_the_hold.type("34")
    assert "Add a note" in at_the_hold.press("1", "enter")
    assert at_the_hold.view.session.state.cuts[0].resolution == ""


def test_after_a_kill_inside_a_cut_the_person_is_asked_what_was_drilled(at_the_hold: Hand) -> None:
    at_the_hold.press("y", "y")
    journal = at_the_hold.view.session.journal
    path: Path = journal.path  # type: ignore[attr-defined]
    journal.close()
    again = Hand(open_run(path))
    shown = again.look()
    assert "What was drilled?" in shown
    assert "3 Nothing is cut yet" in shown
    assert "Drill the holes" in again.press("3")
    assert "Y  Begin" in again.look()
    again.view.session.close()


def test_an_unusual_width_waits_for_a_yes(hand: Hand) -> None:
    hand.press("enter", "enter", "1")
    shown = hand.type("47 in")
    assert "unusual" in shown
    assert "Is it right? Press Y or N." in hand.press("enter")
    hand.press("n")
    assert hand.at == "how-wide"
    hand.type("47 in")
    hand.press("y")
    assert hand.at == "before-drilling"


def test_a_refused_answer_stays_on_the_line_to_be_mended(hand: Hand) -> None:
    hand.press("enter", "enter", "1")
    shown = hand.type("90 in")
    assert "90 in is out of range" in shown
    assert hand.view.text == "90 in"
    hand.type("40 in")
    assert hand.at == "before-drilling"


class FullDisk:
    """A journal whose disk has just run full."""

    def append(self, events: Sequence[Event], at: str) -> None:
        """Refuse, as the real one does."""
        raise JournalError("The disk is full, so the last answer was not kept.")

    def events(self) -> list[Event]:
        """Nothing can be read either."""
        return []

    def close(self) -> None:
        """Nothing to let go of."""


def test_a_full_disk_is_said_and_the_typed_words_are_kept(hand: Hand) -> None:
    session = hand.view.session
    sound, session.journal = session.journal, FullDisk()
    hand.press("m", *"Hinge screws loose")
    shown = hand.press("enter")
    assert "The disk is full" in shown
    assert hand.view.text == "Hinge screws loose"
    session.journal = sound
    hand.press("enter")
    assert session.state.notes[0][2] == "Hinge screws loose"


def test_making_safe_asks_why_and_ends_the_run(hand: Hand) -> None:
    assert "for the foreman" in hand.press("x")
    assert "Say in a few words why" in hand.press("enter")
    assert "Press Y if all of it is safe" in " ".join(hand.type("The ladder is cracked.").split())
    shown = hand.press("y")
    assert "Made safe and handed to the foreman." in shown
    assert "The ladder is cracked." in hand.view.desk.shown.text
    assert hand.view.session.state.ended == "made-safe"


def test_a_width_typed_in_words_does_not_end_the_job(hand: Hand) -> None:
    hand.press("enter", "enter", "1")
    hand.press(*"six foot eight", "enter", "enter")
    assert hand.view.session.state.ended == ""
    assert "Nothing was written." in hand.press("tab")


def test_a_reason_can_still_be_written_on_after_it_was_entered(hand: Hand) -> None:
    hand.press("x", *"Rain", "enter", *" and wind", "enter", "y")
    assert hand.view.session.state.ended_why == "Rain and wind"


def test_a_no_to_making_safe_goes_on_with_the_job(hand: Hand) -> None:
    assert "Nothing was written." in hand.press("x", *"Rain", "enter", "n")
    assert hand.view.session.state.ended == ""
    assert hand.view.desk.purpose == ""


def test_leaving_a_line_writes_nothing(hand: Hand) -> None:
    hand.press("x", *"no", "tab")
    assert hand.view.session.state.ended == ""
    assert "Nothing was written." in hand.look()


def test_putting_the_job_by_is_in_the_journal(hand: Hand) -> None:
    hand.press("p")
    assert hand.view.desk.left
    assert hand.view.session.journal.events()[-1].kind == "paused"


def test_the_steppers_set_a_measure_without_typing(hand: Hand) -> None:
    hand.press("enter", "enter", "1", "up", "up", "up")
    assert hand.view.text == "30 1/8 in"
    hand.press("down", "enter")
    assert str(hand.view.session.state.env["width"]) == "30 1/16 in"


def test_letters_command_where_nothing_is_typed_and_are_typed_where_something_is(
    hand: Hand,
) -> None:
    hand.press("enter", "enter", "1")
    assert "Known of this opening" in hand.press("s")
    hand.press("enter", *"36 in")
    assert hand.view.text == "36 in"


def test_tab_leaves_a_question_for_words_to_the_keys_and_comes_back(at_the_hold: Hand) -> None:
    at_the_hold.press("y", "y", "enter")
    at_the_hold.type("6 s")
    at_the_hold.press("y")
    assert at_the_hold.at == "which-colour"
    at_the_hold.press("s")
    assert at_the_hold.view.text == "s"
    at_the_hold.press("backspace", "tab")
    assert "Known of this opening" in at_the_hold.press("s")
    at_the_hold.press("enter")
    at_the_hold.type("Grey")
    assert at_the_hold.view.session.state.env["colour"] == "Grey"


def test_i_do_not_know_is_one_key(tmp_path: Path) -> None:
    hand = Hand(begin_back_door(tmp_path))
    hand.press("enter", "enter")
    assert "3 I don't know" in hand.look()
    hand.press("u")
    assert hand.view.session.state.env["leaf"] == "unsure"
    hand.view.session.close()


def test_the_stopwatch_takes_the_time_between_two_presses(at_the_hold: Hand) -> None:
    at_the_hold.press("y", "y", "enter")
    assert at_the_hold.at == "let-it-close"
    assert "T stops it." in at_the_hold.press("t")
    assert at_the_hold.view.watch.running
    at_the_hold.press("t")
    assert at_the_hold.view.text.endswith(" s")
    at_the_hold.press("enter")
    assert at_the_hold.at == "lies-flat"


def test_with_cards_one_enter_does_a_whole_card(session: Session) -> None:
    hand = Hand(session, "cards")
    shown = hand.look()
    assert "Setting up" in shown
    assert "- Lay a dust sheet under the door." in shown
    hand.press("enter")
    assert hand.at == "what-leaf"
    assert [e.kind for e in session.journal.events()] == ["started", "done", "done"]


def test_the_three_levels_of_detail(hand: Hand) -> None:
    assert "Watch for: One wedge slides." in hand.look()
    brief = hand.press("d")
    assert "Watch for" not in brief
    spoken = hand.press("d")
    assert "Wedge it." in spoken
    assert "so that it cannot move" not in spoken
    assert "Watch for: One wedge slides." in hand.press("w")


def test_a_run_paused_and_gone_on_with_stands_where_it_stood(at_the_hold: Hand) -> None:
    at_the_hold.press("p")
    journal = at_the_hold.view.session.journal
    path: Path = journal.path  # type: ignore[attr-defined]
    at_the_hold.view.session.close()
    again = open_run(path)
    assert "How wide: 36 in" in Hand(again).look()
    again.close()
    state, _ = read_run(path)
    assert not state.ended


def test_up_marks_the_last_thing_known_and_down_the_first(hand: Hand) -> None:
    hand.press("enter", "enter", "1", *"36 in", "enter", "s", "up")
    assert hand.view.picked == len(known(hand.view.session.state)) - 1
    hand.press("escape", "s", "down")
    assert hand.view.picked == 0


def test_what_lies_over_a_step_does_not_name_the_keys_of_the_step(hand: Hand) -> None:
    assert "Enter when it is done." in hand.look()
    assert "Enter when it is done." not in hand.press("s")
    assert "Close" in hand.look()
    hand.press("enter")
    assert "Enter when it is done." not in hand.press("question_mark")


def test_what_was_done_is_listed_in_words_and_not_by_the_names_of_blocks(hand: Hand) -> None:
    hand.press("enter", "enter")
    shown = hand.press("s")
    state = hand.view.session.state
    assert "- Wedge it\n- Dust sheet" in shown
    assert not any(f"- {at}" in shown for at in state.route())


def test_a_step_names_the_key_that_writes_a_note(hand: Hand) -> None:
    assert "M  Note" in hand.look()
