"""A sheet copied line by line: what is shown, what is kept, and how a slip is put right."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from guide.plain.sheet_dialogue import Check, Ended, SheetDialogue
from guide.plain.sheet_draft import BadDraft, Draft
from guide.plain.sheet_paper import answers_of
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check import check_sheet
from guide.trade.sheet_check.finding import SheetFinding
from tests.plain.paper_answers import small_paper, typed_for

SMALL = answers_of(small_paper())
SHEET = Sheet.from_json(small_paper())
LINES = typed_for(SMALL)
PLACES = list(SMALL)[1:]


class Paper:
    """A sheet that is copied with these lines."""

    def __init__(self, folder: Path, lines: list[str], check: Check = check_sheet) -> None:
        self.draft = Draft.of(folder / "generic-b.yaml.draft")
        self.draft.answers.setdefault(("sheet",), "generic-b")
        self.shown: list[str] = []
        self._lines: Iterator[str] = iter(lines)
        self.dialogue = SheetDialogue(self.draft, self._read, self.shown.append, check)

    def _read(self) -> str | None:
        return next(self._lines, None)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.shown).split())


def with_slip(place: tuple[str | int, ...], *typed: str) -> list[str]:
    """The lines of the sheet, with these in place of one answer."""
    at = PLACES.index(place)
    return [*LINES[:at], *typed, *LINES[at + 1 :]]


def test_a_whole_sheet_is_copied(tmp_path: Path) -> None:
    data, findings = Paper(tmp_path, LINES).dialogue.whole()
    assert Sheet.from_json(data) == SHEET
    assert findings == ()


def test_a_question_shows_its_part_its_unit_and_an_example(tmp_path: Path) -> None:
    paper = Paper(tmp_path, with_slip(("body", "holes", 0, "along"), "?", "130", "1"))
    paper.dialogue.whole()
    at = paper.shown.index("Body, hole 1 of 4")
    asked = paper.text[paper.text.index("Body, hole 1 of 4") :]
    assert "toward the valves or away from them [mm] (such as 70 away)" in asked
    assert "From the middle of the shaft that the arm sits on." in asked
    assert "130 mm: 1 toward the valves, or 2 away from the valves?" in asked
    assert paper.shown[at - 1] == ""
    assert max(map(len, paper.shown)) <= 80


def test_what_is_no_answer_is_asked_again_at_once(tmp_path: Path) -> None:
    paper = Paper(tmp_path, with_slip(("body", "height"), "tall", "60 deg", "0", "60"))
    data, _ = paper.dialogue.whole()
    assert data["body"]["height"] == "60 mm"
    assert paper.dialogue.slips == 3
    assert "! “height” must be more than nothing, not 0 mm." in paper.text


def test_back_takes_the_last_answer_back_and_enter_gives_it_again(tmp_path: Path) -> None:
    paper = Paper(tmp_path, with_slip(("body", "height"), "66", "back", "60"))
    data, _ = paper.dialogue.whole()
    assert data["body"]["height"] == "60 mm"
    assert "Enter for 66 mm" in paper.text
    kept = Paper(tmp_path / "other", with_slip(("body", "height"), "60", "back", ""))
    assert kept.dialogue.whole()[0]["body"]["height"] == "60 mm"


def test_an_earlier_answer_is_changed_by_its_number(tmp_path: Path) -> None:
    """The pinion 29 mm out, typed 92, and put right four answers later."""
    lines = with_slip(("body", "height"), "60", "list", "change 99", "change 9", "29")
    lines[PLACES.index(("body", "pinion_out"))] = "92"
    numbers = list(SMALL).index(("body", "pinion_out")) + 1
    lines[lines.index("change 9")] = f"change {numbers}"
    paper = Paper(tmp_path, lines)
    data, _ = paper.dialogue.whole()
    assert Sheet.from_json(data) == SHEET
    assert f"{numbers} Body, pinion out: 92 mm" in paper.text
    assert "Type the number of an answer, 1 to" in paper.text


def test_answers_that_contradict_each_other_are_asked_again(tmp_path: Path) -> None:
    paper = Paper(tmp_path, with_slip(("factory_size",), "6", "3"))
    data, _ = paper.dialogue.whole()
    assert data["factory_size"] == "3"
    assert "! The spring of generic-b leaves the factory at EN size 6, outside" in paper.text


def test_two_holes_of_one_name_have_the_body_asked_again_and_enter_keeps_the_rest(
    tmp_path: Path,
) -> None:
    slip = ("body", "holes", 1, "name")
    lines = with_slip(slip, "valve end upper")
    body = [place for place in PLACES if place[0] == "body"]
    again = [SMALL[place] if place == slip else "" for place in body]
    end = PLACES.index(body[-1]) + 1
    paper = Paper(tmp_path, [*lines[:end], *again, *lines[end:]])
    data, _ = paper.dialogue.whole()
    assert Sheet.from_json(data) == SHEET
    assert "! The body has two holes named valve end upper; name each once." in paper.text


def test_where_the_line_that_is_named_does_not_help_its_part_is_asked_again(tmp_path: Path) -> None:
    """A line of the table with turns and nothing that they are for."""
    first = ("spring_settings", 0)
    place = (*first, "size")
    lines = with_slip(place, "", "", "no")
    at = lines.index(SMALL[(*first, "turns")])
    paper = Paper(tmp_path, [*lines[: at + 2], "-4", "2", "-4", "", *lines[at + 2 :]])
    data, _ = paper.dialogue.whole()
    assert Sheet.from_json(data) == SHEET
    assert (
        paper.text.count("is for one of three: an EN size, a widest leaf, or an accessible door")
        == 2
    )


def test_what_the_check_finds_is_offered_to_be_typed_again(tmp_path: Path) -> None:
    """303 mm of a top jamb's shoe written 330."""
    place = ("mounts", 1, "ranges", 0, "shoe_along")
    paper = Paper(tmp_path, [*with_slip(place, "330"), "303"])
    data, findings = paper.dialogue.whole()
    assert (Sheet.from_json(data), findings) == (SHEET, ())
    assert "does not rest" in paper.text
    assert (
        "It is 330 mm. Type it as the paper has it, Enter to leave it, or “list” for the other answers:"
        in paper.text
    )


def test_what_the_check_finds_can_be_left_and_is_not_asked_again(tmp_path: Path) -> None:
    place = ("screws", 1, "slower")
    paper = Paper(tmp_path, [*with_slip(place, "anticlockwise"), "?", ""])
    data, findings = paper.dialogue.whole()
    assert data["screws"][1]["slower"] == "anticlockwise"
    assert [(one.code, one.advice) for one in findings] == [("valve-differs", True)]


def test_a_finding_about_no_line_is_only_shown(tmp_path: Path) -> None:
    finding = SheetFinding("nowhere", ("mounts", 7, "arm"), "Something is odd.")
    paper = Paper(tmp_path, LINES, lambda _: (finding,))
    assert paper.dialogue.whole()[1] == (finding,)
    assert "! Something is odd." in paper.text


@pytest.mark.parametrize("stop", [[], ["stop"]])
def test_after_an_end_everything_is_there_again(tmp_path: Path, stop: list[str]) -> None:
    """Stopped at every twentieth answer, by the end of the lines or by a word."""
    for first in range(0, len(LINES), 20):
        paper = Paper(tmp_path, [*LINES[first : first + 20], *stop])
        if first + 20 < len(LINES):
            with pytest.raises(Ended):
                paper.dialogue.whole()
            assert len(Draft.of(paper.draft.path).answers) == first + 21
        else:
            assert Sheet.from_json(paper.dialogue.whole()[0]) == SHEET


def test_an_answer_of_a_draft_that_no_longer_suits_is_asked_again(tmp_path: Path) -> None:
    paper = Paper(tmp_path, LINES)
    paper.dialogue.whole()
    at = ("body", "holes")
    paper.draft.answers[at] = "several"
    paper.draft.answers["mounts", 1, "mount"] = "regular"
    paper.draft.keep()
    again = Paper(tmp_path, ["4", "top-jamb"])
    assert Sheet.from_json(again.dialogue.whole()[0]) == SHEET


@pytest.mark.parametrize(
    "text",
    ["", "[" * 100_000, "[]", "{}", '{"sheet_draft": 1, "answers": [["sizes", 3]], "before": []}'],
)
def test_a_file_that_is_no_draft_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "harbour.yaml.draft"
    path.write_text(text, "utf-8")
    with pytest.raises(BadDraft, match="is not a draft of a sheet; move it to another folder"):
        Draft.of(path)
