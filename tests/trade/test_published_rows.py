"""Every row of the published values this project was compared with: where it is tested, or why nothing here has it.

A row names the test that has its figure, and words of its source that stand beside that figure in the test's file.
"""

from dataclasses import dataclass
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
ACCESS = "trade/rules/test_access_and_fire.py::test_a_rule_at_its_limit"
GAPS = "trade/rules/test_fire_door_gaps.py::test_the_gap_at_head_and_jambs"
BELOW = "trade/rules/test_fire_door_gaps.py::test_the_gap_under_the_leaf"
NOTES = "trade/rules/test_rule_notes.py::test_the_united_states"
ASKED = "procedure/test_published_words.py::test_a_question_asks_what_the_text_means"
STEPS = "procedure/test_published_words.py::test_a_step_says_what_the_text_asks"
VALUES = "trade/test_published_values.py::test_a_published_value"
THREADS = "trade/fastening/test_threads.py"
MOMENTS = "trade/arm/test_moments.py"


@dataclass(frozen=True)
class Row:
    """One published value."""

    what: str
    test: str = ""
    """File and function below `tests`; empty where there is none."""
    source: str = ""
    """Words of the source, as they stand in that file."""
    why_none: str = ""


ROWS = [
    # Access
    Row("spring hinges alone, 1.5 s from 70 degrees", NOTES, "404.2.8.2"),
    Row("78 in under closers and stops", ACCESS, "307.4, exception"),
    Row("36 in clear in an opening deeper than 24 in", ACCESS, "Guide to 404.2.3: 36 inches"),
    Row("nothing projects below 34 in, 4 in at most to 80 in", ACCESS, "at most 4 inches from 34"),
    Row("an alteration, 5/8 in less", ACCESS, "may take 5/8 inch"),
    Row("threshold 1/2 in, existing and bevelled 3/4 in", NOTES, "404.2.5 and its exception"),
    Row("5 lbf is the steady push", ASKED, "advisory 404.2.9"),
    Row(
        "9 lbf of 15 are left to close with",
        f"{MOMENTS}::test_what_is_left_of_15_lbf_to_close_with",
        "4.13.11",
    ),
    # Ways out
    Row("an interior egress door, 5 lbf", ACCESS, "IBC 1010.1.3, editions of 2009 to 2021"),
    Row("other doors, 30 lbf and 15 lbf", ACCESS, "start at 30 and swing fully open at 15"),
    Row("unlatched by push or pull, 15 lbf", ACCESS, "by push or pull 15 pounds"),
    Row("unlatched by turning, 28 in-lbf", ACCESS, "by turning 28 inch-pounds"),
    Row("NFPA 101, 15, 30 and 15 lbf with a closer", ACCESS, "NFPA 101 7.2.1.4.5 (2000)"),
    Row("an existing door, 50 lbf", ACCESS, "existing building up to 50 pounds"),
    # Fire doors of the United States
    Row("hollow metal, 1/8 in give or take 1/16 in", GAPS, "hollow metal 1/8 in, give or take"),
    Row("wood to 2013, 1/8 in", GAPS, "2007 to 2013: wood at most 1/8 in"),
    Row("wood of 20 minutes from 2016, as hollow metal", GAPS, "rated 20 min in a hollow metal"),
    Row("other materials, 1/8 in", GAPS, "any other material at most 1/8 in"),
    Row("under the leaf, 3/4 in, over a high sill 3/8 in", BELOW, "NFPA 80 4.8.4"),
    Row("gaps are read on the pull side", ASKED, "NFPA 80 6.3.1.7: gaps are read"),
    Row("two hinges to 60 in, one more each 30 in", NOTES, "NFPA 80 6.4"),
    Row("ways to fill old holes", NOTES, "NFPA 80 5.5.7 (2013)"),
    Row("round holes over 1 in from 2016", NOTES, "NFPA 80 4.1.3"),
    Row("inspected after installation and maintenance", STEPS, "NFPA 80 5.2.1, 5.2.2.5"),
    Row(
        "inspected yearly",
        "procedure/test_published_words.py::test_an_inspection_is_yearly",
        "5.2.4.1",
    ),
    Row(
        "eleven items of a record",
        "papers/record/test_call_back.py::test_a_fire_door_has_the_eleven_items_of_an_inspection",
        "NFPA 80 (2013) 5.2.2.4",
    ),
    Row("the record is kept three years", STEPS, "kept three years"),
    Row(
        "thirteen points of the yearly check",
        "procedure/test_published_words.py::test_the_yearly_check_has_the_points_of_nfpa_80",
        "5.2.3.5",
    ),
    Row("a listed closer on a labelled door", ASKED, "A156.4-2000 clause 1.3"),
    Row(
        "annex A, size 3 or 4",
        "trade/size/test_spring_size.py::test_a_fire_door_is_size_3_or_stronger",
        "NFPA 80, annex A",
    ),
    Row("what may hold a fire door open", NOTES, "a fusible link or a detector"),
    Row(
        "spring hinges on a fire door, two, latching from 30 degrees",
        why_none="Only garbled copies were found, so nothing here is said of it.",
    ),
    Row("60 days in health care", NOTES, "as reported in 2022: 60 days"),
    # Europe
    Row(
        "EN 1154, closing moment by size, least and range",
        f"{MOMENTS}::test_the_closing_moments_of_a_public_table",
        "public French table",
    ),
    Row(
        "EN 1154, opening moment of size 3",
        f"{MOMENTS}::test_the_opening_moment_of_a_public_guide",
        "public French guide",
    ),
    Row(
        "EN 1154, closing time from 90 degrees can be set",
        "trade/swing/test_swing.py::test_the_valves_set_the_closing_time_as_widely_as_en_1154_wants",
        "EN 1154 5.2.6",
    ),
    Row(
        "EN 1154, closing time at the temperature extremes",
        "trade/rules/test_rule_notes.py::test_a_european_closer_has_times_in_the_cold_and_the_heat",
        "EN 1154 7.2.2",
    ),
    Row("EN 1154, a delay below 25 s", ACCESS, "a delay that can be set below 25 s"),
    Row(
        "EN 1154, grades of use, closes from 105 or 180 degrees",
        why_none="It is of a product's test; how far a closer serves is a row of its sheet.",
    ),
    Row(
        "EN 1191, closing time in the cycle test",
        why_none="It is of a test bench; no rule asks it of a door in use.",
    ),
    Row("30 N, and 22.5 N past 30 degrees", ACCESS, "BS 8300 and Approved Document M: 30 N"),
    Row(
        "the gauge within 60 mm of the edge",
        "trade/rules/test_rule_notes.py::test_a_british_force_is_read_at_the_leading_edge",
        "BS 8300-2:2018",
    ),
    Row("tried from fully open and from 15 degrees", STEPS, "Home Office guidance to the same"),
    Row("3 and 12 months above 11 m", STEPS, "regulation 10"),
    Row("leaf to frame, 2 to 4 mm", GAPS, "BS 8214:2016 and Home Office guidance"),
    Row("under the leaf, 3 mm or 8 to 10 mm", BELOW, "BS 8214:2016 12.3"),
    Row(
        "EN 12217, 25 N, and not of self-closing doors",
        "trade/rules/test_access_and_fire.py::test_the_force_to_tune_for",
        "never the 25 N of EN 12217",
    ),
    Row("France, 50 N", ACCESS, "French order of 1 August 2006: 50 N"),
    Row(
        "CEN/TR 15894, force falling by two fifths to 60 degrees",
        why_none="It is wished of closers; no rule asks it, and a fitter cannot set it.",
    ),
    Row(
        "DIN left and right",
        "trade/door/test_handing.py::test_the_same_leaf_from_its_pull_side",
        "DIN 107",
    ),
    # Pressure on a door
    Row("greatest pressure for 30 lbf, 25 cells", VALUES, "smoke-control handbooks after NFPA 92A"),
    Row("65.147 N, metric", VALUES, "SFPE Handbook, equation 50.14"),
    Row(
        "stack pressure, 17.6 Pa",
        why_none="No pressure is computed from a building's height; it is measured at the door.",
    ),
    # Drills and threads
    Row(
        "number and letter drills",
        "trade/fastening/test_drill_tables.py::test_the_number_drills",
        "ASME B94.11M",
    ),
    Row(
        "tap drills",
        "trade/test_published_values.py::test_the_public_tap_drill_table",
        "Public tap drill table",
    ),
    Row(
        "screw numbers",
        f"{THREADS}::test_a_screw_number_has_the_diameter_of_the_tables",
        "ASME B1.1",
    ),
    Row(
        "three threads in sheet steel",
        f"{THREADS}::test_sheet_steel_wants_three_threads_and_18_gauge_gives_less_than_two",
        "ANSI/SDI A250.6",
    ),
    Row(
        "16 and 14 gauge, and 14 behind hardware",
        f"{THREADS}::test_the_gauges_of_frames_and_of_a_closers_reinforcement",
        "ANSI/SDI A250.8",
    ),
    Row("12 gauge, 0.093 in", why_none="No leaf, frame or plate here is of it."),
    # Wood
    Row(
        "lead holes, 90 and 70 percent of the root",
        "trade/fastening/test_wood_screws.py::test_lead_holes",
        "National Design Specification",
    ),
    Row(
        "the root is two thirds of the shank",
        "trade/fastening/test_wood_screws.py::test_the_root_of_cut_threads_is_about_two_thirds_of_the_shank",
        "Wood Handbook",
    ),
    Row(
        "older, higher gravities",
        "trade/fastening/test_wood_screws.py::test_our_gravities_are_no_higher_than_an_old_handbooks",
        "engineering handbook",
    ),
    Row(
        "blocking of 5 in in a top rail",
        why_none="It is for who orders a leaf; a fitter finds out what is behind the face.",
    ),
    # Mass, words, ladders
    Row("steel leaves, bare", VALUES, "public planning table of weights"),
    Row("stiffened security leaf", VALUES, "the same table, stiffened security leaf"),
    Row(
        "signal words",
        "checker/test_hazards.py::test_the_signal_words_stand_in_their_order",
        "ANSI Z535.4 and Z535.6",
    ),
    Row("a leaning ladder, one out for four up", STEPS, "29 CFR 1926.1053(b)(5)(i)"),
]


@pytest.mark.parametrize("row", [one for one in ROWS if one.test], ids=lambda one: one.what)
def test_a_published_row_has_its_test_with_the_source_beside_it(row: Row) -> None:
    name, _, function = row.test.partition("::")
    text = (TESTS / name).read_text("utf-8")
    assert f"def {function}(" in text
    assert row.source in " ".join(text.replace("#", " ").split())


def test_a_row_without_a_test_says_why() -> None:
    assert len({one.what for one in ROWS}) == len(ROWS)
    for row in ROWS:
        assert bool(row.test) != bool(row.why_none), row.what
