"""Access and fire rules: each held at its limit, a hair past it, where it does not apply, and unmeasured.

Limits, read in public copies or summaries: 2010 ADA Standards 307.4, 404.2.3, 404.2.8.1, 404.2.9 and the guide to
404.2.3; International Building Code 1010.1.3, editions of 2009 to 2021; NFPA 101 7.2.1.4.5 (2000); NFPA 80; BS 8300-2
of 2018 and Approved Documents B and M; EN 1154; the French order of 1 August 2006.
"""

from collections.abc import Mapping

import pytest

from guide.measures import Quantity, parse
from guide.run.settings import RULES as SETTINGS
from guide.trade import registry
from guide.trade.answer import Answer
from guide.trade.inputs import CODES
from guide.trade.rules.kinds import (
    DECIDES,
    FAIL,
    NOT_APPLICABLE,
    NOT_MEASURED,
    PASS,
    CodeRule,
    JudgedDoor,
    force_limit,
)
from guide.trade.rules.rules import RULES, judge

OFFICE = {"fire": False, "exterior": False, "way_out": False, "accessible": True}
STAIR = {"fire": True, "exterior": False, "way_out": True, "accessible": True}
YARD = {"fire": False, "exterior": True, "way_out": False, "accessible": True}
PLANT_ROOM = {**OFFICE, "accessible": False}
RISER = {**STAIR, "way_out": False, "accessible": False}


def verdict(code: str, rule: str, **known: object) -> str:
    door = JudgedDoor(**known)  # type: ignore[arg-type]
    (found,) = [row.verdict for row in judge(code, door) if row.rule == rule]
    return found


def s(text: str) -> Quantity:
    return parse(text, "time")


def lbf(text: str) -> Quantity:
    return parse(text, "force")


def mm(text: str) -> Quantity:
    return parse(text, "length")


FORCES = {"force": lbf("29 N")}
"""The most of the whole swing."""


@pytest.mark.parametrize(
    ("code", "rule", "known", "expected"),
    [
        # 404.2.8.1: from 90 degrees to 12 degrees, 5 seconds minimum.
        ("us", "closing time", {**OFFICE, "s_90_12": s("5 s")}, PASS),
        ("us", "closing time", {**OFFICE, "s_90_12": s("4.9 s")}, FAIL),
        ("us", "closing time", OFFICE, NOT_MEASURED),
        ("us", "closing time", {"s_90_12": s("3 s")}, NOT_MEASURED),
        # 404.2.9: interior hinged doors 5 pounds maximum; fire doors the least the authority allows.
        ("us", "opening force", {**OFFICE, "force": lbf("5 lbf")}, PASS),
        ("us", "opening force", {**OFFICE, "force": lbf("5.01 lbf")}, FAIL),
        ("us", "opening force", {**OFFICE, "force": lbf("22.2 N")}, PASS),
        ("us", "opening force", {**OFFICE, "force": lbf("22.3 N")}, FAIL),
        ("us", "opening force", OFFICE, NOT_MEASURED),
        ("us", "opening force", {"force": lbf("4 lbf")}, NOT_MEASURED),
        ("us", "opening force", {**STAIR, "force": lbf("12 lbf")}, DECIDES),
        ("us", "opening force", {**YARD, "force": lbf("8 lbf")}, DECIDES),
        ("us", "opening force", {"fire": True, "accessible": True}, DECIDES),
        (
            "us",
            "opening force",
            {**PLANT_ROOM, "force": lbf("9 lbf")},
            NOT_APPLICABLE,
        ),
        ("us", "closing time", {"accessible": False, "s_90_12": s("3 s")}, NOT_APPLICABLE),
        # IBC 1010.1.3, editions of 2009 to 2021: interior swinging doors of a way out that are not fire doors 5 pounds;
        # others start at 30 and swing fully open at 15 pounds. NFPA 101 7.2.1.4.5 (2000) has 15, 30 and 15 pounds for
        # doors with a closer.
        ("us", "way out", {**RISER, "force": lbf("40 lbf")}, NOT_APPLICABLE),
        ("us", "way out", {**PLANT_ROOM, "way_out": True, "force": lbf("9 lbf")}, FAIL),
        ("us", "exit forces", {**RISER, "exit_forces": False}, NOT_APPLICABLE),
        ("us", "way out", {**STAIR, "force": lbf("15 lbf")}, PASS),
        ("us", "way out", {**STAIR, "force": lbf("15.1 lbf")}, FAIL),
        ("us", "way out", {**OFFICE, "force": lbf("20 lbf")}, NOT_APPLICABLE),
        ("us", "way out", {**YARD, "way_out": True, "force": lbf("15 lbf")}, PASS),
        ("us", "way out", {**OFFICE, "way_out": True, "force": lbf("5 lbf")}, PASS),
        ("us", "way out", {**OFFICE, "way_out": True, "force": lbf("5.01 lbf")}, FAIL),
        ("us", "way out", {"fire": False}, NOT_MEASURED),
        ("us", "exit forces", {**STAIR, "exit_forces": True}, PASS),
        ("us", "exit forces", {**STAIR, "exit_forces": False}, FAIL),
        ("us", "exit forces", STAIR, NOT_MEASURED),
        ("us", "exit forces", OFFICE, NOT_APPLICABLE),
        # NFPA 101 7.2.1.4.5, exception (2000): an existing door in an existing building up to 50 pounds.
        ("us", "exit forces", {**STAIR, "existing": True, "exit_forces": False}, DECIDES),
        ("us", "exit forces", {**STAIR, "existing": True, "exit_forces": True}, PASS),
        # IBC 2021 1010.1.3: unlatched by push or pull 15 pounds, by turning 28 inch-pounds; to 2018 15 pounds.
        ("us", "unlatching", {**STAIR, "released_by": "push", "unlatches": True}, PASS),
        ("us", "unlatching", {**STAIR, "released_by": "turn", "unlatches": False}, FAIL),
        ("us", "unlatching", {**STAIR, "released_by": "turn"}, NOT_MEASURED),
        ("us", "unlatching", {**STAIR, "released_by": "none"}, NOT_APPLICABLE),
        ("us", "unlatching", OFFICE, NOT_APPLICABLE),
        # NFPA 80: closes and latches by itself from any open position.
        ("us", "closes and latches", {**STAIR, "latches": True}, PASS),
        ("us", "closes and latches", {**STAIR, "latches": False}, FAIL),
        ("us", "closes and latches", STAIR, NOT_MEASURED),
        ("us", "closes and latches", {**OFFICE, "latches": False}, NOT_APPLICABLE),
        ("us", "no hold-open", {**STAIR, "arm": "hold-open"}, FAIL),
        ("us", "no hold-open", {**STAIR, "arm": "plain"}, PASS),
        ("us", "no hold-open", {**OFFICE, "arm": "hold-open"}, NOT_APPLICABLE),
        # 404.2.3: 32 inches clear at 90 degrees.
        ("us", "clear width", {**OFFICE, "clear": mm("32 in")}, PASS),
        ("us", "clear width", {**OFFICE, "clear": mm("31 15/16 in")}, FAIL),
        ("us", "clear width", OFFICE, NOT_MEASURED),
        ("us", "clear width", PLANT_ROOM, NOT_APPLICABLE),
        # Guide to 404.2.3: 36 inches where the opening is deeper than 24; projections at most 4 inches from 34 to 80
        # inches above the floor, and none below.
        ("us", "clear width", {**OFFICE, "deep": True, "clear": mm("36 in")}, PASS),
        ("us", "clear width", {**OFFICE, "deep": True, "clear": mm("35 15/16 in")}, FAIL),
        ("us", "clear width", {**OFFICE, "clear": mm("33 in"), "projects": mm("4 in")}, PASS),
        ("us", "clear width", {**OFFICE, "clear": mm("33 in"), "projects": mm("4 1/16 in")}, FAIL),
        ("us", "clear width", {**OFFICE, "clear": mm("33 in"), "projects_low": True}, FAIL),
        # Guide to 404.2.3: in an alteration the stop at the latch side may take 5/8 inch of it.
        ("us", "clear width", {**OFFICE, "altered": True, "clear": mm("31 3/8 in")}, PASS),
        ("us", "clear width", {**OFFICE, "altered": True, "clear": mm("31 5/16 in")}, FAIL),
        ("us", "clear width", {**OFFICE, "altered": False, "clear": mm("31 3/8 in")}, FAIL),
        # 307.4, exception: 78 inches under a closer.
        ("us", "head room", {}, NOT_MEASURED),
        ("us", "head room", {"head_room": parse("78 in", "length")}, PASS),
        ("us", "head room", {"head_room": parse("77 15/16 in", "length")}, FAIL),
        # BS 8300 and Approved Document M: 30 N to 30 degrees, 22.5 N to 60.
        ("uk", "opening force to 30 deg", {**OFFICE, "force": lbf("30 N")}, PASS),
        ("uk", "opening force to 30 deg", {**OFFICE, "force": lbf("30.1 N")}, FAIL),
        ("uk", "opening force to 30 deg", {**STAIR, "force": lbf("60 N")}, DECIDES),
        ("uk", "opening force to 60 deg", {**OFFICE, "force": lbf("22.5 N")}, PASS),
        ("uk", "opening force to 60 deg", {**OFFICE, "force": lbf("25 N")}, NOT_MEASURED),
        ("uk", "opening force to 60 deg", {**OFFICE, **FORCES, "force_30_60": lbf("22.5 N")}, PASS),
        ("uk", "opening force to 60 deg", {**OFFICE, **FORCES, "force_30_60": lbf("23 N")}, FAIL),
        ("uk", "opening force to 30 deg", {**OFFICE, **FORCES, "force_30_60": lbf("23 N")}, PASS),
        # European practice: size 3 or stronger on a fire door.
        ("uk", "size on a fire door", {**STAIR, "size": 3}, PASS),
        ("eu", "size on a fire door", {**STAIR, "size": 2}, FAIL),
        ("eu", "size on a fire door", {**OFFICE, "size": 1}, NOT_APPLICABLE),
        ("eu", "size on a fire door", STAIR, NOT_MEASURED),
        # EN 1154 table 1: size 3 to 950 mm, size 4 to 1100 mm.
        ("eu", "size for the width", {**STAIR, "size": 3, "width": mm("950 mm")}, PASS),
        ("eu", "size for the width", {**STAIR, "size": 3, "width": mm("951 mm")}, FAIL),
        ("uk", "size for the width", {**OFFICE, "size": 3, "width": mm("951 mm")}, DECIDES),
        ("uk", "size for the width", {**OFFICE, "width": mm("951 mm")}, NOT_MEASURED),
        # EN 1154, as a guide of 2015 tells it: a delay that can be set below 25 s.
        ("uk", "delayed action", {"delay": s("24.9 s")}, PASS),
        ("uk", "delayed action", {"delay": s("25 s")}, DECIDES),
        ("eu", "delayed action", {}, NOT_MEASURED),
        ("eu", "delayed action", {"valves": "three"}, NOT_APPLICABLE),
        ("eu", "delayed action", {"valves": "four"}, NOT_MEASURED),
        # French order of 1 August 2006: 50 N, with a closer or without. The 25 N of EN 12217 are not for self-closing
        # doors (abstract of DIN EN 12217:2015).
        ("eu", "opening force", {**OFFICE, "force": lbf("50 N")}, PASS),
        ("eu", "opening force", {**OFFICE, "force": lbf("50.1 N")}, DECIDES),
        ("eu", "opening force", OFFICE, NOT_MEASURED),
        ("eu", "opening force", {**PLANT_ROOM, "force": lbf("90 N")}, NOT_APPLICABLE),
        ("uk", "opening force to 30 deg", {**PLANT_ROOM, "force": lbf("90 N")}, NOT_APPLICABLE),
        ("uk", "opening force to 30 deg", {"force": lbf("90 N")}, NOT_MEASURED),
        ("uk", "delayed action", {"valves": "four"}, NOT_MEASURED),
        ("uk", "delayed action", {"valves": "four", "delayed": True}, NOT_MEASURED),
        ("uk", "delayed action", {"valves": "four", "delayed": False}, NOT_APPLICABLE),
        ("uk", "closes and latches", {**STAIR, "latches": False}, FAIL),
        ("uk", "no hold-open", {**STAIR, "arm": "hold-open"}, FAIL),
        ("eu", "closes and latches", {**STAIR, "latches": False}, FAIL),
        ("eu", "no hold-open", {**STAIR, "arm": "hold-open"}, FAIL),
    ],
)
def test_a_rule_at_its_limit(code: str, rule: str, known: dict[str, object], expected: str) -> None:
    assert verdict(code, rule, **known) == expected


def test_every_rule_cites_its_source_and_belongs_to_a_code() -> None:
    assert all(rule.citation and rule.code in CODES for rule in RULES)
    assert set(SETTINGS) == set(CODES)


def worked(**texts: str) -> Answer:
    computation = registry.find("access-and-fire")
    return registry.run("access-and-fire", registry.read_inputs(computation, texts))


def part(found: Answer, name: str) -> object:
    assert isinstance(found.value, Mapping)
    return found.value[name]


def test_one_broken_rule_decides() -> None:
    found = worked(
        fire="yes", exterior="no", accessible="yes", latches="no", force="9 lbf", s_90_12="6 s"
    )
    assert part(found, "verdict") == "fail"
    assert part(found, "failed") == "closes and latches"
    assert any("NFPA 80" in line for line in found.working)


def test_what_is_open_is_said_and_does_not_pass() -> None:
    """What was not measured is named: an inspector reads “not applicable” as a dispensation."""
    found = worked(
        fire="no", exterior="yes", way_out="no", accessible="yes", force="9 lbf", s_90_12="6 s"
    )
    assert part(found, "verdict") == "decide"
    assert part(found, "told") == (
        "No rule fails. The authority decides: opening force. Not measured or not asked: clear width, head room."
    )


@pytest.mark.parametrize(
    ("readings", "asked", "what"),
    [
        # 2010 ADA Standards 404.2.9: of an outside door, and of a fire door, the authority decides.
        ({"fire": "no", "exterior": "yes", "accessible": "yes"}, "ask", "opening force"),
        ({"fire": "yes", "accessible": "yes"}, "ask", "opening force"),
        # An indoor door has its limits there; what was not measured is nobody's to decide.
        ({"fire": "no", "exterior": "no", "accessible": "yes"}, "nothing", "nothing"),
        ({"rules": "none"}, "ask", "all of them"),
    ],
)
def test_the_authority_is_asked_only_where_the_text_leaves_it_to_it(
    readings: dict[str, str], asked: str, what: str
) -> None:
    found = worked(way_out="no", force="4 lbf", **readings)
    assert part(found, "authority") == asked
    assert part(found, "to_decide") == what


@pytest.mark.parametrize(
    ("force", "later", "left"),
    [
        # BS 8300-2:2018: 30 N, and 22.5 N past 30 degrees; a fifth more is recorded and handed over (ours).
        ("30 N", "22.5 N", "yes"),
        ("30 N", "27 N", "left-to-do"),
        ("36 N", "27 N", "left-to-do"),
        ("30 N", "27.1 N", "no"),
        ("36.1 N", "27 N", "no"),
    ],
)
def test_a_british_door_a_little_heavy_is_handed_over_with_its_forces(
    force: str, later: str, left: str
) -> None:
    found = worked(
        rules="uk",
        fire="no",
        accessible="yes",
        latches="yes",
        force=force,
        force_30_60=later,
        width="950 mm",
        size="3",
        valves="two",
        arm="plain",
    )
    assert part(found, "hand_over") == left


def test_without_rules_nothing_is_held_and_nothing_passes() -> None:
    found = worked(rules="none", fire="no")
    assert part(found, "verdict") == "decide"
    assert found.cautions == ("Local code and the authority having jurisdiction govern.",)


@pytest.mark.parametrize("rules", CODES)
def test_the_local_code_is_named_whatever_the_rules(rules: str) -> None:
    found = worked(rules=rules, fire="yes", latches="yes")
    assert found.cautions == ("Local code and the authority having jurisdiction govern.",)


def test_an_office_door_within_every_limit_passes() -> None:
    found = worked(
        fire="no",
        exterior="no",
        way_out="no",
        accessible="yes",
        force="4.8 lbf",
        s_90_12="5.6 s",
        latches="yes",
        clear_width="33 1/2 in",
        head_room="79 in",
    )
    assert part(found, "verdict") == "pass"
    assert part(found, "told") == "No rule fails."


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: f"{rule.code} {rule.name}")
def test_of_an_unknown_door_no_rule_passes_and_none_fails(rule: CodeRule) -> None:
    verdict, told = rule.judge(JudgedDoor())
    assert verdict in (NOT_MEASURED, NOT_APPLICABLE, DECIDES)
    assert told.endswith(".")


def test_a_reading_in_another_unit_stays_as_it_was_taken() -> None:
    """Rounded to pounds, 22.3 N would look like the limit it is past: 5 lbf are 22.241 N."""
    (row,) = [
        row
        for row in judge(
            "us", JudgedDoor(fire=False, exterior=False, accessible=True, force=lbf("22.3 N"))
        )
        if row.rule == "opening force"
    ]
    assert row.verdict == FAIL
    assert row.told == "Opening force: 22.3 N, to be at most 5 lbf (about 22.24 N)."
    assert verdict("us", "opening force", **OFFICE, force=lbf("22.241 N")) == PASS
    assert verdict("us", "opening force", **OFFICE, force=lbf("22.242 N")) == FAIL


@pytest.mark.parametrize(
    ("known", "expected"),
    [
        ({"latches": True}, PASS),
        ({"latches": True, "closes": True}, PASS),
        ({"latches": True, "closes": False}, FAIL),
        ({"closes": False}, FAIL),
        ({"closes": True}, NOT_MEASURED),
    ],
)
def test_a_fire_door_that_latches_and_does_not_always_shut_fails(
    known: Mapping[str, bool], expected: str
) -> None:
    """NFPA 80 and Approved Document B want both; a yearly check tries them apart."""
    for code in ("us", "uk", "eu"):
        assert verdict(code, "closes and latches", fire=True, **known) == expected


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        ({"force": "20 N", "size": "3"}, "No rule fails."),
        ({"force": "20 N"}, "No rule fails, and some are open."),
        ({"force": "31 N"}, "A rule fails."),
    ],
)
def test_the_verdict_is_said_in_a_sentence(readings: Mapping[str, str], said: str) -> None:
    """A 900 mm office door by the rules of the United Kingdom."""
    office = {
        "rules": "uk",
        "fire": "no",
        "accessible": "yes",
        "width": "900 mm",
        "valves": "three",
    }
    texts = {**office, **readings}
    computation = registry.find("access-and-fire")
    answer = registry.run(computation.name, registry.read_inputs(computation, texts))
    assert isinstance(answer.value, Mapping)
    assert answer.value["said"] == said


def told(rule: str, **known: object) -> str:
    door = JudgedDoor(**known)  # type: ignore[arg-type]
    (found,) = [row.told for row in judge("us", door) if row.rule == rule]
    return found


def test_what_an_existing_door_may_take_is_told() -> None:
    """NFPA 101 7.2.1.4.5, exception (2000): 50 pounds."""
    assert "Up to 50 lbf" in told("exit forces", **STAIR, existing=True, exit_forces=False)


def test_from_2021_a_lever_is_judged_by_how_hard_it_turns() -> None:
    """IBC 2021 1010.1.3: 28 in-lbf to turn, 15 lbf to push or pull; up to 2018 15 lbf for any hardware."""
    lever = {**STAIR, "released_by": "turn", "unlatches": True}
    assert "28 in-lbf" in told("unlatching", **lever)
    assert "15 lbf" in told("unlatching", **lever, ibc="2018")
    assert "15 lbf" in told("unlatching", **{**lever, "released_by": "push"})


@pytest.mark.parametrize("code", ["uk", "eu"])
def test_a_spring_weaker_than_the_table_is_not_asked_for_and_excused_in_one_breath(
    code: str,
) -> None:
    """EN 1154 table 1: size 3 to 950 mm. On a light inside door the opening limit mostly leaves less."""
    rows = judge(code, JudgedDoor(fire=False, width=mm("926 mm"), size=2))
    (found,) = [row.told for row in rows if row.rule == "size for the width"]
    assert "where the table has 3" in found
    assert "to be 3 or more" not in found


@pytest.mark.parametrize("code", ["uk", "eu", "none"])
def test_no_american_rule_is_quoted_elsewhere(code: str) -> None:
    found = worked(
        rules=code, fire="yes", way_out="yes", accessible="yes", exit_forces="no", head_room="70 in"
    )
    assert not [
        line for line in found.working for word in ("ADA", "NFPA", "IBC", "lbf") if word in line
    ]
    assert part(found, "failed") == "nothing"


def test_what_no_text_was_compared_with_is_said_once() -> None:
    found = worked(fire="yes", latches="yes")
    assert not [line for line in found.working if "from memory" in line]
    assert (
        len([line for line in found.working if "not checked against the printed text" in line]) == 1
    )


@pytest.mark.parametrize(
    ("code", "door", "most", "whence"),
    [
        # 2010 ADA Standards 404.2.9
        ("us", {}, "5 lbf", "ADA"),
        # IBC 1010.1.3, editions of 2009 to 2021; not NFPA 101, whose 5 lbf is for doors without a closer
        ("us", {"accessible": False, "way_out": True}, "5 lbf", "IBC 1010.1.3"),
        ("us", {"fire": True}, "15 lbf", "IBC 1010.1.3"),
        # common practice: no rule reaches a plant room
        ("us", {"accessible": False}, "15 lbf", "common practice"),
        # BS 8300-2:2018
        ("uk", {}, "30 N", "BS 8300"),
        ("uk", {"accessible": False}, "67 N", "common practice"),
        # French order of 1 August 2006; never the 25 N of EN 12217
        ("eu", {}, "50 N", "French"),
        ("eu", {"fire": True}, "67 N", "common practice"),
    ],
)
def test_the_force_to_tune_for(code: str, door: dict[str, bool], most: str, whence: str) -> None:
    given = {"fire": False, "exterior": False, **door}
    limit = force_limit(code, **given)
    assert limit.most == lbf(most)
    assert whence in limit.whence
