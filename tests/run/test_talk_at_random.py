"""Whatever is said in whatever order: nothing counts without its own words."""

import random

import pytest

from guide.words import by_name
from tests.run.small_procedures import SMALL
from tests.run.spoken import Voice

SEEDS = range(12)
STEPS = 120
ANSWERS = (
    *("timber", "steel", "i don't know", "number one", "number two", "yes", "no"),
    *("thirty six inches", "thirty four and a half", "ninety feet", "three six point five"),
    *("fifteen seconds", "fifty", "six", "one point five seconds", "four pounds", "zero", "twelve"),
)
COMMANDS = (
    *("next", "yes", "no", "cancel", "begin", "begin the cut", "every value is right"),
    *("make it safe", "listen", "mute", "carry on", "skip", "go", "part", "all", "none"),
)


def words_of(command: str) -> set[str]:
    found = by_name(command)
    return {found.word, *found.also}


YES, CUT, HOLD = words_of("yes"), words_of("cut"), words_of("hold")


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("name", SMALL)
def test_a_value_needs_a_yes_a_hold_and_a_cut_their_phrases(name: str, seed: int) -> None:
    rng = random.Random(f"{name} {seed}")
    voice = Voice(name)
    for _ in range(STEPS):
        if voice.session.state.ended:
            break
        known = len(voice.events)
        pending = voice.session.state.pending
        words = rng.choice(ANSWERS if rng.random() < 0.5 else COMMANDS)
        voice.say(words)
        for event in voice.events[known:]:
            assert event.kind not in ("answered", "timed", "revised")
            if event.kind == "confirmed" and event.body["yes"]:
                assert words in YES
                assert pending is not None or voice.events[known].kind == "heard"
            elif event.kind == "cut begun":
                assert words in CUT
            elif event.kind == "hold passed":
                assert words in HOLD
            elif event.kind == "ended":
                assert words in YES


def test_such_talk_does_come_to_holds_cuts_and_ends() -> None:
    """With the fitting words more often, so that the test above is known to have seen them."""
    wanted = {"heard", "confirmed", "done", "hold passed", "cut begun", "ended"}
    kinds: set[str] = set()
    for seed in range(20):
        for name in SMALL:
            if wanted <= kinds:
                return
            voice, rng = Voice(name), random.Random(seed)
            for _ in range(STEPS):
                words = "yes"
                if voice.talk.by_keys:
                    words = "listen"
                elif voice.session.state.node.kind in ("do", "work", "hold"):
                    words = rng.choice(("next", "begin the cut", "every value is right"))
                elif voice.session.state.pending is None and voice.session.state.node.kind != "end":
                    words = rng.choice(ANSWERS)
                if not voice.session.state.ended and voice.understands(words):
                    voice.say(words)
            kinds |= set(voice.kinds)
    assert wanted <= kinds
