"""The first line of `hingeside work`, as a fitter says it, for every computation with the numbers of a real door."""

import json
import re

import pytest

from guide.cli.main import main
from guide.cli.work_words import headline
from guide.trade import registry

SHEET = ("sheet=generic-a", "mount=regular")
OPENS = ("hinge=butt", "range=100 deg")
LEAF = ("width=36 in", "height=84 in")
LEAF_MM = ("width=915 mm", "height=2134 mm")
VALVES = ("size=3", "sweep=0.75", "latch=0.5", "mount=regular")

READING = "reading=latches,4.2 s,1.5 s,6.8 lbf"

# (what is asked, the first line)
SAID: list[tuple[tuple[str, ...], str]] = [
    (("fire-door", "rated=doubt"), "treated as a fire door"),
    (("handing", "knuckles=left"), "hand not known, DIN left"),
    (("handing", "knuckles=left", "outside=pull"), "LHR, DIN left"),
    (("hand", "knuckles=left", "outside=pull"), "LHR"),
    (("din", "knuckles=left"), "DIN left"),
    (("spring-size", "width=36 in"), "EN size 3"),
    (
        *(
            (
                "starting-size",
                "size=3",
                "width=36 in",
                "mount=regular",
                "fire=no",
                "exterior=no",
                "harder=no",
            ),
        ),
        "EN size 2",
    ),
    (("door-mass", *LEAF, "thickness=1 3/4 in", "construction=particleboard"), "about 106 lb"),
    (("door-mass", *LEAF_MM, "thickness=44 mm", "construction=particleboard"), "about 48 kg"),
    (("spring-turns", "sheet=generic-a", "from=3", "to=4"), "5 turns stronger"),
    (("sheet-body-along", *SHEET, "opening=100 deg"), "7 1/2 in"),
    (("sheet-body-datum", *SHEET, "opening=100 deg"), "1 1/2 in"),
    (("sheet-shoe-along", *SHEET, "opening=100 deg"), "13 in"),
    (("sheet-shoe-datum", *SHEET, "opening=100 deg"), "3/4 in"),
    (("body-valves", "sheet=generic-a"), "three"),
    (("sheet-size-fits", "sheet=generic-a", "size=3"), "yes"),
    (("sheet-loaded", "sheet=generic-a"), "yes"),
    (("clear-width", "width=36 in", "hinge=butt", "opening=90 deg"), "33 1/2 in clear"),
    (("clear-width", "width=915 mm", "hinge=butt", "opening=90 deg"), "851 mm clear"),
    (("reveal-limit", "reveal=6 in", "beside=2 in", "hinge=butt"), "109 deg"),
    (
        ("head-room", "height=80 in", "mount=regular"),
        "verdict: measure; hangs at: 75 in",
    ),
    (
        ("pressure-force", "closer_force=5 lbf", *LEAF, "handle=2 3/4 in", "pressure=0.05 inH2O"),
        "8 lbf at the handle",
    ),
    (
        ("pressure-force", "closer_force=22 N", *LEAF_MM, "handle=70 mm", "pressure=12 Pa"),
        "35 N at the handle",
    ),
    (
        ("pressure-limit", "total_force=15 lbf", "closer_force=5 lbf", *LEAF, "handle=2 3/4 in"),
        "0.17 inH2O across the leaf, holding it shut",
    ),
    (("latch-load", *LEAF, "pressure=-0.05 inH2O"), "8.2 lbf ft to overcome at the latch"),
    (("latch-load", *LEAF_MM, "pressure=-12 Pa"), "10.8 N m to overcome at the latch"),
    (("thread-percent", "thread=1/4-20", "hole=No. 7"), "75.4 percent of a full thread"),
    # No. 36, 25 and 38 drills, ASME B94.11M: four places, and the drill's name first
    (("tap-drill", "thread=6-32"), "No. 36 drill, 0.1065 in: 78 percent of a full thread"),
    (("tap-drill", "thread=10-24"), "No. 25 drill, 0.1495 in: 75 percent of a full thread"),
    (("tap-drill", "thread=5-40"), "No. 38 drill, 0.1015 in: 72 percent of a full thread"),
    (("tap-drill", "thread=1/4-20"), "No. 7 drill, 0.2010 in: 75 percent of a full thread"),
    (("tap-drill", "thread=M6"), "5 mm drill: 77 percent of a full thread"),
    (("thread-engagement", "thread=1/4-20", "gauge=14"), "1.3 threads in the steel"),
    (("screw-withdrawal", "screw=14", "gravity=0.55"), "208.6 lbf"),
    (("screw-withdrawal", "screw=14", "gravity=0.55", "penetration=38 mm"), "1388 N"),
    (("lead-hole", "screw=14", "gravity=0.55"), "7/64 in drill"),
    (("screw-pull", "moment=18 lbf ft", "pattern=7 1/2 in"), "14.4 lbf on each screw"),
    (
        ("screw-pull", "moment=24 N m", "pattern=190 mm", "holds=900 N"),
        "63 N on each screw; it holds 14.2 times that",
    ),
    (("chord", "width=36 in", "angle=12 deg"), "7 1/2 in"),
    (
        ("moments", *SHEET, *OPENS, "size=3"),
        "at 0 deg: closes with 13.7 lbf ft, takes 20.8 lbf ft to open",
    ),
    (
        ("size-and-force", "width=36 in"),
        "No one size does both: light to open, or strong to close.",
    ),
    (("template-suits", *SHEET, *OPENS), "yes"),
    (("sixteenth", *SHEET, *OPENS), "1.1 percent of the power at the latch"),
    (("body-part", "mount=regular"), "leaf"),
    (("shoe-part", "mount=regular"), "frame"),
    (("hinges-in-front", "mount=regular", "knuckles=left"), "hinges on your left"),
    (
        ("swing", *LEAF, "mass=110 lb", *VALVES),
        "10.1 s from 90 to 12 degrees; 3.5 s from 12 degrees to shut; it latches; 7.9 lbf to open",
    ),
    (
        (
            "tune-next",
            "width=36 in",
            "mount=regular",
            "size=3",
            "fire=no",
            "exterior=no",
            "reading=latches,4.2 s,1.5 s,6.8 lbf",
        ),
        (
            "Spring screw: 1 size by the sheet (weaker). Sweep valve: three eighths of a turn by the label (slower). "
            "Then measure the opening force."
        ),
    ),
    (
        ("backcheck", "feels=hard", "mount=regular"),
        "Backcheck valve: a quarter turn by the label (softer).",
    ),
]
TOLD_LINE_BY_LINE = {
    *("fasteners", "linkage", "holes", "marks", "mark-moves", "tune", "access-and-fire"),
    *("rules-asked", "rule-notes", "fire-door-gaps", "setting-out"),
}
"""Those whose first lines are the parts themselves, tested where they are worked."""


def test_the_name_of_a_part_keeps_its_hyphen() -> None:
    value = {"accessory": "drop plate 30-D", "valves": "toward-hinge"}
    assert headline("setting-out", value) == "accessory: drop plate 30-D; valves: toward hinge"


def lines_of(capsys: pytest.CaptureFixture[str], *words: str) -> list[str]:
    assert main(["work", *words]) == 0
    return capsys.readouterr().out.splitlines()


@pytest.mark.parametrize(("words", "said"), SAID)
def test_the_first_line_is_what_a_fitter_would_say(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], said: str
) -> None:
    assert lines_of(capsys, *words)[0] == said


@pytest.mark.parametrize(("words", "_"), SAID)
def test_no_key_and_no_raw_fraction_is_printed(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], _: str
) -> None:
    """Not “29 227/275 lbf”, “force_due yes” or “(not known)”; a fraction of an inch is one on a rule."""
    for line in lines_of(capsys, *words):
        if line.startswith("  Source"):
            continue
        assert not re.search(r"[a-z]_[a-z]", line), line
        below = [int(found) for found in re.findall(r"(?<![\w-])\d+/(\d+)\b(?!-)", line)]
        assert all(64 % one == 0 for one in below if one != 10), line
        assert not re.search(r"\d\.\d{5,}", line), line


def test_every_computation_is_in_the_list() -> None:
    assert {words[0] for words, _ in SAID} | TOLD_LINE_BY_LINE == set(registry.COMPUTATIONS)


def test_the_exact_value_stays_in_json(capsys: pytest.CaptureFixture[str]) -> None:
    words = (
        "pressure-force",
        "closer_force=5 lbf",
        *LEAF,
        "handle=2 3/4 in",
        "pressure=0.05 inH2O",
    )
    assert main(["work", *words, "--json"]) == 0
    value = json.loads(capsys.readouterr().out)["value"]
    assert value["text"] == "7 454/475 lbf"
    assert main(["work", "tap-drill", "thread=6-32", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["value"]["size"]["text"] == "0.1065 in"


@pytest.mark.parametrize(
    ("words", "own", "other"),
    [
        (("linkage", *SHEET, *OPENS, "at=90 deg"), " in ", " mm "),
        (("linkage", *SHEET, *OPENS, "thickness=44 mm", "at=90 deg"), " mm ", " in from"),
        (("moments", *SHEET, *OPENS, "size=3"), "lbf ft", "(?!)"),
        (("moments", *SHEET, *OPENS, "thickness=44 mm", "size=3"), "N m", "lbf"),
        (("latch-load", *LEAF, "pressure=-12 Pa"), "lbf ft", "N m"),
        (("size-and-force", "width=915 mm", "limit=22 N"), "N m", "lbf"),
        (("clear-width", "width=915 mm", "hinge=butt", "opening=90 deg"), "gap 3 mm", "gap 1/8"),
    ],
)
def test_an_answer_speaks_one_system(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], own: str, other: str
) -> None:
    text = "\n".join(line for line in lines_of(capsys, *words) if "Source" not in line)
    assert own in text
    assert not re.search(other, text)


def test_a_limit_of_a_rule_comes_first_in_its_own_unit(capsys: pytest.CaptureFixture[str]) -> None:
    lines = lines_of(capsys, "clear-width", "width=915 mm", "hinge=butt", "opening=90 deg")
    assert "  32 in (813 mm) is required by the 2010 ADA Standards, 404.2.3: met." in lines


def test_what_counts_only_with_a_sheet_is_said_to_be_left_out(
    capsys: pytest.CaptureFixture[str],
) -> None:
    said = "Range and hinge count only with a sheet: left out here."
    assert said in lines_of(capsys, "size-and-force", "width=36 in", *OPENS)[1]
    assert "left out" not in lines_of(capsys, "size-and-force", "width=36 in")[1]
    one = lines_of(capsys, "size-and-force", "width=36 in", "hinge=butt")[1]
    assert "Hinge counts only with a sheet" in one
    assert "left out" not in " ".join(
        lines_of(capsys, "size-and-force", "width=36 in", *SHEET, *OPENS)
    )
