"""Templates, invisible characters and near spellings, as messages about a trainer's file use them."""

import pytest

from guide.text import (
    LONGEST_QUOTE,
    LONGEST_WORD,
    all_unseen,
    either,
    fill,
    made_seen,
    meant,
    names_in,
    nearest,
    printable,
    short,
    stray_brace,
    unknown,
    unseen,
)

HANDS = ("LH", "RH", "LHR", "RHR")
MOUNTS = ("regular", "parallel", "top-jamb")


@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("paralel", MOUNTS, "parallel"),
        ("Regular", MOUNTS, "regular"),
        ("lhrr", HANDS, "LHR"),
        ("STRIKE", MOUNTS, ""),
        ("", MOUNTS, ""),
        ("top-jamb", (), ""),
        ("regular" * LONGEST_WORD, MOUNTS, ""),
    ],
)
def test_the_nearest_known_word_in_any_letter_case(
    word: str, known: tuple[str, ...], near: str
) -> None:
    assert nearest(word, known) == near


def test_of_two_words_that_differ_in_case_only_the_first_is_named() -> None:
    assert nearest("lh", ("LH", "lh")) == "LH"


def test_a_message_names_the_nearest_word_or_what_else_to_do() -> None:
    assert meant("paralel", MOUNTS, "see the list") == "did you mean “parallel”?"
    assert meant("strike", MOUNTS, "see the list") == "see the list"
    assert (
        unknown("a mount", "paralel", MOUNTS) == "“paralel” is not a mount; did you mean parallel?"
    )
    assert (
        unknown("a mount", "strike", MOUNTS)
        == "“strike” is not a mount; known: regular, parallel or top-jamb."
    )


@pytest.mark.parametrize(
    ("words", "choice"),
    [
        ((), ""),
        (("left",), "left"),
        (("left", "right"), "left or right"),
        (HANDS, "LH, RH, LHR or RHR"),
    ],
)
def test_words_as_a_choice(words: tuple[str, ...], choice: str) -> None:
    assert either(words) == choice


def test_a_long_text_is_quoted_by_its_beginning() -> None:
    fits = "x" * LONGEST_QUOTE
    assert short(fits) == fits
    assert short(fits + "y") == fits + "…"


@pytest.mark.parametrize(
    ("text", "names", "shown", "wrong"),
    [
        ("{width} from the pin", ["width"], "35 7/8 in from the pin", ""),
        ("{{width}} is a brace", [], "{width} is a brace", ""),
        ("a lone } brace", [], "a lone } brace", "a lone “}”; write “}}” for a brace"),
        (
            "{Width}",
            ["Width"],
            "35 7/8 in",
            "“{Width}”, which is not a fact's name; write “{{” for a brace",
        ),
    ],
)
def test_templates(text: str, names: list[str], shown: str, wrong: str) -> None:
    assert names_in(text) == names
    assert fill(text, lambda _: "35 7/8 in") == shown
    assert stray_brace(text) == wrong


def test_invisible_characters_are_found_and_replaced_one_for_one() -> None:
    """U+202E turns the reading direction, U+200B has no width (Unicode, general categories Cf and Cc)."""
    hidden = "cut\u202e here\u200b now\x07"
    found = unseen(hidden)
    assert found is not None
    assert found.start() == 3
    assert [match.group() for match in all_unseen(hidden)] == ["\u202e", "\u200b", "\x07"]
    assert made_seen(hidden) == "cut� here� now�"
    assert unseen("tab\t and line\n end, 35 7/8″") is None


def test_a_printable_line_has_no_control_characters() -> None:
    assert printable("door\x1b[2J\n3") == "door�[2J�3"
