"""The full-size template, read back from its PDF and held against the sheet's own numbers."""

import shutil
import subprocess
from dataclasses import replace
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import Any

import pytest
import yaml

from guide.cli.main import main
from guide.files.library import find, runs_folder
from guide.measures import parse
from guide.papers.template.template import CAUTION, INVENTED, LEFT, TemplateOf, template_pdf
from guide.trade.answer import NoAnswer
from guide.trade.holes.opening import Opening
from guide.trade.holes.set_out import set_out
from tests.papers.template.read_template import Page, joined, read
from tests.trade.shipped_sheets import load_sheet

MOUNTS = ("regular", "top-jamb", "parallel")
PAPERS = ("letter", "a4")
PLACES = {
    "regular": ("leaf", "frame"),
    "top-jamb": ("frame", "leaf"),
    "parallel": ("leaf", "soffit"),
}
"""What body and shoe are screwed to, by mount."""


def made(sheet: str, mount: str, knuckles: str, opening: str, hinge: str = "butt") -> TemplateOf:
    closer = load_sheet(find("sheet", sheet))
    door = Opening(mount, knuckles, hinge=hinge, angle=parse(opening), room="fits")
    return TemplateOf(set_out(door, closer, units=closer.units), closer.units)


def mm(text: str) -> float:
    """A length as the sheet writes it, by this test's own arithmetic."""
    number, unit = text.rsplit(" ", 1)
    sign = -1 if number.startswith("-") else 1
    total = sum((Fraction(part) for part in number.lstrip("-").split()), Fraction(0))
    return float(sign * total) * (25.4 if unit == "in" else 1.0)


def expected(sheet: str, mount: str, up_to: str, hinges: str) -> list[tuple[float, float]]:
    """Every hole [mm] right of the hinge line and above the datum line, from the file's raw numbers. On the push side
    the hinge line is the hinge edge, on butts 1/16 in nearer than the pin centre.

    Down a leaf is below the line, up a frame above it, out under a soffit above the fold. Down on a part is
    down on every mount; under a soffit it is further from the leaf. The valve end is toward the hinge or
    the latch as the mount says; for hinges on the right the whole is its mirror image.
    """
    raw: dict[str, Any] = yaml.safe_load(Path(find("sheet", sheet)).read_text("utf-8"))
    on = next(one for one in raw["mounts"] if one["mount"] == mount)
    numbers = next(one for one in on["ranges"] if one["up_to"] == up_to)
    found = []
    hidden = mount != "regular" and on["along_from"] == "hinge pin centre"
    nearer = mm("1/16 in") if hidden else 0.0
    for part, place in zip(("body", "shoe"), PLACES[mount], strict=True):
        along, across = mm(numbers[f"{part}_along"]), mm(numbers[f"{part}_datum"])
        way = -1 if part == "body" and on["valves_toward"] == "hinge" else 1
        for hole in raw[part]["holes"]:
            if (part, place, hole.get("kind")) == ("shoe", "leaf", "extra"):
                continue  # for a face that steps under the shoe, and the leaf's does not
            x, down = along - nearer + way * mm(hole["along"]), mm(hole["down"])
            y = {"leaf": -(across + down), "frame": across - down, "soffit": across + down}[place]
            found.append((x if hinges == "left" else -x, y))
    return found


def hold_against(
    holes: list[tuple[float, float]], zero: tuple[float, float], wanted: list[tuple[float, float]]
) -> None:
    """Every wanted hole is there once, within 0.1 mm each way, and there is no other."""
    assert len(holes) == len(wanted)
    for x, y in wanted:
        near = [
            one for one in holes if max(abs(one[0] - zero[0] - x), abs(one[1] - zero[1] - y)) < 0.1
        ]
        assert len(near) == 1, (x, y)


CASES = [
    ("generic-a", "100 deg"),
    ("generic-a", "130 deg"),
    ("generic-b", "100 deg"),
]
HUNG = [*product(MOUNTS, ("left", "right"))]


@pytest.mark.parametrize(
    ("sheet", "opening", "mount", "knuckles", "paper"),
    [
        (*case, *hung, PAPERS[(number + number // 2) % 2])
        for number, (case, hung) in enumerate(product(CASES, HUNG))
    ],
)
def test_every_hole_is_where_the_sheet_has_it_within_a_tenth_of_a_millimetre(
    sheet: str, opening: str, mount: str, knuckles: str, paper: str
) -> None:
    pages = read(template_pdf(made(sheet, mount, knuckles, opening), paper))
    holes, zero = joined(pages)
    # Facing the push side, the hinges are on the other hand than the knuckles seen from the pull side.
    hinges = knuckles if mount == "regular" else {"left": "right", "right": "left"}[knuckles]
    wanted = expected(sheet, mount, opening, hinges)
    hold_against(holes, zero, wanted)


@pytest.mark.parametrize(
    ("paper", "sizes"),
    # ANSI/ASME Y14.1 size A: 8.5 x 11 in; ISO 216 A4: 210 x 297 mm.
    [("letter", (8.5 * 25.4, 11 * 25.4)), ("a4", (210.0, 297.0))],
)
@pytest.mark.parametrize("mount", MOUNTS)
def test_pages_are_of_the_paper_and_nothing_is_outside_them(
    paper: str, sizes: tuple[float, float], mount: str
) -> None:
    for page in read(template_pdf(made("generic-a", mount, "right", "130 deg"), paper)):
        assert sorted(page.size) == pytest.approx(sizes, abs=0.1)
        for line in (*page.lines, *page.dashed):
            for x, y in line:
                assert 6 < x < page.size[0] - 6
                assert 6 < y < page.size[1] - 6


def bars(page: Page) -> set[float]:
    """The lengths of level lines that have an upright of 4 mm at both ends."""
    uprights = [
        start
        for start, end in page.lines
        if start[0] == end[0] and abs(abs(start[1] - end[1]) - 4) < 0.02
    ]
    return {
        round(b[0] - a[0], 2)
        for a, b in page.lines
        if a[1] == b[1]
        and all(
            any(abs(x - one[0]) < 0.01 and abs(abs(y - one[1]) - 2) < 0.02 for one in uprights)
            for x, y in (a, b)
        )
    }


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_has_the_check_bars_the_caution_and_what_it_is_for(paper: str) -> None:
    of = made("generic-b", "parallel", "left", "100 deg")
    pages = read(template_pdf(of, paper))
    for number, page in enumerate(pages, start=1):
        assert bars(page) == {101.6, 100.0}
        assert {"4 in", "100 mm", CAUTION, INVENTED} <= set(page.words)
        assert "PARALLEL ARM, HINGES RIGHT" in page.words
        assert any(word.startswith(f"Page {number} of {len(pages)}") for word in page.words)
        assert any(
            word.startswith("generic-b, parallel arm, row to 100 deg") for word in page.words
        )


def test_pages_that_overlap_share_their_register_marks() -> None:
    pages = read(template_pdf(made("generic-a", "regular", "left", "100 deg")))
    first, second = (page.marks for page in pages)
    assert first.keys() == second.keys() == {"R1", "R2"}
    (ax, ay), (bx, by) = first["R1"], first["R2"]
    (cx, cy), (dx, dy) = second["R1"], second["R2"]
    assert (bx - ax, by - ay) == pytest.approx((dx - cx, dy - cy), abs=0.02)


def test_a_finding_that_was_left_is_on_every_page() -> None:
    """The far end's holes of generic-a typed toward the valves."""
    of = made("generic-a", "regular", "left", "100 deg")
    closer = of.setting_out.sheet
    assert closer is not None
    assert closer.body is not None
    holes = tuple(
        replace(one, along=parse(str(one.along).removeprefix("-"))) if one.along.base < 0 else one
        for one in closer.body.holes
    )
    wrong = replace(closer, body=replace(closer.body, holes=holes))
    laid = set_out(of.setting_out.opening, wrong, units=wrong.units)
    for page in read(template_pdf(TemplateOf(laid, of.units))):
        assert any(word.startswith(LEFT) for word in page.words)
    for page in read(template_pdf(of)):
        assert not any(word.startswith(LEFT) for word in page.words)


def test_a_hole_says_its_drill_and_its_two_numbers() -> None:
    words = {
        word
        for page in read(template_pdf(made("generic-a", "top-jamb", "left", "100 deg")))
        for word in page.words
    }
    # Top jamb to 100 deg: body 7 in along and 1 1/4 in up, so its upper valve-end hole is at 7 - 2 3/4 and
    # 1 1/4 + 3/4, and from the hinge edge 1/16 in less; 1/4-20 at 75 percent of thread is a No. 7 drill
    # (Machinery's Handbook).
    drill = "No. 7 to tap 1/4-20 in metal"
    assert {"body valve end upper", drill, "4 3/16 in along, 2 in up"} <= words
    assert "STOP LINE: underside of the stop" in words
    assert "HINGE LINE: hinge edge" in words


def test_the_same_door_is_the_same_file() -> None:
    of = made("generic-a", "parallel", "right", "180 deg")
    assert template_pdf(of) == template_pdf(of)


def test_a_hinge_that_needs_the_special_template_is_refused() -> None:
    with pytest.raises(NoAnswer, match="swing-clear hinges: get the maker's special template"):
        template_pdf(made("generic-a", "regular", "left", "100 deg", "swing-clear"))


def test_from_the_command_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    paper = tmp_path / "clinic.pdf"
    words = ["sheet=generic-a", "mount=regular", "hand=LHR", "hinge=butt", "range=100 deg"]
    words.append("room=fits")
    assert main(["template", *words, "-o", str(paper)]) == 0
    told = capsys.readouterr()
    assert told.out == ""
    assert "2 pages, 2 across and 1 down" in told.err
    assert "LHR  REGULAR ARM" in read(paper.read_bytes())[0].words


def test_from_a_run(tmp_path: Path) -> None:
    assert main(["run", "fit-surface-closer", "--door", "demo"]) == 0
    (run,) = runs_folder().glob("*.run")
    paper = tmp_path / "library.pdf"
    assert main(["template", run.stem, "paper=a4", "-o", str(paper)]) == 0
    holes, zero = joined(read(paper.read_bytes()))
    # The demo opening: knuckles left, outside the pull side, regular arm, opening 110 deg.
    wanted = expected("generic-a", "regular", "130 deg", "left")
    hold_against(holes, zero, wanted)


@pytest.mark.parametrize(
    ("words", "status", "sentence"),
    [
        (["sheet=generic-a", "mount=regular"], 2, "hinge="),
        (["sheet=generic-a", "mount=regular", "hinge=butt", "range=100 deg"], 2, "hand=LH"),
        (["sheet=none-such", "mount=regular"], 2, "none-such"),
        (["no-such-run"], 2, "no-such-run"),
        (
            ["sheet=generic-a", "mount=regular", "hand=RH", "hinge=butt", "range=175 deg"],
            1,
            "140 deg",
        ),
        ([], 2, "Name one run"),
    ],
)
def test_what_is_missing_is_told_in_a_sentence(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    words: list[str],
    status: int,
    sentence: str,
) -> None:
    paper = tmp_path / "never.pdf"
    assert main(["template", *words, "-o", str(paper)]) == status
    assert sentence in capsys.readouterr().err
    assert not paper.exists()


@pytest.mark.needs("pdftoppm")
def test_another_reader_draws_every_page(tmp_path: Path) -> None:
    paper = tmp_path / "gym.pdf"
    paper.write_bytes(template_pdf(made("generic-b", "top-jamb", "right", "130 deg"), "a4"))
    program = shutil.which("pdftoppm")
    assert program is not None
    subprocess.run([program, "-r", "30", "-gray", paper, tmp_path / "page"], check=True)
    pictures = list(tmp_path.glob("page*.pgm"))
    assert len(pictures) == len(read(paper.read_bytes()))
    assert all(min(picture.read_bytes()[20:]) < 64 for picture in pictures)
