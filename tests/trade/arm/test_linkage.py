"""`linkage` as it is asked for: typed lengths or a sheet, and what the fitter is told."""

import json
import subprocess
import sys

import pytest

from guide.files.library import find as find_file
from guide.measures import MeasureError, parse
from guide.measures.parsing import parse_signed
from guide.trade.answer import BadInput, NoAnswer, OutOfDomain, result_json
from guide.trade.computation import Given
from guide.trade.registry import find, read_inputs, run
from guide.trade.sheet.sheet import Sheet
from tests.trade.harbour_closer import harbour_closer
from tests.trade.shipped_sheets import load_sheet

REGULAR = {
    "mount": "regular",
    "pinion_along": "7 in",
    "pinion_out": "1 1/8 in",
    "shoe_along": "11 7/8 in",
    "shoe_out": "3/4 in",
    "main_arm": "9 1/2 in",
    "forearm": "8 1/2 in",
    "thickness": "1 3/4 in",
    "edge_offset": "1/16 in",
    "face_offset": "-5/16 in",
}
"""A classroom door on butt hinges: the pin stands in front of the pull face, so below zero."""


def shipped(name: str) -> Sheet:
    return load_sheet(find_file("sheet", name))


def linkage(texts: dict[str, str], **changed: str) -> object:
    answer = run("linkage", read_inputs(find("linkage"), {**texts, **changed}, open_sheet=shipped))
    return result_json(answer.value)


def cautions(texts: dict[str, str], **changed: str) -> str:
    answer = run("linkage", read_inputs(find("linkage"), {**texts, **changed}, open_sheet=shipped))
    return " ".join(answer.cautions)


def test_the_parts_of_the_answer_in_json() -> None:
    assert linkage(REGULAR, at="90 deg") == {
        "assembles": True,
        "elbow_in": pytest.approx([8.600666, 8.281526], abs=1e-6),
        "arm_deg": pytest.approx(-82.247312, abs=1e-6),
        "turn_deg": pytest.approx(141.034549, abs=1e-6),
        "ratio": pytest.approx(1.212051, abs=1e-6),
        "reach_deg": pytest.approx(138.136778, abs=1e-6),
    }


def test_an_arm_that_never_locks_has_no_reach() -> None:
    wide = linkage(REGULAR, pinion_along="5.5 in", shoe_along="9.5 in", forearm="9 in", at="90 deg")
    assert isinstance(wide, dict)
    assert wide["reach_deg"] is None


def test_lengths_may_be_metric() -> None:
    metric = {
        name: text if name == "mount" else str(parse_signed(text, "length").to("mm"))
        for name, text in REGULAR.items()
    }
    assert metric["face_offset"] == "-7.9375 mm"
    assert linkage(metric, at="60 deg") == linkage(REGULAR, at="60 deg")


def test_an_arm_that_cannot_be_put_together_says_so() -> None:
    with pytest.raises(
        NoAnswer, match="cannot join pinion and shoe: check these lengths"
    ) as caught:
        linkage(REGULAR, at="150 deg")
    assert caught.value.value == {"assembles": False}


def test_cautions_on_the_way() -> None:
    assert cautions(REGULAR, at="90 deg") == ""
    assert "stretched to a line at 138.1 deg: never let the leaf open past 130 deg" in cautions(
        REGULAR, at="132 deg"
    )
    wide = {**REGULAR, "pinion_along": "5.5 in", "shoe_along": "9.5 in", "forearm": "9 in"}
    assert "body meets a wall flush with the frame at 144.5 deg" in cautions(wide, at="150 deg")
    assert "within 1/4 in of frame or leaf at 172" in cautions(wide, at="175 deg")
    short = {**REGULAR, "forearm": "1 in"}
    assert "with the door closed" in cautions(short, at="45 deg")
    wrong = {
        **REGULAR, "mount": "parallel", "pinion_along": "9.5 in", "shoe_along": "6 in",
        "shoe_out": "3 1/4 in", "forearm": "8 in",
    }  # fmt: skip
    assert "Past 10.9 deg the spring would open the door" in cautions(wrong, at="45 deg")


def test_every_missing_length_is_named() -> None:
    with pytest.raises(BadInput, match=r"missing: shoe_out=, face_offset=\. Give every"):
        linkage(
            {key: REGULAR[key] for key in REGULAR if key not in ("shoe_out", "face_offset")},
            at="90 deg",
        )
    with pytest.raises(BadInput, match="hinge goes with a sheet"):
        linkage(REGULAR, hinge="butt", at="90 deg")


@pytest.mark.parametrize(
    ("name", "text", "limits"),
    [
        ("edge_offset", "-13 in", "-12 in to 12 in"),
        ("main_arm", "1/2 in", "1 in to 60 in"),
        ("at", "181 deg", "0 deg to 180 deg"),
    ],
)
def test_outside_the_domain_the_limits_are_named(name: str, text: str, limits: str) -> None:
    with pytest.raises(OutOfDomain, match=f"{name} .* is outside what is worked here: {limits}"):
        linkage({**REGULAR, "at": "90 deg", name: text})


def test_only_a_signed_length_may_be_below_zero() -> None:
    for typed in ("-2 3/4 in", "−2 3/4 in", "minus 2-3/4", "- 2.75 in"):
        assert parse_signed(typed, "length").base == -parse("2 3/4 in").base
    assert parse_signed("2 3/4 in", "length") == parse("2 3/4 in")
    with pytest.raises(MeasureError):
        parse_signed("--2 in", "length")
    with pytest.raises(BadInput, match="main_arm"):
        linkage(REGULAR, main_arm="-9 in", at="90 deg")


def test_a_sheet_gives_the_lengths() -> None:
    by_sheet = {"sheet": "generic-a", "mount": "regular", "range": "110 deg", "hinge": "butt"}
    assert linkage(by_sheet, at="90 deg") == linkage(REGULAR, at="90 deg")
    assert cautions(by_sheet, at="90 deg") == ""


def test_a_length_beside_a_sheet_wins() -> None:
    by_sheet = {"sheet": "generic-a", "mount": "regular", "range": "110 deg"}
    moved = linkage(by_sheet, pinion_along="7 1/16 in", at="2 deg")
    assert moved == linkage(REGULAR, pinion_along="7 1/16 in", at="2 deg")


def test_without_a_mount_the_sheet_s_first_is_read_and_said() -> None:
    text = cautions({"sheet": "generic-a"}, at="90 deg")
    assert text == "No mount was given: the sheet was read for a regular arm."


def test_other_pivots_need_another_template() -> None:
    by_sheet = {"sheet": "generic-b", "mount": "parallel", "hinge": "centre-pivot"}
    assert "does not suit centre-hung pivots: get the special one" in cautions(
        by_sheet, at="90 deg"
    )


def test_a_sheet_without_an_arm_has_no_answer() -> None:
    inputs: dict[str, Given] = {
        "sheet": harbour_closer(),
        "mount": "regular",
        "at": parse("90 deg"),
    }
    with pytest.raises(NoAnswer, match="does not give the body and the arm of a regular arm"):
        run("linkage", inputs)


@pytest.mark.parametrize(("at", "status"), [("90 deg", 0), ("150 deg", 1)])
def test_the_command_prints_both_outcomes(at: str, status: int) -> None:
    """A linkage that does not go together is an answer too: it is printed, with status 1."""
    words = [f"{name}={text}" for name, text in {**REGULAR, "at": at}.items()]
    program = "import sys; from guide.cli.main import main; sys.exit(main())"
    done = subprocess.run(
        [sys.executable, "-c", program, "work", "linkage", *words, "--json"],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == status
    assert json.loads(done.stdout)["value"]["assembles"] is (status == 0)
