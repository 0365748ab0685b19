"""Commands by voice: what acts at once, what needs more than a yes, and what is only answered."""

import pytest

from guide.run.talk import SAID_WHY
from guide.words import DECLINED, Declined
from tests.run.small_procedures import give
from tests.run.spoken import Voice

TO_THE_HOLD = ("wood", "no", "done", "36 in", "done", "0")
TO_THE_CUT = (*TO_THE_HOLD, "hold")


def test_a_step_is_done_by_next() -> None:
    voice = Voice("clinic-tuning")
    assert voice.say("next").sent == ("done",)
    assert voice.stands == "sweep-valve"


def test_a_computation_is_seen_by_next() -> None:
    voice = Voice("gym-store", "wood", "no", "done", "36 in")
    voice.say("next")
    assert voice.stands == "count-holes"


def test_the_end_takes_a_yes() -> None:
    voice = Voice("gym-store", *TO_THE_CUT, "begin", "done", "done")
    assert voice.say("next").refused
    assert voice.say("yes").sent == ("ended",)
    assert voice.session.state.ended == "finished"


def test_at_a_hold_every_value_is_read_back() -> None:
    voice = Voice("gym-store", *TO_THE_HOLD)
    assert voice.opening == (
        "Hold. Read these back before anything is cut. Which leaf: Timber. How wide: thirty six inches. "
        "How many old holes are near the new ones: zero. Size: three. Say “every value is right”, or “no”."
    )


def test_its_phrase_passes_a_hold() -> None:
    voice = Voice("gym-store", *TO_THE_HOLD)
    assert voice.say("every value is right").sent == ("hold passed",)
    assert voice.stands == "pilot"


def test_not_before_the_values_were_said() -> None:
    voice = Voice("gym-store", *TO_THE_HOLD[:-1])
    voice.session.send(("answered", {"at": "count-holes", "value": "0"}))
    voice.talk.keyed()
    reply = voice.say("every value is right")
    assert reply.show == "Hear the values first."
    assert "thirty six inches" in reply.say
    assert voice.stands == "hold-timber"
    voice.say("every value is right")
    assert voice.stands == "pilot"


def test_not_with_a_value_that_was_changed_since() -> None:
    voice = Voice("gym-store", *TO_THE_HOLD)
    give(voice.session, "count-holes = 2")
    voice.talk.keyed()
    assert "near the new ones: two" in voice.say("every value is right").say
    assert voice.stands == "hold-timber"


@pytest.mark.parametrize("word", ["yes", "correct", "next", "no"])
def test_a_lone_word_never_passes_a_hold(word: str) -> None:
    voice = Voice("gym-store", *TO_THE_HOLD)
    reply = voice.say(word)
    assert reply.refused
    assert "say “" in reply.say.lower()
    assert voice.stands == "hold-timber"


def test_its_phrase_begins_a_cut() -> None:
    voice = Voice("gym-store", *TO_THE_CUT)
    assert voice.opening.endswith("Say “begin the cut” when you begin.")
    assert voice.say("begin the cut").sent == ("cut begun",)
    assert voice.session.state.open_cut() is not None
    voice.say("next")
    assert voice.session.state.open_cut() is None
    assert voice.stands == "set-spring"


@pytest.mark.parametrize("word", ["yes", "begin", "start", "next"])
def test_a_lone_word_never_begins_a_cut(word: str) -> None:
    voice = Voice("gym-store", *TO_THE_CUT)
    assert voice.say(word).say == "This cannot be undone: say “begin the cut” when you begin."
    assert voice.session.state.cuts == []


def test_the_phrase_of_a_cut_is_heard_at_a_cut_alone() -> None:
    assert not Voice("gym-store", *TO_THE_HOLD).understands("begin the cut")
    assert not Voice("clinic-tuning").understands("begin the cut")
    assert not Voice("gym-store", *TO_THE_CUT).understands("every value is right")


def test_make_it_safe_asks_first() -> None:
    voice = Voice("gym-store", *TO_THE_CUT, "begin")
    assert voice.say("make it safe").say.endswith(
        "Say “yes” if all of it is safe, “no” to go on with the job."
    )
    assert "ended" not in voice.kinds
    voice.say("yes")
    assert voice.session.state.ended == "made-safe"
    assert voice.session.state.ended_why == SAID_WHY


def test_a_no_to_it_leaves_the_run_where_it_stands() -> None:
    voice = Voice("gym-store", "wood", "no")
    voice.say("make it safe", "no")
    assert voice.stands == "wedge"
    assert not voice.session.state.ended
    voice.say("next")
    assert voice.stands == "how-wide"


def test_it_may_be_said_while_a_value_waits_and_when_the_keys_have_taken_over() -> None:
    voice = Voice("gym-store")
    voice.say("timber", "make it safe", "no", "yes")
    assert voice.session.state.known("leaf") == "wood"
    for _ in range(3):
        voice.talk.missed("nothing", "That was not caught.")
    voice.say("make it safe", "yes")
    assert voice.session.state.ended == "made-safe"


def test_no_answer_is_heard_while_it_is_asked() -> None:
    voice = Voice("gym-store")
    voice.say("make it safe")
    assert not voice.understands("timber")


@pytest.mark.parametrize(
    ("said", "command"),
    [
        ("why", "why"),
        ("status", "status"),
        ("make a note", "note"),
        ("help", "help"),
        ("say again", "repeat"),
        ("stop", "hush"),
    ],
)
def test_what_is_about_the_screen_is_left_to_the_screen(said: str, command: str) -> None:
    voice = Voice("clinic-tuning")
    reply = voice.say(said)
    assert reply.command == command
    assert voice.kinds == []


def test_pause_puts_the_job_by() -> None:
    voice = Voice("clinic-tuning")
    assert voice.say("pause").sent == ("paused",)
    assert voice.talk.desk.left


def test_what_cannot_be_shown_is_refused_as_by_a_key() -> None:
    voice = Voice("clinic-tuning")
    assert voice.say("go back").show == "This is the first step."
    assert "cannot be drawn yet" in voice.say("draw it").show


def test_a_note_cannot_be_dictated() -> None:
    assert "keys" in Voice("clinic-tuning").say("make a note").say


def test_stop_names_the_words_that_stop_the_work() -> None:
    assert "make it safe" in Voice("clinic-tuning").say("stop").show


def test_repeat_says_the_step_again_and_why_says_the_long_words() -> None:
    voice = Voice("gym-store", *TO_THE_CUT)
    assert voice.say("repeat").say == voice.opening
    assert "eye and ear protection" in voice.say("why").say


def test_values_in_a_step_s_words_are_said_as_words() -> None:
    voice = Voice("one-leaf", "35 7/8 in", "done", "yes", "hold")
    assert "Drill this thirty five and seven eighths inches leaf." in voice.opening
    assert "thirty five and seven eighths inches" in voice.say("why").say


@pytest.mark.parametrize("told", DECLINED, ids=lambda told: told.name)
def test_what_cannot_be_done_is_answered_with_what_can(told: Declined) -> None:
    voice = Voice("clinic-tuning")
    assert voice.say(told.word).say == told.says
    assert voice.kinds == []


def test_stop_listening_hears_nothing_but_listen() -> None:
    voice = Voice("clinic-tuning")
    voice.say("mute")
    assert voice.talk.deaf
    assert not voice.understands("next")
    assert not voice.understands("make it safe")
    assert voice.talk.missed("nothing", "That was not caught.").show == ""
    voice.say("listen")
    assert not voice.talk.deaf
    voice.say("next")
    assert voice.stands == "sweep-valve"


def test_carry_on_at_a_step_is_answered() -> None:
    voice = Voice("clinic-tuning")
    assert voice.say("carry on").say == "The job goes on; say “next” when this is done."
    assert voice.stands == "hand-on-leaf"


def test_next_at_a_question_asks_for_the_answer() -> None:
    voice = Voice("gym-store", "wood", "no", "done")
    assert voice.say("next").say == "Answer first: from 20 in to 60 in is accepted."


def test_next_while_a_value_waits_reads_it_back_again() -> None:
    voice = Voice("gym-store")
    assert voice.say("timber", "next").say == "Timber. Yes or no?"
    assert voice.session.state.pending is not None


def test_what_was_drilled_before_the_power_failed_is_said_and_confirmed() -> None:
    voice = Voice("gym-store", *TO_THE_CUT, "begin", "killed")
    assert voice.opening == "What was drilled?"
    assert voice.say("part").say == "Part of it is done: yes or no?"
    voice.say("no")
    assert voice.session.state.unreported_cut() is not None
    voice.say("all", "yes")
    assert voice.stands == "set-spring"


def test_what_became_of_a_cut_is_written_with_the_keys() -> None:
    voice = Voice("gym-store", *TO_THE_CUT, "begin", "done", "how-wide = 38 in")
    assert voice.opening.startswith("Stop.")
    assert not voice.understands("plugged")
    assert voice.say("pause").command == "pause"


def test_after_the_end_only_what_is_harmless_is_left() -> None:
    voice = Voice("gym-store", *TO_THE_CUT, "begin", "done", "done", "done")
    assert voice.session.state.ended
    assert voice.say("make it safe").show == "This job has already ended."
    assert voice.say("status").command == "status"


def test_a_word_that_is_an_answer_is_the_answer() -> None:
    voice = Voice("gym-store", "wood")
    meaning = voice.talk.asked().grammar.parse("yes").meaning
    assert meaning is not None
    assert (meaning.kind, meaning.value) == ("choice", "yes")
