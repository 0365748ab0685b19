"""What sounds alike: pairs that are taken for each other on a noisy site, and near ones that are not."""

import subprocess
import sys
from itertools import combinations
from pathlib import Path

import pytest

from guide.checker.check import check
from guide.words import COMMANDS
from guide.words.sounds import LIMIT, alike, distance, sounds

TAKEN = [
    # The teens and the tens are the numbers most often misheard (common practice: say “one five”).
    ("thirteen", "thirty"),
    ("fourteen", "forty"),
    ("fifteen", "fifty"),
    ("sixteen", "sixty"),
    ("seventeen", "seventy"),
    ("eighteen", "eighty"),
    ("nineteen", "ninety"),
    ("five", "nine"),
    ("three", "free"),
    ("no", "know"),
    ("right", "light"),
    ("right", "write"),
    ("wood", "would"),
    ("two", "too"),
    ("back", "black"),
    ("hinge", "inch"),
    ("steel", "seal"),
    ("cap", "tap"),
    ("bit", "pit"),
    ("old", "hold"),
    ("active", "inactive"),
    ("push side", "pull side"),
    ("latch", "last"),
]
TOLD_APART = [
    ("left", "right"),
    ("yes", "no"),
    ("pull", "push"),
    ("latch", "left"),
    ("two", "three"),
    ("three", "four"),
    ("regular", "parallel"),
    ("regular", "top jamb"),
    ("wood", "steel"),
    ("steel", "aluminium"),
    ("single", "several"),
    ("butt", "both ways"),
    ("plain arm", "stop arm"),
    ("stop arm", "heavy arm"),
    ("opens first", "opens second"),
    ("loose hinges", "worn hinges"),
    ("inside", "opens second"),
    ("note", "nothing"),
]


@pytest.mark.parametrize(("one", "other"), TAKEN)
def test_these_are_taken_for_each_other(one: str, other: str) -> None:
    assert alike(one, other)
    assert alike(other, one)


@pytest.mark.parametrize(("one", "other"), TOLD_APART)
def test_these_are_told_apart(one: str, other: str) -> None:
    assert not alike(one, other)
    assert distance(one, other) == pytest.approx(distance(other, one))


@pytest.mark.parametrize(
    ("word", "heard"),
    [
        ("thirteen", "TRtEn"),
        ("know", "nO"),
        ("latch", "laC"),
        ("bridge", "brij"),
        ("plate", "plAt"),
        ("right", "rYt"),
        ("phone", "fOn"),
        ("12", "wuntU"),
        ("I don’t know", "YdOntnO"),
    ],
)
def test_letters_become_sounds(word: str, heard: str) -> None:
    assert sounds(word) == heard


def test_no_two_commands_sound_alike() -> None:
    words = {command.word: command.name for command in COMMANDS}
    assert [pair for pair in combinations(words, 2) if alike(*pair)] == []


def test_what_sounds_like_nothing_is_like_nothing() -> None:
    assert sounds("?") == ""
    assert distance("?", "yes") == 1.0
    assert not alike("?", "back")


def test_the_limit_is_a_share_of_the_sounds() -> None:
    assert 0 < LIMIT < 1
    assert distance("parallel arm", "parallel arm") == 0


def test_an_answer_that_sounds_like_a_command_is_told(tmp_path: Path) -> None:
    path = tmp_path / "shop.yaml"
    path.write_text(
        "facts:\n  edge: {choice: {back: The back, front: The front}, ask: Which edge?}\n"
        "  face: {choice: {rear: The rear, front: The front}, ask: Which face?}\n"
    )
    assert check(path).findings == []
    path.write_text(path.read_text().replace("The back", "{label: The back, say: back}"))
    (finding,) = check(path).findings
    assert finding.code == "sounds-alike"
    assert "the command “back”" in finding.message


def test_listening_needs_nothing_installed() -> None:
    program = (
        "import sys, guide.words.sounds\n"
        "own = {name.partition('.')[0] for name in sys.modules} - set(sys.stdlib_module_names)\n"
        "print(sorted(own - {'__main__'}))"
    )
    done = subprocess.run(
        [sys.executable, "-S", "-c", program],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).resolve().parents[2],
    )
    assert done.stdout.strip() == "['guide']"
