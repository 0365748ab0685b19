"""The marks as read back before punching: what is off, which way, and the classic mistakes by name."""

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide.trade.answer import BadInput
from tests.trade.shipped_sheets import SHEETS, answer, inches, raw

SIXTEENTH = Fraction(1, 16)
LINES = ("body_along", "body_datum", "shoe_along", "shoe_datum")

EVERY_RANGE = [
    (name, mount["mount"], row["up_to"])
    for name in SHEETS
    for mount in raw(name)["mounts"]
    for row in mount["ranges"]
]


def check(**texts: str) -> tuple[object, str]:
    """Verdict and sentences for a leaf on butt hinges opening to 130 degrees, unless told otherwise."""
    usual = {"sheet": "generic-a", "mount": "regular", "hinge": "butt", "range": "130 deg"}
    found = answer("marks", **{**usual, **texts})
    return found.value, " ".join((*found.working, *found.cautions))


def sheet_lines(name: str, mount: str, opening: str) -> dict[str, Fraction]:
    """The four numbers of one row, from the bare text of the file [in]."""
    on = next(one for one in raw(name)["mounts"] if one["mount"] == mount)
    row = next(one for one in on["ranges"] if one["up_to"] == opening)
    return {key: inches(row[key]) for key in LINES}


def read_back(lines: dict[str, Fraction]) -> dict[str, str]:
    """Typed to a thousandth of an inch, which is far within any tolerance here."""
    return {f"{key}_read": f"{float(value):.3f} in" for key, value in lines.items()}


@pytest.mark.parametrize(("name", "mount", "opening"), EVERY_RANGE)
def test_marks_on_their_lines_are_right(name: str, mount: str, opening: str) -> None:
    read = read_back(sheet_lines(name, mount, opening))
    verdict, told = check(sheet=name, mount=mount, range=opening, **read)
    assert verdict == "right"
    assert "Not read back" not in told


@pytest.mark.parametrize(
    ("key", "read", "told"),
    # Regular arm to 130 degrees: body 7 in and 1 1/2 in down, shoe 11 7/8 in and 3/4 in up.
    [
        (
            "body_along",
            "7 3/16 in",
            "Body along: read 7 3/16 in, should be 7 in: 3/16 in toward the latch.",
        ),
        ("body_along", "6 7/8 in", "should be 7 in: 1/8 in toward the hinge."),
        ("body_datum", "1 5/8 in", "should be 1 1/2 in: 1/8 in too low."),
        ("body_datum", "1 1/4 in", "should be 1 1/2 in: 1/4 in too high."),
        ("shoe_datum", "1 in", "should be 3/4 in: 1/4 in too high."),
        ("shoe_datum", "1/2 in", "should be 3/4 in: 1/4 in too low."),
    ],
)
def test_a_mark_that_is_off_is_told_by_how_much_and_which_way(
    key: str, read: str, told: str
) -> None:
    verdict, sentences = check(**{f"{key}_read": read})
    assert verdict == "off"
    assert told in sentences
    assert "Mark again and read back before anything is punched." in sentences


def test_a_parallel_arms_shoe_is_told_out_from_the_leaf() -> None:
    verdict, told = check(mount="parallel", shoe_datum_read="3 1/2 in")
    assert verdict == "off"
    assert "Shoe out from the leaf: read 3 1/2 in, should be 3 1/4 in: 1/4 in too far out" in told
    assert "A parallel arm is touchy" in told


def test_a_sixteenth_is_within_tolerance_and_a_tighter_one_can_be_asked_for() -> None:
    assert check(body_along_read="7 1/16 in")[0] == "right"
    assert check(body_along_read="7 1/16 in", tolerance="1/32 in")[0] == "off"


CLASSIC = [
    # what was done, verdict, its name in the sentence, the opening, what was read
    (
        "mirrored: 36 in leaf, 36 1/8 in from pin to pin's image, less 7 in and less 11 7/8 in",
        "other-hand",
        "laid out for the other hand, from the latch edge",
        {"width": "36 in"},
        {"body_along_read": "29 1/8 in", "shoe_along_read": "24 1/4 in"},
    ),
    (
        "from the edge of a swing-clear leaf, 2 3/16 in beyond the pin",
        "wrong-edge",
        "marked from the hinge edge: body along and shoe along",
        {"hinge": "swing-clear"},
        {"body_along_read": "9 3/16 in", "shoe_along_read": "14 1/16 in"},
    ),
    (
        "right on the door, the tape hooked on the edge of a swing-clear leaf",
        "wrong-edge",
        "read from the hinge edge",
        {"hinge": "swing-clear"},
        {"body_along_read": "4 13/16 in", "shoe_along_read": "9 11/16 in"},
    ),
    (
        "from the edge on a continuous hinge, 5/32 in",
        "wrong-edge",
        "marked from the hinge edge",
        {"hinge": "continuous"},
        {"body_along_read": "7 5/32 in"},
    ),
    (
        "from the stop, 1/2 in below the top of the leaf: the body comes lower",
        "wrong-edge",
        "marked from the underside of the stop",
        {"overlap": "1/2 in"},
        {"body_datum_read": "2 in", "shoe_datum_read": "1/4 in"},
    ),
    (
        "the same with the overlap not known: leaf and frame agree on it",
        "wrong-edge",
        "marked from the underside of the stop",
        {},
        {"body_datum_read": "2 in", "shoe_datum_read": "1/4 in"},
    ),
    (
        "7 cm for 7 in",
        "unit-mixed",
        "centimetres were marked for inches",
        {},
        {"body_along_read": "7 cm", "shoe_along_read": "11.9 cm"},
    ),
    (
        "176 mm marked as 17.6 in",
        "unit-mixed",
        "inches were marked for centimetres",
        {"sheet": "generic-b"},
        {"body_along_read": "17.6 in"},
    ),
    (
        "176 mm marked as 17.6 mm",
        "unit-mixed",
        "millimetres were marked for centimetres",
        {"sheet": "generic-b"},
        {"body_along_read": "17.6 mm"},
    ),
    (
        "the tape held at its 1 in mark",
        "whole-inch",
        "a whole inch was forgotten: body along and shoe along",
        {},
        {"body_along_read": "6 in", "shoe_along_read": "10 7/8 in"},
    ),
    ("an inch too far", "whole-inch", "a whole inch", {}, {"body_datum_read": "2 1/2 in"}),
    (
        "a metric tape held at its 10 cm mark",
        "whole-inch",
        "a whole 10 cm",
        {"sheet": "generic-b"},
        {"body_along_read": "76 mm"},
    ),
    (
        "the shoe's row used for the body and the body's for the shoe",
        "rows-swapped",
        "the rows of body and shoe changed places",
        {},
        {"body_along_read": "11 7/8 in", "shoe_along_read": "7 in"},
    ),
    (
        "along and down exchanged",
        "rows-swapped",
        "the two numbers of a row changed places",
        {},
        {"body_along_read": "1 1/2 in", "body_datum_read": "7 in"},
    ),
    (
        "the row for opening to 100 degrees",
        "another-row",
        "taken from the row for opening to 100 deg",
        {},
        {"body_along_read": "7 1/2 in", "shoe_along_read": "13 in"},
    ),
]


@pytest.mark.parametrize(
    ("verdict", "says", "opening", "read"),
    [row[1:] for row in CLASSIC],
    ids=[row[0] for row in CLASSIC],
)
def test_a_classic_mistake_is_named(
    verdict: str, says: str, opening: dict[str, str], read: dict[str, str]
) -> None:
    found, told = check(**opening, **read)
    assert found == verdict
    assert says in told


def test_pin_and_edge_of_a_butt_are_within_tolerance_of_each_other() -> None:
    """1/16 in apart on a butt (common practice): as near as anyone marks, so nothing is named."""
    assert check(body_along_read="6 15/16 in", shoe_along_read="11 13/16 in")[0] == "right"


def test_a_mistake_in_one_mark_does_not_hide_a_slip_in_another() -> None:
    verdict, told = check(body_along_read="8 in", shoe_along_read="12 1/16 in")
    assert verdict == "whole-inch"
    assert "a whole inch was forgotten: body along." in told
    assert "Shoe along: read 12 1/16 in, should be 11 7/8 in: 3/16 in toward the latch." in told


def test_two_mistakes_that_explain_as_much_are_both_told() -> None:
    """Body at 6 in and shoe at 7 in: a body read at 7 in has the shoe's number, or is an inch out."""
    verdict, told = check(body_along="6 in", shoe_along="7 in", body_along_read="7 in")
    assert verdict == "rows-swapped"
    assert "It looks as if the rows of body and shoe changed places: body along." in told
    assert "Or else as if the tape was started at another mark" in told


def test_no_sheet_only_the_makers_paper() -> None:
    paper = {
        "mount": "parallel",
        "hinge": "butt",
        "along_from": "edge",
        "datum": "top",
        "body_along": "6 5/8 in",
        "body_datum": "2 3/8 in",
        "shoe_along": "6 5/8 in",
        "shoe_datum": "3 in",
    }
    assert answer("marks", **paper, body_along_read="6 5/8 in").value == "right"
    assert answer("marks", **paper, body_along_read="7 5/8 in").value == "whole-inch"
    del paper["datum"], paper["shoe_along"]
    with pytest.raises(BadInput, match="still missing shoe_along=, datum="):
        answer("marks", **paper, body_along_read="6 5/8 in")


def test_a_number_typed_from_the_paper_wins_over_the_sheets() -> None:
    assert check(body_along="7 1/4 in", body_along_read="7 1/4 in")[0] == "right"


def test_marks_may_be_read_from_the_other_datum() -> None:
    """2 3/16 in from pin to edge: the body's 7 in from the pin are 4 13/16 in from the edge."""
    assert check(hinge="swing-clear", along_from="edge", body_along_read="4 13/16 in")[0] == "right"


def test_nothing_read_back_is_refused() -> None:
    with pytest.raises(BadInput, match="Read at least one mark back"):
        check()


def explained(name: str, mount: str, opening: str, key: str, read: Fraction) -> bool:
    """Whether some classic mistake would give that reading, worked out here from the bare numbers."""
    rows = [
        sheet_lines(name, mount, up_to)
        for one, on, up_to in EVERY_RANGE
        if (one, on) == (name, mount)
    ]
    lines = sheet_lines(name, mount, opening)
    wanted = lines[key]
    other = key.replace("body", "shoe") if "body" in key else key.replace("shoe", "body")
    twin = key.replace("along", "datum") if "along" in key else key.replace("datum", "along")
    centimetre = Fraction(100, 254)
    would_be = [row[key] for row in rows]
    would_be += [lines[other], lines[twin]]
    would_be += [wanted * factor for factor in (centimetre, 1 / centimetre, 10, Fraction(1, 10))]
    whole = 1 if raw(name)["units"] == "inch" else 10 * centimetre
    would_be += [wanted + whole, wanted - whole]
    return any(abs(one - read) <= SIXTEENTH for one in would_be)


@given(
    st.sampled_from(EVERY_RANGE),
    st.sampled_from(LINES),
    st.integers(-32, 32).map(lambda by: Fraction(by, 32)),
)
def test_a_small_error_is_not_called_a_classic_mistake_unless_it_reads_as_one(
    row: tuple[str, str, str], key: str, error: Fraction
) -> None:
    """One mark off by up to an inch on a butt hinge, where pin and edge are too near to be told apart."""
    name, mount, opening = row
    read = sheet_lines(name, mount, opening)[key] + error
    assume(read > 0)
    typed = {f"{key}_read": f"{float(read):.5f} in"}
    verdict, _ = check(sheet=name, mount=mount, range=opening, **typed)
    hair = Fraction(1, 10_000)
    if abs(error) < SIXTEENTH - hair:
        assert verdict == "right"
    elif abs(error) > SIXTEENTH + hair:
        assert verdict != "right"
        assert verdict == "off" or explained(name, mount, opening, key, read)
