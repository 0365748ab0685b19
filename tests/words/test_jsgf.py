"""The recogniser's grammar: read back from its own text, it holds what the parser understands."""

import random
import re
from itertools import pairwise
from pathlib import Path

import pytest

from guide.measures import KINDS, parse
from guide.words import ANSWERS, COMMANDS, DECLINED, PAGES, VOICE
from guide.words.spoken import Grammar, Offered, grammar_for, language, read_back, say

ENGLISH = language("english")
EVERY_COMMAND = [
    *(one.name for one in (*COMMANDS, *ANSWERS, *PAGES, *VOICE)),
    *(one.name for one in DECLINED),
]
STATES = (*KINDS, "count", "number", "any")
IN_DICTIONARY = Path(__file__).with_name("words_in_dictionary.txt")


class Jsgf:
    """A reader of JSGF (W3C Note, June 2000): alternatives, sequences, [optional], (groups), <rules>."""

    def __init__(self, text: str) -> None:
        head, *rules = text.strip().split("\n")
        assert head == "#JSGF V1.0;"
        self.rules = {}
        for line in rules[1:]:
            found = re.fullmatch(r"(?:public )?<([a-z0-9-]+)> = (.*);", line)
            assert found is not None, line
            self.rules[found[1]] = found[2]

    def ends(self, text: str, words: list[str], start: int = 0) -> set[int]:
        """Where the words can end that the text of a rule takes from `start`."""
        return {
            end
            for tokens in self.alternatives(text)
            for end in self._sequence(tokens, words, {start})
        }

    def takes(self, said: str) -> bool:
        words = said.split()
        return len(words) in self.ends("<said>", words)

    def sample(self, text: str, dice: random.Random) -> list[str]:
        """One saying of the text, by chance."""
        found: list[str] = []
        for token in dice.choice(self.alternatives(text)):
            if token.startswith("<"):
                found += self.sample(self.rules[token[1:-1]], dice)
            elif token.startswith("("):
                found += self.sample(token[1:-1], dice)
            elif not token.startswith("["):
                found.append(token)
            elif dice.random() < 0.5:
                found += self.sample(token[1:-1], dice)
        return found

    def _sequence(self, tokens: list[str], words: list[str], reached: set[int]) -> set[int]:
        for token in tokens:
            if token.startswith(("<", "(", "[")):
                inner = self.rules[token[1:-1]] if token.startswith("<") else token[1:-1]
                after = {end for place in reached for end in self.ends(inner, words, place)}
                reached = after | reached if token.startswith("[") else after
            else:
                reached = {at + 1 for at in reached if at < len(words) and words[at] == token}
        return reached

    @staticmethod
    def alternatives(text: str) -> list[list[str]]:
        """The alternatives of a text, each as its tokens; a group is one token."""
        found: list[list[str]] = [[]]
        depth, group = 0, ""
        for token in re.findall(r"<[^>]+>|[\[\]()|]|[^\s\[\]()|]+", text):
            depth += (token in "[(") - (token in "])")
            group += f" {token}"
            if depth:
                continue
            if token == "|":
                found.append([])
            else:
                found[-1].append(group.strip().replace("( ", "(").replace("[ ", "["))
            group = ""
        return found


def grammar(kind: str) -> Grammar:
    return grammar_for(kind, commands=EVERY_COMMAND)


@pytest.mark.parametrize("kind", STATES)
def test_what_the_recogniser_can_hear_means_one_thing_or_is_refused(kind: str) -> None:
    whole = grammar(kind)
    heard = Jsgf(whole.jsgf())
    dice = random.Random(f"a {kind} at the door")
    sayings = {" ".join(heard.sample("<said>", dice)) for _ in range(1200)}
    outcomes = {said: whole.parse(said).outcome for said in sayings}
    assert [said for said, outcome in outcomes.items() if outcome == "unclear"] == []
    complete = sum(outcome == "complete" for outcome in outcomes.values())
    assert complete > 0.5 * len(sayings)


@pytest.mark.parametrize(
    "written",
    ["35 7/8 in", "2100 mm", "911.5 mm", "90 deg", "4.5 lbf", "22 N", "5.5 s", "110 lb", "12 Pa"],
)
def test_what_the_mouth_says_the_recogniser_can_hear(written: str) -> None:
    value = parse(written)
    heard = Jsgf(grammar(value.kind).jsgf())
    assert heard.takes(say(value, ENGLISH))
    assert heard.takes(say(value, ENGLISH, feet=True))


def test_the_recogniser_is_given_nothing_that_stops_in_the_middle() -> None:
    heard = Jsgf(grammar("length").jsgf())
    for said in ("thirty five and", "point", "seven eighths of an", "make a"):
        assert not heard.takes(said)


def test_the_list_of_phrases_is_what_the_grammar_says() -> None:
    frames = [Offered("steel", ("hollow steel", "steel")), Offered("timber", ("timber",))]
    small = grammar_for("choice", choices=frames, commands=["back", "repeat"])
    listed = small.phrases()
    assert listed is not None
    heard = Jsgf(small.jsgf())
    assert all(heard.takes(phrase) for phrase in listed)
    assert all(small.parse(phrase).outcome == "complete" for phrase in listed)
    dice = random.Random("two frames")
    assert {" ".join(heard.sample("<said>", dice)) for _ in range(2000)} == set(listed)


def test_a_measure_has_too_many_sayings_for_a_list() -> None:
    assert grammar_for("length").phrases() is None


def test_a_number_is_written_once_with_its_units_behind_it() -> None:
    text = grammar_for("angle").jsgf()
    angle = next(line for line in text.splitlines() if line.startswith("<angle>"))
    assert angle.count("<plain-number>") == 1
    assert angle.count("<unit-angle>") == 1
    assert angle.count("<one-angle>") == 1  # after “a”


@pytest.mark.parametrize("kind", STATES)
def test_only_the_kind_that_is_asked_is_in_the_grammar(kind: str) -> None:
    words = set(grammar_for(kind).words())
    units = {"inches": "length", "degrees": "angle", "seconds": "time", "newtons": "force"}
    for word, of in units.items():
        if kind not in ("any", "length", "pressure", "moment"):
            assert (word in words) == (of == kind)


def test_a_saying_with_a_word_the_recogniser_lacks_is_left_out() -> None:
    frames = [Offered("steel", ("zinc-coated", "steel")), Offered("timber", ("beechen",))]
    whole = grammar_for("choice", choices=frames)
    assert {"zinc", "beechen"} <= set(whole.words())
    heard = Jsgf(whole.jsgf(lambda word: word not in ("zinc", "beechen")))
    assert heard.takes("steel")
    assert heard.takes("answer two")
    assert not heard.takes("zinc coated")
    assert not heard.takes("beechen")
    assert whole.jsgf(lambda _: False) == ""


def test_the_length_grammar_without_a_dictionary_of_fractions_still_has_numbers() -> None:
    heard = Jsgf(grammar_for("length").jsgf(lambda word: word not in ("eighths", "eighth")))
    assert heard.takes("thirty five and a half inches")
    assert not heard.takes("thirty five and seven eighths inches")


def test_every_word_is_in_the_dictionary_or_has_its_pronunciation() -> None:
    # words_in_dictionary.txt: those looked up with Decoder.lookup_word in the US English dictionary
    # that pocketsphinx 5.1.1 carries (cmudict-en-us.dict)
    known = set(IN_DICTIONARY.read_text("utf-8").split()) | set(ENGLISH.pronunciations)
    states = [*(grammar(kind) for kind in STATES)]
    nine = [Offered(str(number), ()) for number in range(1, 10)]
    states.append(grammar_for("choice", choices=nine, commands=EVERY_COMMAND))
    words = {word for state in states for word in state.words()}
    assert words - known == set()


def test_the_list_of_known_words_is_in_order_and_has_no_more_than_is_used() -> None:
    listed = IN_DICTIONARY.read_text("utf-8").split()
    assert all(one < other for one, other in pairwise(listed))
    assert set(listed) & set(ENGLISH.pronunciations) == set()


def test_a_read_back_is_said_in_words_that_can_be_heard() -> None:
    heard = set(grammar("length").words())
    words = read_back(parse("50 7/8 in"), ENGLISH).replace(",", "").split()
    assert set(words) <= heard
