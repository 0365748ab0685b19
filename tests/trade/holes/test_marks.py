"""The marks as read back before punching: what is off, which way, and the classic mistakes by name."""

import re
from collections.abc import Mapping
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide.trade.answer import BadInput, NoAnswer
from tests.trade.shipped_sheets import SHEETS, answer, inches, raw

SIXTEENTH = Fraction(1, 16)
HAIR = Fraction(1, 1000)
"""More than readings typed to a thousandth are rounded by [in]."""
LINES = ("body_along", "body_datum", "shoe_along", "shoe_datum")

EDGE = {"swing-clear": Fraction(35, 16)}
"""From the pin centre to the hinge edge [in], where it is not a butt's sixteenth."""

EVERY_RANGE = [
    (name, mount["mount"], row["up_to"])
    for name in SHEETS
    for mount in raw(name)["mounts"]
    for row in mount["ranges"]
]


USUAL = {"sheet": "generic-a", "mount": "regular", "hinge": "butt", "range": "130 deg"}
"""A leaf on butt hinges opening to 130 degrees."""


def check(**texts: str) -> tuple[object, str]:
    """Verdict and sentences for the usual leaf, unless told otherwise; what is not read is on its line."""
    given = {**USUAL, **texts}
    found = answer("marks", **{**on_their_lines(given), **given})
    return found.value, " ".join((*found.working, *found.cautions))


def on_their_lines(given: dict[str, str]) -> dict[str, str]:
    """Readings where the marks should be, of an opening whose numbers are the sheet's or typed."""
    lines = sheet_lines(given["sheet"], given["mount"], given["range"])
    edge = EDGE.get(given["hinge"], Fraction(1, 16)) if given.get("along_from") == "edge" else 0
    placed = {key: one - edge if "along" in key else one for key, one in lines.items()}
    placed |= {key: inches(given[key]) for key in LINES if key in given}
    return read_back(placed)


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
    assert "move" not in told.lower()


@pytest.mark.parametrize(
    ("key", "read", "told"),
    # Regular arm to 130 degrees: body 7 in and 1 1/2 in down, shoe 11 7/8 in and 3/4 in up.
    [
        (
            "body_along",
            "7 3/16 in",
            "Body along: read 7 3/16 in; move it 3/16 in toward the hinge.",
        ),
        ("body_along", "6 7/8 in", "read 6 7/8 in; move it 1/8 in toward the latch."),
        ("body_datum", "1 5/8 in", "read 1 5/8 in; move it 1/8 in up."),
        ("body_datum", "1 1/4 in", "read 1 1/4 in; move it 1/4 in down."),
        ("shoe_datum", "1 in", "read 1 in; move it 1/4 in down."),
        ("shoe_datum", "1/2 in", "read 1/2 in; move it 1/4 in up."),
    ],
)
def test_a_correction_is_a_move(key: str, read: str, told: str) -> None:
    verdict, sentences = check(**{f"{key}_read": read})
    assert verdict == "off"
    assert told in sentences
    assert "Move the marks and read all four back before anything is punched." in sentences


@pytest.mark.parametrize("read", ["6 1/2 in", "7 1/16 in", "12 in", "29 1/8 in"])
def test_no_sentence_names_the_place_that_is_wanted(read: str) -> None:
    """It is measured once more after the move, and would be read off the screen. Wanted: 7 in."""
    _, told = check(body_along_read=read, width="36 in")
    assert not re.search(r"(?<!\d )(?<!/)\b7 in\b", told), told


def test_a_parallel_arms_shoe_is_told_out_from_the_leaf() -> None:
    verdict, told = check(mount="parallel", shoe_datum_read="3 1/2 in")
    assert verdict == "off"
    assert "Shoe out from the leaf: read 3 1/2 in; move it 1/4 in nearer to the leaf." in told
    assert "move it 1/4 in out from the leaf." in check(mount="parallel", shoe_datum_read="3 in")[1]
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
    assert "Shoe along: read 12 1/16 in; move it 3/16 in toward the hinge." in told


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
    read = {f"{key}_read": paper[key] for key in LINES}
    assert answer("marks", **paper, **read).value == "right"
    assert answer("marks", **paper, **{**read, "body_along_read": "7 5/8 in"}).value == "whole-inch"
    del paper["datum"], paper["shoe_along"]
    with pytest.raises(BadInput, match="still missing shoe_along=, datum="):
        answer("marks", **paper, **read)


def test_a_number_typed_from_the_paper_wins_over_the_sheets() -> None:
    assert check(body_along="7 1/4 in", body_along_read="7 1/4 in")[0] == "right"


def test_marks_may_be_read_from_the_other_datum() -> None:
    """2 3/16 in from pin to edge: the body's 7 in from the pin are 4 13/16 in from the edge."""
    assert check(hinge="swing-clear", along_from="edge", body_along_read="4 13/16 in")[0] == "right"


def test_from_the_push_side_the_tape_is_hooked_on_the_edge_that_is_seen() -> None:
    """Paper from the pin, 6 5/8 in; on a swing-clear hinge the edge is 2 3/16 in from the pin: 4 7/16 in."""
    paper = {"mount": "parallel", "hinge": "swing-clear", "along_from": "pin", "datum": "top"}
    paper |= dict(zip(LINES, ("6 5/8 in", "2 3/8 in", "6 5/8 in", "3 in"), strict=True))
    read = dict(zip(LINES, ("4 7/16 in", "2 3/8 in", "4 7/16 in", "3 in"), strict=True))
    seen = {f"{key}_read": text for key, text in read.items()}
    found = answer("marks", **paper, **seen, read_from="edge")
    assert found.value == "right"
    assert found.working[:2] == (
        "Along from the hinge edge, up and down from the top of the leaf.",
        "The numbers are from the hinge pin centre; the hinge edge is 2 3/16 in nearer to the latch: allowed for.",
    )
    assert answer("marks", **paper, **seen).value == "wrong-edge"


def test_a_sheet_from_the_pin_is_read_from_the_edge_too() -> None:
    at_edge = {"body_along_read": "4 13/16 in", "shoe_along_read": "9 11/16 in"}
    assert check(hinge="swing-clear", read_from="edge", **at_edge)[0] == "right"


@pytest.mark.parametrize("missing", [(one,) for one in LINES] + [LINES[1:], LINES])
def test_unless_all_four_are_read_back_there_is_no_verdict(missing: tuple[str, ...]) -> None:
    given = {**USUAL, **on_their_lines(USUAL)}
    for key in missing:
        del given[f"{key}_read"]
    for name in ("marks", "mark-moves"):
        with pytest.raises(NoAnswer) as refusal:
            answer(name, **given)
        assert str(refusal.value) == (
            "All four must be read back before anything is punched: still missing "
            + ", ".join(f"{key}_read=" for key in missing)
            + "."
        )


def moves(**texts: str) -> Mapping[str, object]:
    """The answer of `mark-moves` for the usual leaf."""
    given = {**USUAL, **texts}
    found = answer("mark-moves", **{**on_their_lines(given), **given}).value
    assert isinstance(found, Mapping)
    return found


def test_the_moves_are_words_for_a_step() -> None:
    found = moves(body_along_read="7 1/4 in", body_datum_read="1 3/4 in", shoe_datum_read="1/2 in")
    assert found["body"] == "move it 1/4 in toward the hinge and 1/4 in up"
    assert found["shoe"] == "move it 1/4 in up"
    assert moves() == {"body": "leave it", "shoe": "leave it"}


def test_the_headline_says_what_to_do() -> None:
    off = {**on_their_lines(USUAL), "body_along_read": "6 1/2 in", "shoe_datum_read": "1 in"}
    assert answer("marks", **USUAL, **off).headline == (
        "off: body, move it 1/2 in toward the latch; shoe, move it 1/4 in down"
    )
    assert answer("marks", **USUAL, **on_their_lines(USUAL)).headline == "right"


MORE = {"toward the latch", "out from the leaf"}
"""Ways after which a tape from hinge or leaf reads more; up and down depend on what is marked."""
DOWN_THE_LEAF = {"regular": ("body",), "top-jamb": ("shoe",), "parallel": ("body",)}
"""What is marked on the leaf, where down from the datum reads more; on a frame up does."""


@given(st.sampled_from(EVERY_RANGE), st.lists(st.integers(-640, 640), min_size=4, max_size=4))
def test_what_is_moved_as_told_is_right(row: tuple[str, str, str], errors: list[int]) -> None:
    """Whatever was read, up to 10 in off: moved as told and measured again, all four are on their lines."""
    name, mount, opening = row
    lines = sheet_lines(name, mount, opening)
    read = {k: one + Fraction(by, 64) for (k, one), by in zip(lines.items(), errors, strict=True)}
    assume(all(one > 0 for one in read.values()))
    given = {"sheet": name, "mount": mount, "range": opening}
    told = moves(**given, **read_back(read))
    for of in ("body", "shoe"):
        for by, way in re.findall(r"(\d[\d /.]* (?:in|mm)) ([a-z ]+?)(?= and |$)", str(told[of])):
            key = f"{of}_{'along' if 'toward' in way else 'datum'}"
            adds = way in MORE or way == ("down" if of in DOWN_THE_LEAF[mount] else "up")
            read[key] += inches(by) if adds else -inches(by)
    assert all(abs(read[key] - lines[key]) <= SIXTEENTH + HAIR for key in LINES)
    assert check(**given, **read_back(read), tolerance="1/8 in")[0] == "right"


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
    if abs(error) < SIXTEENTH - HAIR:
        assert verdict == "right"
    elif abs(error) > SIXTEENTH + HAIR:
        assert verdict != "right"
        assert verdict == "off" or explained(name, mount, opening, key, read)
