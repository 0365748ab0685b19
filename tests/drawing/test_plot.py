"""Plots: laid out for their room in characters and on paper, with a sentence that says the same."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.drawing.moment_plot import moment_plot
from guide.drawing.plot import Axis, Plot, PlotCurve, number, paper_plot, text_plot
from guide.measures import Quantity, parse

SVG = "{http://www.w3.org/2000/svg}"
TIMES = Plot(
    "To the mark",
    "Test 1: 11.2 s, too much; test 2: 6.1 s, within.",
    Axis("test", 0.5, 4.5, (1.0, 2.0, 3.0, 4.0)),
    Axis("s", 0.0, 12.0),
    (PlotCurve("", ((1.0, 11.2), (2.0, 6.1))),),
    (((1.0, 11.2), "11.2"), ((2.0, 6.1), "6.1")),
    (5.0, 7.0),
)


@pytest.mark.parametrize(("columns", "rows"), [(76, 20), (50, 12), (40, 9), (28, 8)])
@pytest.mark.parametrize("ascii_only", [False, True])
def test_a_plot_keeps_within_its_room(columns: int, rows: int, ascii_only: bool) -> None:
    lines = text_plot(TIMES, columns, rows, ascii_only=ascii_only)
    assert 0 < len(lines) <= rows
    assert all(len(line) <= columns for line in lines)
    assert not ascii_only or all(line.isascii() for line in lines)


def test_limits_stand_at_the_side_and_readings_at_their_tests() -> None:
    lines = text_plot(TIMES, 60, 14)
    sides = {line.split()[0].rstrip("⡇⠇") for line in lines if line.strip()}
    assert {"12", "7", "5"} <= sides
    foot = next(line for line in lines if "1: 11.2" in line)
    assert "2: 6.1" in foot
    assert foot.index("1: 11.2") < foot.index("2: 6.1") < foot.rindex("3")
    assert "dashes: limit" in lines[-1]


def test_a_higher_value_stands_higher_and_a_later_one_further_right() -> None:
    lines = text_plot(TIMES, 60, 14, ascii_only=True)
    marks = [(line.index("@"), row) for row, line in enumerate(lines) if "@" in line]
    assert marks[0][1] < marks[-1][1]
    assert marks[0][0] < marks[-1][0]


def test_with_too_little_room_nothing_is_drawn() -> None:
    assert text_plot(TIMES, 12, 4) == []


def test_on_paper_the_sentence_is_its_description() -> None:
    root = ET.fromstring(paper_plot(TIMES))
    assert root.findtext(f"{SVG}desc") == TIMES.says
    texts = [one.text for one in root.iter(f"{SVG}text")]
    assert {"12", "7", "5", "1: 11.2", "2: 6.1"} <= set(texts)


def test_a_number_is_as_short_as_it_can_be() -> None:
    assert [number(one) for one in (5.0, 5.25, -0.0, 0.1)] == ["5", "5.2", "0", "0.1"]


def row(angle: int, closing: str, opening: str) -> dict[str, Quantity]:
    return {
        "angle": parse(f"{angle} deg", "angle"),
        "closing": parse(closing, "moment"),
        "opening": parse(opening, "moment"),
    }


def test_the_moments_are_told_at_their_least_and_their_most() -> None:
    rows = [row(0, "20 N m", "40 N m"), row(1, "12 N m", "25 N m"), row(2, "9 N m", "20 N m")]
    plot = moment_plot(rows)
    assert plot.says == (
        "Closing 20 N m shut, and least 9 N m at 2 degrees. Opening needs 40 N m at most, at 0 degrees."
    )
    assert (plot.up.low, plot.up.high) == (0.0, 40.0)
    assert plot.curves[0].points[-1] == (2.0, 9.0)


def test_work_writes_the_moments_drawn(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "moments.svg"
    given = ("sheet=generic-a", "mount=regular", "range=100 deg", "size=3")
    assert main(["work", "moments", *given, "-o", str(out)]) == 0
    told = capsys.readouterr().out.strip()
    root = ET.fromstring(out.read_text("utf-8"))
    assert root.findtext(f"{SVG}desc") == told
    assert told.startswith("Closing ")
    assert main(["work", "chord", "width=36 in", "angle=12 deg", "-o", str(out)]) == 2
    assert "-o goes with moments alone" in capsys.readouterr().err
