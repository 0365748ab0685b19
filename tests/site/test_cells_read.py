"""One cell at a time: what schedules write, and the facts that a procedure knows."""

import pytest

from tests.site.schedules import door

SIZES = {
    "3'-0\" x 7'-0\"": ("36 in", "84 in"),
    "3'-0” × 7'-0”": ("36 in", "84 in"),
    "3070": ("36 in", "84 in"),
    "2868": ("32 in", "80 in"),
    "21068": ("34 in", "80 in"),
    "3-0 x 6-8": ("36 in", "80 in"),
    '36" x 84"': ("36 in", "84 in"),
    "36 x 84": ("36 in", "84 in"),
    "900 x 2100": ("900 mm", "2100 mm"),
    "900 mm x 2100 mm": ("900 mm", "2100 mm"),
    "88,5 x 201": ("88.5 cm", "201 cm"),
    "3'-0\"W x 7'-0\"H": ("36 in", "84 in"),
    "3'-4 1/2\" X 8'-0\"": ("40 1/2 in", "96 in"),
}


@pytest.mark.parametrize(("written", "size"), SIZES.items())
def test_width_and_height_in_one_cell(written: str, size: tuple[str, str]) -> None:
    found = door("Mark;Size;Finish", f"101;{written.replace(chr(34), chr(0x201D))};P1")
    assert (found.door_file()["width"], found.door_file()["height"]) == size


def test_thickness_as_the_third_number() -> None:
    found = door("Mark;Size", "101;3'-0” x 7'-0” x 1-3/4”").door_file()
    assert found == {"width": "36 in", "height": "84 in", "thickness": "1 3/4 in"}


def test_a_pair_asks_which_leaf() -> None:
    found = door("Mark;Size", "102;PR 3'-0” x 8'-0”")
    assert found.door_file() == {"width": "36 in", "height": "96 in"}
    assert "which leaf gets the closer" in found.questions[0].text


def test_one_width_for_two_leaves_is_not_taken_for_one() -> None:
    found = door("Mark;Size", "102;6070")
    assert found.door_file() == {"height": "84 in"}
    assert found.questions[0].text == (
        "“6070” is wider than one leaf: if it is a pair, how wide is each leaf?"
    )


HANDS = {
    "LH": {"knuckles": "right", "outside": "push"},
    "RH": {"knuckles": "left", "outside": "push"},
    "LHR": {"knuckles": "left", "outside": "pull"},
    "RHR": {"knuckles": "right", "outside": "pull"},
    "L.H.R.": {"knuckles": "left", "outside": "pull"},
    "RHRB": {"knuckles": "right", "outside": "pull"},
    "left hand reverse": {"knuckles": "left", "outside": "pull"},
    "Right Hand": {"knuckles": "left", "outside": "push"},
    "RHRA": {"knuckles": "right", "outside": "pull", "leaves": "active"},
    "DIN left": {"knuckles": "left"},
    "DIN R": {"knuckles": "right"},
    "DIN links": {"knuckles": "left"},
}
"""LH and RHR are one leaf seen from its two sides, DIN right; RH and LHR are DIN left (common practice; DIN 107)."""


@pytest.mark.parametrize(("written", "meant"), HANDS.items())
def test_hands(written: str, meant: dict[str, str]) -> None:
    found = door("Mark;Size;Hand", f"101;3070;{written}").door_file()
    assert {name: found[name] for name in found if name not in ("width", "height")} == meant


@pytest.mark.parametrize("written", ["L", "R", "left"])
def test_a_side_alone_is_no_hand(written: str) -> None:
    found = door("Mark;Size;Hand", f"101;3070;{written}")
    assert "knuckles" not in found.facts
    assert "alone does not tell the hand" in found.questions[0].text


def test_lh_beside_metric_sizes_may_be_either_hand() -> None:
    found = door("Mark;Size;Hand", "101;900 x 2100;LH")
    assert "knuckles" not in found.facts
    assert "which are opposite" in found.questions[0].text


RATINGS = {
    "90 MIN": {"rated": "yes", "rating": "longer"},
    "90": {"rated": "yes", "rating": "longer"},
    "20 min.": {"rated": "yes", "rating": "twenty"},
    "1 1/2 HR": {"rated": "yes", "rating": "longer"},
    "3 hour": {"rated": "yes", "rating": "longer"},
    "B LABEL": {"rated": "yes", "rating": "longer"},
    "EI30": {"rated": "yes", "rating": "longer"},
    "EI2 30-C": {"rated": "yes", "rating": "longer"},
    "EI2 30-C5-S200": {"rated": "yes", "rating": "longer", "smoke": "yes"},
    "T30": {"rated": "yes", "rating": "longer"},
    "FD30S": {"rated": "yes", "rating": "longer", "smoke": "yes"},
    "NR": {"rated": "no"},
    "N/A": {"rated": "no"},
    "TBD": {"rated": "doubt"},
}


@pytest.mark.parametrize(("written", "meant"), RATINGS.items())
def test_fire_ratings(written: str, meant: dict[str, str]) -> None:
    assert door("Mark;Fire rating", f"101;{written}").door_file() == meant


MATERIALS = {
    ("HM", "HM"): {"leaf": "steel", "frame": "steel"},
    ("Hollow metal", "H.M."): {"leaf": "steel", "frame": "steel"},
    ("WD", "WD"): {"leaf": "wood", "frame": "wood"},
    ("AL/GL", "Alum"): {"leaf": "aluminium", "frame": "aluminium"},
    ("HM, honeycomb core", "Steel (grouted)"): {
        "leaf": "steel",
        "steel_core": "honeycomb",
        "frame": "grouted",
    },
    ("Oak veneer, particleboard core", "Timber"): {
        "leaf": "wood",
        "behind": "particleboard",
        "frame": "wood",
    },
    ("Glass", "AL"): {"special": "glass", "frame": "aluminium"},
    ("HM lead-lined", "HM"): {"leaf": "steel", "special": "lead", "frame": "steel"},
}


@pytest.mark.parametrize(("written", "meant"), MATERIALS.items())
def test_leaf_and_frame(written: tuple[str, str], meant: dict[str, str]) -> None:
    leaf, frame = written
    assert door("Mark;Door material;Frame material", f"101;{leaf};{frame}").door_file() == meant


def test_a_solid_core_is_asked_what_it_is() -> None:
    found = door("Mark;Door material", "101;SCWD")
    assert found.door_file() == {"leaf": "wood"}
    assert [one.fact for one in found.questions] == ["behind"]


def test_a_core_that_does_not_go_with_its_leaf_is_asked() -> None:
    found = door("Mark;Door material;Core", "101;HM;Particleboard")
    assert found.door_file() == {"leaf": "steel"}
    assert found.questions[0].text == (
        "“Particleboard” names a core, particleboard: what leaf is it in?"
    )


OTHERS = {
    ("Hinge type", "Full mortise butts"): {"hinge": "butt"},
    ("Hinge type", "Continuous geared"): {"hinge": "continuous"},
    ("Hinge type", "Swing clear"): {"hinge": "swing-clear"},
    ("Hinges", "Offset pivot"): {"hinge": "offset-pivot"},
    ("Hinges", "Center-hung pivots"): {"hinge": "centre-pivot"},
    ("Closer", "PA"): {"mount": "parallel"},
    ("Closer", "Top jamb"): {"mount": "top-jamb"},
    ("Closer", "Auto operator"): {"closer": "powered"},
    ("Arm", "Hold-open"): {"arm": "hold-open"},
    ("Swing angle", "110°"): {"opening": "110 deg"},
    ("Int/Ext", "EXT"): {"exterior": "yes"},
    ("ADA", "X"): {"accessible": "yes"},
    ("Leaves", "Double egress"): {"leaves": "double-egress"},
    ("Weight (kg)", "62"): {"weight": "62 kg"},
    ("Prep", "Closer reinf."): {"prep": "reinforced"},
    ("Thickness", "1-3/4”"): {"thickness": "1 3/4 in"},
    ("Thickness", "44"): {"thickness": "44 mm"},
}


@pytest.mark.parametrize(("written", "meant"), OTHERS.items())
def test_other_columns(written: tuple[str, str], meant: dict[str, str]) -> None:
    heading, text = written
    assert door(f"Mark;{heading}", f"101;{text}").door_file() == meant


NOTES = {
    "Coordinator": ("head_item", {"head_item": "coordinator"}),
    "OH stop": ("head_item", {"head_item": "overhead"}),
    "hold-open arm": ("arm", {}),
    "electric strike": ("head_item", {"head_item": "lock"}),
    "smoke seal": ("head_item", {"head_item": "seal"}),
    "existing door and frame": ("prep", {}),
    "Exit door": ("way_out", {"way_out": "yes"}),
}


@pytest.mark.parametrize(("note", "asks"), NOTES.items())
def test_a_note_raises_a_question(note: str, asks: tuple[str, dict[str, str]]) -> None:
    found = door("Mark;Remarks", f"101;{note}")
    (question,) = found.questions
    assert question.where == "B2"
    assert (question.fact, question.supposed) == asks


def test_two_things_on_the_head_are_several() -> None:
    found = door("Mark;Remarks", "101;Coordinator, vertical rods")
    assert found.supposed == {"head_item": "several", "coordinator": "yes"}


def test_what_a_note_says_beside_is_kept() -> None:
    found = door("Mark;Remarks", "101;Coordinator, kick plate both sides")
    assert [one.left for one in found.not_understood] == ["kick plate both sides"]


def test_a_size_of_the_opening_is_planned_with_and_asked() -> None:
    found = door("Mark;Opening width;Hand", "101;3'-2”;LHR")
    assert "width" not in found.facts
    assert found.supposed == {"width": "38 in"}
    assert found.questions[0].text == "“3'-2”” is of the opening: how wide is the leaf?"


def test_cells_that_contradict_each_other_are_asked() -> None:
    found = door("Mark;Size;Width", "101;3070;2'-10”")
    assert found.door_file() == {"height": "84 in"}
    assert found.questions[0].text == "B2 says 36 in and C2 34 in. How wide is the leaf?"
