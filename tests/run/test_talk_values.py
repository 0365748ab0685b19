"""Values by voice: read back, counted after a yes, asked again after a no, and left to the keys at last."""

from fractions import Fraction

from guide.measures import Quantity
from guide.run.talk import BY_KEYS, USE_KEYS
from tests.run.spoken import Voice

AT_WIDTH = ("wood", "no", "done")
AT_SWEEP = ("done", "done")


def inches(value: str) -> Quantity:
    return Quantity(Fraction(value), "in")


def test_a_width_heard_counts_after_a_yes() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    reply = voice.say("thirty five and seven eighths")
    assert reply.say == "Thirty five and seven eighths inches. Yes or no?"
    assert reply.show == "“thirty five and seven eighths”: 35 7/8 in. Say yes or no."
    assert voice.session.state.known("width") is None
    reply = voice.say("yes")
    assert voice.session.state.known("width") == inches("287/8")
    assert reply.show == "35 7/8 in: entered."
    assert reply.sent == ("confirmed",)


def test_the_next_step_is_said_after_an_answer_counted() -> None:
    voice = Voice("gym-store", "wood")
    assert voice.say("no", "yes").say.startswith("Wedge the leaf")


def test_what_was_heard_is_kept_with_its_words_and_how_surely() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    voice.say("three feet", confidence=0.8765)
    assert voice.events[-1].body == {
        "at": "how-wide",
        "value": "3 ft",
        "doubt": "",
        "by": "voice",
        "words": "three feet",
        "confidence": 0.876,
    }


def test_a_choice_is_read_back_too() -> None:
    voice = Voice("gym-store")
    assert voice.say("timber").say == "Timber. Yes or no?"
    assert voice.stands == "leaf-of"
    voice.say("yes")
    assert voice.stands == "fire-door"


def test_a_yes_that_answers_a_question_still_needs_its_own_yes() -> None:
    voice = Voice("gym-store", "wood")
    voice.say("no")
    assert voice.session.state.known("fire") is None
    voice.say("yes")
    assert voice.session.state.known("fire") == "no"


def test_not_knowing_is_an_answer_where_it_is_offered() -> None:
    voice = Voice("gym-store")
    voice.say("i don't know", "yes")
    assert voice.session.state.known("leaf") == "unsure"


def test_a_key_may_give_the_yes() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    voice.say("thirty six inches")
    voice.session.send(("confirmed", {"at": "how-wide", "yes": True}))
    voice.talk.keyed()
    assert voice.stands == "show-size"


def test_what_is_easily_misheard_is_read_back_with_its_digits_and_its_unit() -> None:
    voice = Voice("clinic-tuning", *AT_SWEEP)
    assert voice.say("fifteen").say == "Fifteen, one five seconds. Yes or no?"


def test_an_unusual_value_is_said_to_be_unusual() -> None:
    voice = Voice("clinic-tuning", *AT_SWEEP)
    assert "That is unusual here." in voice.say("fifty seconds").say


def test_after_a_no_the_value_it_is_taken_for_is_offered() -> None:
    voice = Voice("clinic-tuning", *AT_SWEEP)
    voice.say("fifty seconds")
    assert voice.say("no").say == "Was it fifteen, one five seconds?"
    assert voice.session.state.known("sweep") is None
    voice.say("yes")
    assert voice.session.state.known("sweep") == Quantity(Fraction(15), "s")
    assert voice.kinds[-4:] == ["heard", "confirmed", "heard", "confirmed"]


def test_after_a_no_the_value_may_also_just_be_said_again() -> None:
    voice = Voice("clinic-tuning", *AT_SWEEP)
    voice.say("fifty seconds", "no", "six seconds", "yes")
    assert voice.session.state.known("sweep") == Quantity(Fraction(6), "s")


def test_after_a_second_no_it_is_asked_digit_by_digit_and_heard_in_no_other_way() -> None:
    voice = Voice("clinic-tuning", *AT_SWEEP)
    reply = voice.say("fifty seconds", "no", "no")
    assert reply.say == "Say it digit by digit."
    assert not voice.understands("fifteen seconds")
    assert voice.understands("one five seconds")
    voice.say("one four point five seconds", "yes")
    assert voice.session.state.known("sweep") == Quantity(Fraction(29, 2), "s")


def test_a_value_that_is_taken_for_no_other_is_asked_digit_by_digit_at_once() -> None:
    voice = Voice("clinic-tuning", *AT_SWEEP)
    assert voice.say("six seconds", "no").say == "Say it digit by digit."


def test_a_value_finer_than_the_watch_is_not_taken() -> None:
    voice = Voice("shop-sweep")
    reply = voice.say("five point two eight seconds")
    assert reply.say == "5.28 s is finer than this is measured; say it to the nearest 0.1 s."


def test_a_choice_denied_is_asked_again_by_its_number() -> None:
    voice = Voice("gym-store")
    assert "number two" in voice.say("timber", "no").say
    voice.say("number two", "yes")
    assert voice.session.state.known("leaf") == "steel"


def test_a_value_that_cannot_be_is_told_and_not_taken() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    reply = voice.say("ninety feet")
    assert reply.say == "90 ft cannot be here; from 20 in to 60 in is accepted."
    assert voice.kinds == ["answered", "answered", "done"]


def test_three_misses_hand_over_to_the_keys() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    voice.talk.missed("unsure", "That was not caught.")
    voice.say("thirty six inches", "no")
    assert voice.talk.missed("nothing", "That was not caught.").say == USE_KEYS
    assert not voice.understands("thirty six inches")
    assert voice.understands("make it safe")
    assert voice.understands("why")


def test_after_that_a_value_or_a_yes_changes_nothing_until_listen() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    meaning = voice.talk.asked().grammar.parse("thirty six inches").meaning
    assert meaning is not None
    for _ in range(3):
        voice.talk.missed("nothing", "That was not caught.")
    before = len(voice.events)
    assert voice.talk.heard(meaning, "thirty six inches", 0.9).show == BY_KEYS
    assert voice.talk.missed("nothing", "That was not caught.").say == ""
    assert len(voice.events) == before
    voice.say("listen", "thirty six inches", "yes")
    assert voice.session.state.known("width") == inches("36")


def test_the_next_step_is_heard_again() -> None:
    voice = Voice("gym-store")
    for _ in range(3):
        voice.talk.missed("nothing", "That was not caught.")
    voice.session.send(("answered", {"at": "leaf-of", "value": "wood"}))
    voice.talk.keyed()
    assert voice.understands("yes")


def test_a_yes_that_is_not_caught_is_asked_for_in_longer_words() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    voice.say("thirty six inches")
    reply = voice.talk.missed("unsure", "That was not caught.")
    assert "“yes that's right” or “no that's wrong”" in reply.say
    voice.say("that's right")
    assert voice.session.state.known("width") == inches("36")


def test_a_key_forgets_the_misses() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    for _ in range(2):
        voice.talk.missed("nothing", "That was not caught.")
    voice.talk.keyed()
    assert voice.talk.missed("nothing", "That was not caught.").say == "That was not caught."


def test_noise_is_told_once_and_is_no_miss() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    replies = [voice.talk.missed("loud", "It is too loud.") for _ in range(4)]
    assert [one.say for one in replies] == ["It is too loud.", "", "", ""]
    assert all(one.show == "It is too loud." for one in replies)
    assert not voice.talk.by_keys


def test_what_the_schedule_says_is_read_back_and_taken_by_a_yes() -> None:
    voice = Voice("gym-store", *AT_WIDTH, supplied={"width": inches("36")})
    assert voice.opening == "How wide? By the schedule: thirty six inches. Is that right?"
    voice.say("yes")
    assert voice.session.state.known("width") == inches("36")
    assert voice.kinds[-2:] == ["heard", "confirmed"]


def test_what_the_schedule_says_is_denied_by_a_measure_as_well() -> None:
    voice = Voice("gym-store", *AT_WIDTH, supplied={"width": inches("36")})
    voice.say("thirty four inches", "yes")
    assert voice.session.state.known("width") == inches("34")


def test_a_yes_takes_it_only_where_it_is_shown() -> None:
    voice = Voice("gym-store", *AT_WIDTH, supplied={"width": inches("36")})
    voice.talk.desk.look(voice.session.state.path[0])
    assert not voice.understands("yes")
    voice.talk.desk.look(None)
    assert voice.understands("yes")


def test_next_at_a_question_of_the_schedule_is_read_back() -> None:
    voice = Voice("gym-store", *AT_WIDTH, supplied={"width": inches("36")})
    assert voice.say("next").say == "Thirty six inches. Yes or no?"


def test_a_count_is_a_whole_number_in_its_range() -> None:
    voice = Voice("gym-store", *AT_WIDTH, "36 in", "done")
    assert voice.say("thirteen").refused
    voice.say("twelve", "yes")
    assert voice.session.state.known("old_holes") == 12


def test_what_is_written_is_left_to_the_keys() -> None:
    voice = Voice("gym-store", "wood", "yes")
    assert voice.say("next").say == "This is written with the keys."


def test_a_serial_number_that_nobody_wants_is_left_out_by_next() -> None:
    voice = Voice("library-serial")
    reply = voice.say("next")
    assert (reply.show, reply.sent) == ("Left out.", ("answered",))
    assert voice.session.state.known("serial") == "not given"
    assert voice.stands == "cover"


def test_what_was_said_before_the_run_went_on_counts_no_more() -> None:
    voice = Voice("school-pair")
    asked = voice.talk.asked()
    meaning = asked.grammar.parse("yes").meaning
    assert meaning is not None
    voice.session.send(("answered", {"at": "another", "value": "no"}))
    voice.talk.keyed()
    reply = voice.talk.heard(meaning, "yes", 0.9, asked.turn)
    assert reply.show == "“yes” came too late; say it again."
    assert voice.stands == "on-head"
    assert voice.session.state.pending is None


def test_cancel_drops_what_was_heard() -> None:
    voice = Voice("gym-store", *AT_WIDTH)
    assert voice.say("thirty six inches", "cancel").show == "Dropped."
    assert voice.session.state.pending is None
    assert voice.stands == "how-wide"


def test_an_earlier_answer_is_changed_by_voice() -> None:
    voice = Voice("gym-store", *AT_WIDTH, "36 in", "done")
    state = voice.session.state
    assert voice.say("go back").command == "back"
    wide = next(at for at in state.path if state.graph.nodes[at[0]].id == "how-wide")
    voice.talk.desk.look(wide)
    assert voice.say("change it").command == "change"
    voice.talk.desk.look(wide, changing=True)
    voice.say("thirty four inches", "yes")
    assert voice.session.state.known("width") == inches("34")


def test_a_time_of_the_stopwatch_on_the_line_is_entered_by_next() -> None:
    voice = Voice("clinic-tuning", *AT_SWEEP)
    assert voice.say("go").command == "watch"
    assert voice.say("shut").command == "watch"
    voice.talk.entered = True
    assert voice.say("next").command == "done"
