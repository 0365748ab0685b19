"""Published values of fasteners, air pressure and access, one row each, the source beside it."""

from collections.abc import Mapping

import pytest

from guide.measures import Quantity
from guide.trade.registry import find, read_inputs, run

HANDBOOK = (
    "smoke-control handbooks after NFPA 92A: greatest pressure, 30 lbf, 7 ft leaf, handle 3 in"
)
NDS = "National Design Specification, wood screws, G = 0.50 column (from memory)"
TABLES = "tap drill tables after Machinery's Handbook (from memory)"


def thread(name: str, hole: str, percent: float, source: str) -> tuple[object, ...]:
    return "thread-percent", {"thread": name, "hole": hole}, None, percent, 0.05, source


def withdrawal(screw: str, gravity: str, pounds: float, source: str) -> tuple[object, ...]:
    return "screw-withdrawal", {"screw": screw, "gravity": gravity}, "lbf", pounds, 1, source


def handbook(closer: str, width: str, inches: float) -> tuple[object, ...]:
    door = {"width": width, "height": "7 ft", "handle": "3 in"}
    texts = {"total_force": "30 lbf", "closer_force": f"{closer} lbf", **door}
    # to two places, the last of which the handbooks round either way
    return "pressure-limit", texts, "inH2O", inches, 0.0065, HANDBOOK


BY_THREE_FEET = {"width": "3 ft", "height": "7 ft", "handle": "0.25 ft", "pressure": "0.10 in wg"}

ROWS = [
    thread("1/4-20", "0.201 in", 75.4, "ASME B1.1 and Machinery's Handbook, tap drill sizes"),
    thread("1/4-20", "No. 7", 75.4, "ASME B1.1 and Machinery's Handbook, tap drill sizes"),
    thread("M8x1.25", "6.80 mm", 73.9, "ASME B1.1 and Machinery's Handbook, tap drill sizes"),
    withdrawal("10", "0.45", 109, "National Design Specification; engineering handbooks"),
    withdrawal("6", "0.50", 98, NDS),
    withdrawal("8", "0.50", 117, NDS),
    withdrawal("10", "0.50", 135, NDS),
    withdrawal("12", "0.50", 154, NDS),
    withdrawal("14", "0.50", 172, NDS),
    handbook("6", "32 in", 0.45),
    handbook("6", "36 in", 0.40),
    handbook("6", "44 in", 0.34),
    handbook("10", "32 in", 0.37),
    handbook("10", "36 in", 0.34),
    handbook("10", "44 in", 0.28),
    handbook("14", "32 in", 0.30),
    handbook("14", "36 in", 0.27),
    handbook("14", "44 in", 0.22),
    (
        "pressure-force",
        {"closer_force": "0 lbf", **BY_THREE_FEET},
        "lbf",
        5.956,
        0.0005,
        "IBC 909.6.2, equation 9-1, worked by hand",
    ),
    (
        "pressure-force",
        {"closer_force": "0 N", **BY_THREE_FEET},
        "N",
        26.51,
        0.005,
        "IBC 909.6.2, equation 9-1 in SI with K = 1, worked by hand",
    ),
    (
        "thread-engagement",
        {"thread": "1/4-20", "gauge": "14"},
        None,
        1.3,
        0.05,
        "14 gauge 0.067 in, ANSI/SDI A250.8 (from memory)",
    ),
]


@pytest.mark.parametrize(("name", "texts", "unit", "published", "within", "_source"), ROWS)
def test_a_published_value(
    name: str,
    texts: Mapping[str, str],
    unit: str | None,
    published: float,
    within: float,
    _source: str,
) -> None:
    value = run(name, read_inputs(find(name), texts)).value
    if unit is None:
        assert isinstance(value, float)
        assert value == pytest.approx(published, abs=within)
    else:
        assert isinstance(value, Quantity)
        assert value.unit == unit
        assert float(value.magnitude) == pytest.approx(published, abs=within)


@pytest.mark.parametrize(
    ("thread_name", "drill", "percent", "_source"),
    [
        ("10-24", "No. 25", 75, "Machinery's Handbook (from memory)"),
        ("12-24", "No. 16", 72, "Machinery's Handbook"),
        ("1/4-20", "No. 7", 75, "Machinery's Handbook"),
        ("8-32", "No. 29", 69, TABLES),
        ("10-32", "No. 21", 76, TABLES),
        ("1/4-28", "No. 3", 80, TABLES),
        ("5/16-18", "F", 77, TABLES),
        ("3/8-16", "5/16 in", 77, TABLES),
        ("M5x0.8", "4.2 mm", 77, TABLES),
        ("M6x1", "5 mm", 77, TABLES),
        ("M8x1.25", "6.8 mm", 74, "Machinery's Handbook"),
    ],
)
def test_a_published_tap_drill(thread_name: str, drill: str, percent: int, _source: str) -> None:
    value = run("tap-drill", read_inputs(find("tap-drill"), {"thread": thread_name})).value
    assert isinstance(value, Mapping)
    assert value["drill"] == drill
    assert isinstance(value["percent"], float)
    assert round(value["percent"]) == percent


# 2010 ADA Standards, 404.2.3: 32 in clear, face of the door to the stop, door open 90 degrees.
# The widths by hand: 36 in on butts less 5/8 stop, plus 1/8 + 1/16 gap and pin, less the 1 3/4 in
# leaf and the 5/16 in its pin stands in front: 33 1/2 in.
@pytest.mark.parametrize(
    ("width", "clear", "verdict"),
    [
        ("36 in", "33 1/2 in", "met"),
        ("34 1/2 in", "32 in", "met"),
        ("34 in", "31 1/2 in", "not met"),
    ],
)
def test_the_clear_width_of_a_leaf_on_butts(width: str, clear: str, verdict: str) -> None:
    texts = {"width": width, "hinge": "butt", "opening": "90 deg"}
    answer = run("clear-width", read_inputs(find("clear-width"), texts))
    assert str(answer.value) == clear
    assert answer.working[-1].endswith(f"404.2.3: {verdict}.")
