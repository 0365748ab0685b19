"""An invented paper, typed as it is printed by somebody who has only the paper: every number, and what a slip does."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, Protocol

import pytest

from guide.measures import parse
from guide.plain.sheet_dialogue import Check, Ended, SheetDialogue
from guide.plain.sheet_draft import Draft
from guide.plain.sheet_paper import Answers, answers_of
from guide.trade.answer import Answer, NoAnswer
from guide.trade.registry import find, read_inputs, run
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check import check_sheet
from guide.trade.sheet_check.finding import SheetFinding
from guide.trade.sheet_check.skipped import skipped_checks
from tests.plain.larkhill import LINES, PAPER


class Typed:
    """The sheet that these lines give, typed on from what the draft has."""

    def __init__(self, draft: Draft, lines: Sequence[str], check: Check = check_sheet) -> None:
        self.shown: list[str] = []
        self.before: list[Answers] = []
        """The answers there were when each line was typed."""
        self._lines: Iterator[str] = iter(lines)
        self.draft = draft
        self.data, self.findings = SheetDialogue(
            draft, self._typed, self.shown.append, check
        ).whole()
        assert next(self._lines, None) is None, "lines were left over"
        self.sheet = Sheet.from_json(self.data)

    def _typed(self) -> str | None:
        self.before.append(dict(self.draft.answers))
        return next(self._lines, None)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.shown).split())


@pytest.fixture(scope="module")
def larkhill(tmp_path_factory: pytest.TempPathFactory) -> Typed:
    return Typed(begun(tmp_path_factory.mktemp("paper")), LINES)


def begun(folder: Path) -> Draft:
    """The name of the sheet is on the command line."""
    draft = Draft.of(folder / "larkhill.yaml.draft")
    draft.answers["sheet",] = "larkhill"
    return draft


class Otherwise(Protocol):
    """Types the paper with other lines."""

    def __call__(self, lines: Sequence[str], check: Check = check_sheet) -> Typed: ...


@pytest.fixture
def typed(larkhill: Typed, tmp_path: Path) -> Otherwise:
    """Types the paper from the first line that is another; what comes before is answered as it was."""

    def otherwise(lines: Sequence[str], check: Check = check_sheet) -> Typed:
        at = next(i for i, (new, old) in enumerate(zip(lines, LINES, strict=False)) if new != old)
        draft = begun(tmp_path)
        draft.answers.update(larkhill.before[at])
        return Typed(draft, lines[at:], check)

    return otherwise


def instead(old: Sequence[str], new: Sequence[str], *, nth: int = 0) -> list[str]:
    """The lines with some of them typed otherwise."""
    places = [at for at in range(len(LINES)) if LINES[at : at + len(old)] == list(old)]
    at = places[nth]
    return [*LINES[:at], *new, *LINES[at + len(old) :]]


def test_every_number_of_the_paper_is_on_the_sheet(larkhill: Typed) -> None:
    data = larkhill.data
    body = data["body"]
    assert [
        body[key] for key in ("pinion_out", "valve_end", "other_end", "projects", "height")
    ] == [*("1 1/8 in", "5 3/4 in", "3 1/2 in", "2 1/4 in", "2 3/8 in")]
    assert places(body["holes"]) == [
        ("5 1/8 in", "-3/4 in"),
        ("5 1/8 in", "3/4 in"),
        ("-2 7/8 in", "-3/4 in"),
        ("-2 7/8 in", "3/4 in"),
    ]
    assert [tuple(one.values()) for one in body["packed"]] == [
        ("machine", "4", "1/4-20", "1 in"),
        ("wood", "4", "No. 14", "1 1/2 in"),
        ("through-bolt", "1/4-20", "2 in", "3/8 in"),
    ]
    assert places(data["shoe"]["holes"]) == [("-1 1/4 in", "0 in"), ("1 1/4 in", "0 in")]
    regular, parallel = data["mounts"]
    assert [tuple(row.values()) for row in regular["ranges"]] == [
        ("100 deg", "7 1/2 in", "1 1/2 in", "12 7/8 in", "3/4 in", "8 1/8 in"),
        ("140 deg", "6 3/4 in", "1 1/2 in", "11 1/2 in", "3/4 in", "8 5/8 in"),
    ]
    assert [tuple(row.values()) for row in parallel["ranges"]] == [
        ("100 deg", "9 1/2 in", "2 in", "9 1/2 in", "3 1/4 in", "9 3/4 in"),
        ("140 deg", "8 in", "2 in", "8 in", "3 1/4 in", "9 3/4 in"),
    ]
    assert regular["arm"] == {
        "main": "9 1/2 in",
        "forearm": "8 in to 12 1/4 in",
        "rests": "forearm square to the frame",
    }
    assert parallel["arm"]["preset_turn"] == "45 deg"
    assert [(one["size"], one["turns"]) for one in data["spring_settings"]] == [
        ("2", "-4"),
        ("3", "0"),
        ("4", "4"),
        ("5", "8"),
    ]
    assert [one["max_width"] for one in data["chart"]] == [
        f"{width} in" for width in (33, 37, 43, 49, 29, 33, 37, 43)
    ]
    (plate,) = data["accessories"]
    assert (plate["needed_below"], plate["needed_with_glass"]) == ("3 1/2 in", "yes")
    assert (plate["shift_down"], plate["thickness"]) == ("3/4 in", "1/4 in")
    assert places(plate["holes"]) == [
        ("4 1/4 in", "-1 3/4 in"),
        ("4 1/4 in", "-7/8 in"),
        ("-2 in", "-1 3/4 in"),
        ("-2 in", "-7/8 in"),
    ]
    assert "3 1/2 or glass" in PAPER
    assert larkhill.findings == ()
    assert "!" not in larkhill.text


def places(holes: list[dict[str, Any]]) -> list[tuple[str, str]]:
    return [(one["along"], one["down"]) for one in holes]


def answer(sheet: Sheet, name: str, **texts: str) -> Answer:
    given = {"sheet": "larkhill", "mount": "regular", "hand": "LH", "hinge": "butt", **texts}
    return run(name, read_inputs(find(name), given, open_sheet=lambda _: sheet))


@pytest.mark.parametrize(
    ("rail", "on_it"),
    [
        *(
            ("2 in", True),
            ("2 1/2 in", True),
            ("2 5/8 in", True),
            ("2 3/4 in", True),
            ("3 in", True),
        ),
        *(("3 1/4 in", True), ("3 3/8 in", True), ("3 1/2 in", False), ("4 in", False)),
    ],
)
def test_the_plate_goes_on_below_its_limit(larkhill: Typed, rail: str, on_it: bool) -> None:
    found: Any = answer(larkhill.sheet, "setting-out", opening="100 deg", top_rail=rail).value
    assert found["body_across"] == parse("2 1/4 in" if on_it else "1 1/2 in")
    assert found["body_accessory"] == ("drop-plate" if on_it else "none-needed")


def test_glass_behind_the_body_wants_the_plate_too(larkhill: Typed) -> None:
    """The body reaches 1 1/2 + 1 3/16 = 2 11/16 in down from the top of the leaf."""
    found: Any = answer(larkhill.sheet, "setting-out", opening="100 deg", glass="3 1/4 in").value
    assert found["plate"] == "goes-on"


def test_without_the_rail_no_hole_is_given(larkhill: Typed) -> None:
    found: Any = answer(larkhill.sheet, "setting-out", opening="100 deg").value
    assert (found["refusal"], found["to_ask"]) == ("needs-plate-known", "top_rail")
    assert found["body_along"] is None
    with pytest.raises(NoAnswer, match="Measure the top rail"):
        answer(larkhill.sheet, "holes", range="100 deg")


def test_a_sentence_without_a_number_asks_the_fitter_at_each_door(typed: Otherwise) -> None:
    paper = typed([*instead(["3 1/2", "yes", "", "3/4 down"], ["", "", "", "3/4 down"]), ""])
    assert "no rail is given as a number" in paper.text
    assert any("the fitter is asked at each door" in one for one in skipped_checks(paper.sheet))
    for rail in ("3 in", "6 in"):
        found: Any = answer(paper.sheet, "setting-out", opening="100 deg", top_rail=rail).value
        assert (found["refusal"], found["to_ask"]) == ("needs-plate-known", "room")
        assert found["body_along"] is None
    for room, across in (("fits", "1 1/2 in"), ("plate", "2 1/4 in")):
        said: Any = answer(paper.sheet, "setting-out", opening="100 deg", room=room).value
        assert said["body_across"] == parse(across)


def test_how_far_out_the_shoe_is_was_worked_out_and_is_said(larkhill: Typed) -> None:
    """Root of 9 1/2 squared less 5 3/8 squared is 7.83; with 1 1/8 and less 8 1/8 it is 0.83. The other row: 0.73."""
    (told,) = skipped_checks(larkhill.sheet)
    assert "worked out from the rows as 25/32 in" in told


def test_both_end_b_holes_on_the_wrong_side_are_named_and_not_the_end(typed: Otherwise) -> None:
    lines = instead(["2 7/8 toward B"], ["2 7/8 toward A"])
    lines[lines.index("2 7/8") + 1] = "1"
    paper = typed([*lines, "2 7/8 toward B", "2 7/8 toward B"])
    assert "B upper (2 7/8 in) and B lower (2 7/8 in) are probably on the other side" in paper.text
    assert "B lower (2 7/8 in) is probably on the other side" in paper.text
    assert paper.findings == ()


@pytest.mark.parametrize("side", ["toward A", "the valves"])
def test_one_end_b_hole_on_the_wrong_side_is_the_one_that_is_named(
    typed: Otherwise, side: str
) -> None:
    paper = typed([*instead(["2 7/8 toward B"], [f"2 7/8 {side}"]), "2 7/8 toward B"])
    assert "body's B upper (2 7/8 in) is probably on the other side" in paper.text


def left(typed: Otherwise, lines: Sequence[str]) -> tuple[SheetFinding, ...]:
    """What is found with these lines, and left so."""
    found: list[tuple[SheetFinding, ...]] = []

    def kept(sheet: Sheet) -> tuple[SheetFinding, ...]:
        found.append(check_sheet(sheet))
        return ()

    typed(lines, kept)
    return found[-1]


@pytest.mark.parametrize(
    ("old", "new", "code", "says"),
    [
        ("above", "below", "hole-side", "above or below the line"),
        ("3/4 down", "1 3/4 down", "plate-low", "how far it brings the body down, 1 3/4 in"),
        ("3 1/2", "2 1/2", "plate-limit", ""),
        ("1 3/4 above", "3 3/4 above", "plate-off-leaf", "past the top of the leaf"),
    ],
)
def test_a_slip_in_the_plate_is_found(
    typed: Otherwise, old: str, new: str, code: str, says: str
) -> None:
    at = LINES.index("drop plate 30-D")
    lines = [*LINES[:at], *(one.replace(old, new) for one in LINES[at:])]
    findings = left(typed, lines)
    assert code in [one.code for one in findings if not one.advice]
    assert says in " ".join(one.message for one in findings)


def test_a_plate_turned_end_for_end_is_found(typed: Otherwise) -> None:
    at = LINES.index("drop plate 30-D")
    over = {"4 1/4 toward A": "4 1/4 toward B", "2 toward B": "2 toward A"}
    lines = [*LINES[:at], *(over.get(one, one) for one in LINES[at:])]
    (found,) = left(typed, lines)
    assert found.code == "hole-side"
    assert "A upper (-4 1/4 in)" in found.message


def test_a_body_line_three_down_on_the_parallel_arm_is_offered_again(typed: Otherwise) -> None:
    lines = instead(["2 below", "9 1/2", "3 1/4 out"], ["3", "9 1/2", "3 1/4 out"])
    at = lines.index("8", lines.index("3 1/4 out"))
    lines[at + 1] = "3"
    codes = [(one.code, one.advice) for one in left(typed, lines)]
    assert codes.count(("body-datum", True)) == 2


@pytest.mark.parametrize("height", ["1 1/2 above", "-1 1/2"])
def test_a_height_on_the_side_where_it_cannot_be_is_asked_again(
    typed: Otherwise, height: str
) -> None:
    paper = typed(instead(["1 1/2 below"], [height, "1 1/2 below"]))
    assert "Here it can only be below the top of the leaf; type the number alone." in paper.text
    assert paper.findings == ()


def test_what_was_offered_for_another_line_of_a_table_is_offered_no_more(typed: Otherwise) -> None:
    """5 typed for the size, and its turns; both taken back, and 4 typed."""
    lines = instead(["4", "+4", "5", "+8"], ["5", "+5", "back", "back", "4", "?", "+4", "5", "+8"])
    assert "Enter for 5)" not in typed(lines).text.split("Enter for 5)", 2)[-1]


def test_one_number_of_a_finished_sheet_is_corrected(tmp_path: Path, larkhill: Typed) -> None:
    """The regular arm's L to 100 deg, 7 1/2, by its number in the list; all else is kept."""
    answers = answers_of(larkhill.data)
    number = list(answers).index(("mounts", 0, "ranges", 0, "body_along")) + 1
    draft = Draft(tmp_path / "larkhill.yaml.draft")
    draft.offer(answers)
    draft.answers["sheet",] = draft.before.pop(("sheet",))
    edited = Typed(draft, ["list all", f"change {number}", "7 9/16", "keep"])
    assert f"{number} Mount 1 of 2, row 1 of 2, body along: 7 1/2 in" in edited.text
    assert edited.data["mounts"][0]["ranges"][0]["body_along"] == "7 9/16 in"
    same = {**edited.data, "mounts": larkhill.data["mounts"]}
    assert same == larkhill.data


def test_a_number_that_holes_cannot_do_without_says_what_to_do(typed: Otherwise) -> None:
    paper = typed(instead(["2 3/8"], ["", "2 3/8"]))
    assert "If the paper does not have it, measure it on the part itself, in the box." in paper.text


def test_the_lines_end_and_the_draft_is_kept(tmp_path: Path) -> None:
    with pytest.raises(Ended):
        Typed(begun(tmp_path), LINES[:30])
    assert len(Draft.of(tmp_path / "larkhill.yaml.draft").answers) > 25
