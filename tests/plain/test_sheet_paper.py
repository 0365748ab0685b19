"""What is asked next, what an answer may be, and what does not go together."""

import pytest

from guide.plain.sheet_paper import (
    Answers,
    NotAnAnswer,
    Question,
    Wrong,
    answers_of,
    next_of,
    question_at,
)
from guide.trade.sheet.codec import Path
from guide.trade.sheet.sheet import Sheet
from tests.trade.shipped_sheets import SHEETS, raw, shipped

A, B = answers_of(raw("generic-a")), answers_of(raw("generic-b"))


@pytest.mark.parametrize(("answers", "name"), list(zip((A, B), SHEETS, strict=True)))
def test_a_shipped_sheet_is_copied_as_it_is(answers: Answers, name: str) -> None:
    data = next_of(answers)
    assert isinstance(data, dict)
    assert Sheet.from_json(data) == shipped(name)


def question(answers: Answers, *path: str | int) -> Question:
    found = question_at(answers, path)
    assert found is not None, path
    return found


ALONG = ("body", "holes", 3, "along")


@pytest.mark.parametrize(
    ("path", "typed", "text"),
    [
        (ALONG, "-4 3/4", "-4 3/4 in"),
        (ALONG, "- 4 3/4 in", "-4 3/4 in"),
        (ALONG, "120 mm", "120 mm"),
        (("mounts", 0, "arm", "forearm"), "8 to 12 1/4", "8 in to 12 1/4 in"),
        (("mounts", 0, "ranges", 0, "up_to"), "100", "100 deg"),
        (("mounts", 0, "datum"), "2", "top of the leaf"),
        (("mounts", 0, "datum"), "top of the leaf", "top of the leaf"),
        (("mounts", 0, "datum"), "underside of stop", "underside of the stop"),
        (("mounts", 0, "datum"), "top of door", "top of the leaf"),
        (("mounts", 1, "mount"), "top jamb", "top-jamb"),
        (("mounts", 0, "along_from"), "edge", "hinge edge"),
        (("body", "packed", 2, "into"), "frame", "frame face"),
        (("body", "packed", 1, "kind"), "wood screws", "wood"),
        (("units",), "inches", "inch"),
        (("units",), "mm", "metric"),
        (("body", "height"), "2 1/2 [64]", "2 1/2 in"),
        (("adjustable",), "Y", "yes"),
        (("sizes",), "1-6", "1 to 6"),
        (("mounts", 0, "arm", "forearm"), "8 in – 12 1/4 in", "8 in to 12 1/4 in"),
        (("spring_settings", 0, "turns"), "-2.5", "-2 1/2"),
        (("body", "packed"), "", ""),
        (("body", "packed"), "-", ""),
    ],
)
def test_an_answer_as_people_type_it(path: Path, typed: str, text: str) -> None:
    assert question(A, *path).read(typed) == text


def test_a_bare_number_is_in_the_units_of_the_paper() -> None:
    assert question(B, *ALONG).read("-70") == "-70 mm"


@pytest.mark.parametrize(
    ("path", "typed", "says"),
    [
        (ALONG, "4 9/8", "not less than one"),
        (ALONG, "12 deg", "length"),
        (ALONG, "", "The sheet needs this one"),
        (("body", "height"), "0", "must be more than nothing"),
        (("mounts", 0, "datum"), "3", "is not one of underside of the stop or top of the leaf"),
        (("mounts", 2, "mount"), "regular", "Here it is parallel; choose one of them"),
        (("mounts",), "0", "A sheet has 1 to 3 of them"),
        (("screws",), "9", "A sheet has 0 to 5 of them"),
        (("adjustable",), "perhaps", "write yes or no"),
        (("sizes",), "six", "write the sizes as “1 to 6”"),
    ],
)
def test_an_answer_that_is_none_says_what_to_type(path: Path, typed: str, says: str) -> None:
    with pytest.raises(NotAnAnswer, match=says):
        question(A, *path).read(typed)


def test_what_another_answer_decides_is_not_asked() -> None:
    for never in [
        ("accessories", 0, "carries"),
        ("accessories", 0, "into"),
        ("mounts", 2, "arm", "shoe_out"),
        ("body", "packed", 1, "hole"),
        ("spring_settings", 1, "size"),
    ]:
        assert never not in A
    assert ("accessories", 2, "into") in A, "a bracket may go to the soffit or to the frame's face"
    assert ("body", "packed", 4, "hole") in A
    assert ("body", "packed", 1, "into") not in A, (
        "the first length of a kind is for what the other is not for"
    )
    assert A["body", "packed", 2, "into"] == "frame face"
    assert ("accessories", 4, "holes") not in A, "a packer has none"
    fixed: Answers = {
        ("sheet",): "harbour",
        ("about",): "Invented.",
        ("units",): "inch",
        ("sizes",): "3",
        ("adjustable",): "no",
    }
    for part in ("body", "shoe"):
        fixed[part,] = "no"
    fixed |= {path: text for path, text in A.items() if path[0] == "mounts"}
    after = next_of(fixed)
    assert isinstance(after, Question)
    assert after.path == ("factory_size",)


def test_a_mount_or_a_screw_that_is_copied_is_not_offered_again() -> None:
    answers = {path: text for path, text in A.items() if path[:2] != ("mounts", 1)}
    second = next_of(answers)
    assert isinstance(second, Question)
    assert second.path == ("mounts", 1, "mount")
    assert second.options == ((2, "top-jamb"), (3, "parallel"))


@pytest.mark.parametrize(
    ("path", "text", "at", "says"),
    [
        (("adjustable",), "no", ("sizes",), "a fixed one has one"),
        (("factory_size",), "7", ("factory_size",), "outside its own 1 to 6"),
        (("spring_settings", 2, "turns"), "-6", ("spring_settings",), "must rise"),
        (("mounts", 0, "ranges", 1, "up_to"), "90 deg", ("mounts", 0), "must rise"),
        (("body", "holes", 1, "name"), "valve end upper", ("body",), "two holes named"),
    ],
)
def test_answers_that_contradict_each_other_are_found_where_they_are_given(
    path: Path, text: str, at: Path, says: str
) -> None:
    """They are found before anything further down the paper is asked."""
    upto = list(A)[: 1 + max(n for n, one in enumerate(A) if one[: len(at)] in (at, path))]
    wrong = next_of({one: A[one] for one in upto} | {path: text})
    assert isinstance(wrong, Wrong)
    assert wrong.path == at
    assert says in wrong.message


def test_the_place_is_told_by_part_and_number() -> None:
    assert question(A, *ALONG).place == "Body, hole 4 of 6"
    assert question(A, "mounts", 1, "ranges", 2, "up_to").place == "Mount 2 of 3, row 3 of 3"
