"""Scores, weights, and how sure is sure enough for what."""

import json
from importlib import resources

from guide.speech.confidence import read_weights, scores, shipped_weights
from guide.speech.endpoint import Segment
from guide.speech.engine import HeardWord, Hypothesis
from guide.words.spoken import Meaning

ROOM = Segment(b"\0" * 32000, 0.0, 1.0, (20.0,) * 10 + (60.0,) * 23, 18.0)


def test_every_weight_is_of_a_score_there_is() -> None:
    word = HeardWord("next", 5, 40, -60.0, 1.0, 1.2)
    made = scores(Hypothesis((word,), 60, -0.1, -0.2), ROOM)
    weights = shipped_weights()
    assert set(weights.words) <= set(made)
    assert set(weights.numbers) <= set(made)


def test_words_that_fit_their_sounds_are_believed_more() -> None:
    weights = shipped_weights()
    fitting = Hypothesis((HeardWord("next", 5, 40, -60.0, 1.0, 1.2),), 50, -0.08, -0.15)
    forced = Hypothesis((HeardWord("next", 5, 40, -260.0, 1.0, 8.0),), 50, -0.60, -0.15)
    believed = [weights.belief(scores(one, ROOM), "command") for one in (fitting, forced)]
    assert believed[0] > 2 * believed[1]
    assert believed[1] < weights.harmless


def test_what_changes_the_run_must_be_surer_than_what_does_not() -> None:
    weights = shipped_weights()
    assert weights.enough(Meaning("command", "done")) > weights.enough(Meaning("command", "help"))
    assert weights.enough(Meaning("choice", "parallel")) == weights.changing


def test_a_score_far_from_all_that_was_fitted_does_not_outweigh_the_others() -> None:
    text = (resources.files("guide.speech") / "confidence.json").read_text("utf-8")
    weights = read_weights(text)
    usual = {name: term.mean for name, term in weights.numbers.items()}
    name = max(weights.numbers, key=lambda one: weights.numbers[one].weight)
    term = weights.numbers[name]
    far = weights.belief({**usual, name: term.mean + 1000 * term.spread}, "measure")
    near = weights.belief({**usual, name: term.mean + 4 * term.spread}, "measure")
    assert far == near
    assert set(json.loads(text)) == {"words", "numbers", "thresholds"}
