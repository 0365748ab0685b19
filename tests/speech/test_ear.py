"""The whole ear on what a synthesiser says and on what is no answer: at the steps of a job.

One saying of each kind. Hundreds of each, by several voices and in noise, are heard by `python -m
tests.campaigns.speech`.
"""

from fractions import Fraction
from pathlib import Path

import pytest

from guide.measures import Quantity
from guide.speech.ear import Ear, Heard, Missed, Report, Speaking
from guide.speech.pocketsphinx_engine import PocketSphinx
from guide.words import COMMANDS
from guide.words.spoken import Meaning, Offered, grammar_for
from tests.speech.sounds import flite, frames_of, hiss

pytestmark = pytest.mark.needs("flite")

AT_A_STEP = [command.name for command in COMMANDS]


def reports(ear: Ear, sound: list[int]) -> list[Report]:
    found = [report for frame in frames_of(sound) for report in ear.feed(frame)]
    return [*found, *ear.finish()]


def heard(ear: Ear, sound: list[int]) -> Meaning | None:
    """What one saying was taken for."""
    found = [one.meaning for one in reports(ear, sound) if isinstance(one, Heard)]
    assert len(found) < 2
    return found[0] if found else None


def inches(value: str) -> Meaning:
    return Meaning("measure", Quantity(Fraction(value), "in"))


@pytest.mark.parametrize(
    ("said", "meaning"),
    [
        ("thirty five and seven eighths inches", inches("287/8")),
        ("three feet one and a half", inches("75/2")),
        ("repeat", Meaning("command", "repeat")),
    ],
)
def test_a_length_or_a_command_where_a_length_is_asked(
    said: str, meaning: Meaning, engine: PocketSphinx, tmp_path: Path
) -> None:
    ear = Ear(engine)
    ear.listen_for(grammar_for("length", commands=AT_A_STEP))
    assert heard(ear, flite(said, tmp_path)) == meaning


@pytest.mark.parametrize(
    ("said", "command"),
    [("next step", "done"), ("make a note", "note")],
)
def test_commands(said: str, command: str, engine: PocketSphinx, tmp_path: Path) -> None:
    ear = Ear(engine)
    ear.listen_for(grammar_for("nothing", commands=AT_A_STEP))
    assert heard(ear, flite(said, tmp_path)) == Meaning("command", command)


def test_a_choice_by_its_name(engine: PocketSphinx, tmp_path: Path) -> None:
    mounts = [
        Offered("regular", ("regular arm", "regular")),
        Offered("top-jamb", ("top jamb",)),
        Offered("parallel", ("parallel arm", "parallel")),
    ]
    ear = Ear(engine)
    ear.listen_for(grammar_for("choice", choices=mounts, commands=AT_A_STEP))
    assert heard(ear, flite("parallel arm", tmp_path)) == Meaning("choice", "parallel")


def test_the_beginning_of_an_answer_waits_for_the_rest(
    engine: PocketSphinx, tmp_path: Path
) -> None:
    ear = Ear(engine)
    ear.listen_for(grammar_for("length"))
    begun = flite("forty one and", tmp_path)
    rest = flite("five sixteenths inches", tmp_path)
    assert heard(ear, [*begun, *rest]) == inches("661/16")


def test_a_beginning_that_is_all_is_no_answer(engine: PocketSphinx, tmp_path: Path) -> None:
    ear = Ear(engine)
    ear.listen_for(grammar_for("length"))
    found = reports(ear, [*flite("thirty six and", tmp_path), *hiss(3.0, 8)])
    assert [type(one) for one in found] == [Speaking, Missed]


def test_a_value_that_cannot_be_is_told_and_not_taken(engine: PocketSphinx, tmp_path: Path) -> None:
    ear = Ear(engine)
    ear.listen_for(
        grammar_for("length"),
        lambda meaning: "" if meaning == inches("36") else "From 20 in to 60 in is taken.",
    )
    found = reports(ear, flite("ninety feet", tmp_path))
    assert [(one.why, one.told) for one in found if isinstance(one, Missed)] == [
        ("impossible", "From 20 in to 60 in is taken.")
    ]


def test_talk_that_is_no_answer_is_not_taken(engine: PocketSphinx, tmp_path: Path) -> None:
    ear = Ear(engine)
    ear.listen_for(grammar_for("length", commands=AT_A_STEP))
    assert heard(ear, flite("the truck is parked round the back", tmp_path)) is None


def test_in_a_drill_s_noise_it_says_that_it_is_too_loud(
    engine: PocketSphinx, tmp_path: Path
) -> None:
    said = flite("thirty five and seven eighths inches", tmp_path)
    drill = hiss(len(said) / 16000 + 0.1, 9000)
    ear = Ear(engine)
    ear.listen_for(grammar_for("length", commands=AT_A_STEP))
    found = reports(ear, [(a + b) // 2 for a, b in zip(said, drill, strict=False)])
    assert not any(isinstance(one, Heard) for one in found)
    assert any(isinstance(one, Missed) and one.why == "loud" for one in found)


def test_that_somebody_speaks_is_told_before_what_was_said(
    engine: PocketSphinx, tmp_path: Path
) -> None:
    ear = Ear(engine)
    ear.listen_for(grammar_for("nothing", commands=AT_A_STEP))
    found = reports(ear, flite("status", tmp_path))
    assert [type(one) for one in found] == [Speaking, Heard]


def test_the_grammar_of_the_next_step_is_the_only_one_heard(
    engine: PocketSphinx, tmp_path: Path
) -> None:
    ear = Ear(engine)
    ear.listen_for(grammar_for("length"))
    ear.listen_for(grammar_for("angle"))
    degrees = Meaning("measure", Quantity(Fraction(45), "deg"))
    assert heard(ear, flite("forty five degrees", tmp_path)) == degrees
