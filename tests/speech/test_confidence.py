"""Scores, weights, and how sure is sure enough for what."""

import json
from dataclasses import replace
from importlib import resources

import pytest

from guide.speech.confidence import read_weights, scores, shipped_weights
from guide.speech.endpoint import Segment
from guide.speech.engine import HeardWord, Hypothesis
from guide.words.spoken import Meaning, grammar_for

STEP = grammar_for("nothing", commands=["done", "help"])
ROOM = Segment(b"\0" * 32000, 0, 1.0, (20.0,) * 10 + (60.0,) * 23, 18.0, 42.0)


def test_every_weight_is_of_a_score_there_is() -> None:
    word = HeardWord("next", 5, 40, -0.2, 1.0)
    made = scores(Hypothesis((word,), 60, -0.6), ROOM, STEP)
    weights = shipped_weights()
    for part in (weights.words, weights.asked, weights.right):
        assert set(part.terms) <= set(made)


def test_a_value_whose_rival_fits_nearly_as_well_is_not_believed() -> None:
    length = grammar_for("length")
    words = tuple(
        HeardWord(w, 10 * n, 10 * n + 9, -6.0, 1.0) for n, w in enumerate(("forty", "inches"))
    )
    heard = Hypothesis(words, 30, -0.26, "forty inches", 0.06)
    weights = shipped_weights("rnnoise")
    alone = weights.right.belief(scores(replace(heard, ahead=None), ROOM, length))
    far = weights.right.belief(scores(heard, ROOM, length))
    close = weights.right.belief(scores(replace(heard, ahead=0.005), ROOM, length))
    assert alone > far > weights.value > close


@pytest.mark.parametrize(("ahead", "counted"), [(0.03, 3), (-0.02, -2), (0.3, 8), (None, 8)])
def test_a_saying_far_ahead_of_its_rivals_counts_as_one_that_has_none(
    ahead: float | None, counted: float
) -> None:
    words = (HeardWord("forty", 5, 40, -0.2, 1.0),)
    heard = Hypothesis(words, 60, -0.1, None, ahead)
    assert scores(heard, ROOM, grammar_for("number"))["ahead of rivals"] == pytest.approx(counted)


def test_words_that_fit_their_sounds_are_believed_more() -> None:
    weights = shipped_weights()
    fitting = Hypothesis((HeardWord("next", 30, 98, -0.25, 1.0),), 99, -0.35)
    forced = Hypothesis((HeardWord("next", 30, 98, -0.85, 1.0),), 99, -0.99)
    believed = [weights.belief(scores(one, ROOM, STEP), "command") for one in (fitting, forced)]
    assert believed[0] > 2 * believed[1]
    assert believed[1] < weights.harmless


def test_near_a_drill_a_measure_must_be_heard_alike_with_its_noise() -> None:
    number = grammar_for("number")
    words = (HeardWord("eight", 30, 60, -0.1, 1.0), HeardWord("hundred", 61, 98, -0.1, 1.0))
    alike = Hypothesis(words, 99, -0.26, "eight hundred", 0.06)
    unlike = replace(alike, again="six hundred")
    drill = replace(ROOM, floor=30.0, levels=(30.0,) * 10 + (60.0,) * 23)
    weights = shipped_weights("rnnoise")
    assert drill.left == 30 < weights.agreed < ROOM.left
    assert weights.belief(scores(alike, drill, number), "number") > 0
    assert weights.belief(scores(unlike, drill, number), "number") == 0
    assert weights.belief(scores(unlike, ROOM, number), "number") > 0


def test_a_command_with_more_said_behind_it_is_not_believed() -> None:
    """The recogniser takes “ten meters” of “go forward ten meters” for noise."""
    step = grammar_for("nothing", commands=["forward"])
    said = (HeardWord("go", 30, 44, -0.06, 1.0), HeardWord("forward", 45, 98, -0.2, 1.0))
    heard = Hypothesis(said, 99, -0.4)
    weights = shipped_weights()
    assert scores(heard, ROOM, step)["loud outside the words"] == 0
    assert weights.belief(scores(heard, ROOM, step), "command") > weights.harmless
    part = Hypothesis((said[0], replace(said[1], end=70)), 99, -0.4)
    assert scores(part, ROOM, step)["loud outside the words"] == pytest.approx(8 / 23)
    assert weights.belief(scores(part, ROOM, step), "command") == 0


def test_what_changes_the_run_must_be_surer_than_what_does_not() -> None:
    weights = shipped_weights()
    assert weights.enough(Meaning("command", "done")) > weights.enough(Meaning("command", "help"))
    assert weights.enough(Meaning("choice", "parallel")) == weights.changing


def test_a_score_far_from_all_that_was_fitted_does_not_outweigh_the_others() -> None:
    text = (resources.files("guide.speech") / "confidence_webrtc.json").read_text("utf-8")
    weights = read_weights(text)
    terms = weights.asked.terms
    usual = {name: term.mean for name, term in terms.items()}
    name = max(terms, key=lambda one: terms[one].weight)
    term = terms[name]
    far = weights.asked.belief({**usual, name: term.mean + 1000 * term.spread})
    near = weights.asked.belief({**usual, name: term.mean + 4 * term.spread})
    assert far == near
    assert set(json.loads(text)) == {"words", "asked", "right", "thresholds"}
