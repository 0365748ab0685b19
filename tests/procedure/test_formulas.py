"""Arithmetic in a file: which formulas are taken, and what is said of the others."""

import json
from pathlib import Path

import pytest

from guide.procedure.conditions import Against, read_condition
from guide.procedure.graph import Graph
from guide.procedure.worked_facts import work_out
from tests.procedure.sample_procedure import compiled, graph_of_text

FILE = """\
procedure: cold-store
title: The cold store's seal
facts:
  width: {length: {from: 24 in, to: 60 in}, ask: How wide is the leaf?}
  drop: {length: {from: 0 in, to: 1 in}, ask: How far does the seal drop?}
  lean: {angle: {from: 0 deg, to: 5 deg}, ask: How far does it lean?}
  hinges: {count: {from: 2, to: 4}, ask: How many hinges?}
  fire: {yesno: {}, ask: Is it a fire door?}
  mark: {worked: chord, using: {width: width, angle: "= 90 deg"}}
  seal: FORMULA
steps:
  - ask: {id: how-wide, fact: width}
  - end: {id: done, outcome: finished}
"""


def graph_with(folder: Path, formula: str) -> Graph:
    return graph_of_text(folder, FILE.replace("FORMULA", formula))


@pytest.mark.parametrize(
    ("formula", "inputs", "value"),
    [
        ("{sum: [width, -1/8 in]}", {"1": "36 in", "2": "-1/8 in"}, "35 7/8 in"),
        # 914.4 mm are 36 in
        ("{sum: [width, drop, 1 mm]}", {"1": "914.4 mm", "2": "1/2 in", "3": "1 mm"}, "928.1 mm"),
        ("{sum: [1 in, drop]}", {"1": "1 in", "2": "12.7 mm"}, "38.1 mm"),
        ("{difference: [drop, width]}", {"1": "1/4 in", "2": "36 in"}, "-35 3/4 in"),
        ("{difference: [60 in, width]}", {"1": "60 in", "2": "36 in"}, "24 in"),
        ("{difference: [mark, width]}", {"1": "50 7/8 in", "2": "36 in"}, "14 7/8 in"),
        ("{times: [drop, 2]}", {"1": "3/16 in", "2": "2"}, "3/8 in"),
        ("{times: [drop, 0.5]}", {"1": "3/16 in", "2": "0.5"}, "3/32 in"),
        ("{times: [lean, 1 1/2]}", {"1": "3 deg", "2": "1 1/2"}, "4.5 deg"),
        ("{times: [width, 1/3]}", {"1": "40 mm", "2": "1/3"}, "13 1/3 mm"),
        ("{sum: [hinges, hinges, -1]}", {"1": "3", "2": "3", "3": "-1"}, "5"),
        ("{times: [hinges, 3]}", {"1": "3", "2": "3"}, "9"),
        ("{difference: [hinges, 6]}", {"1": "3", "2": "6"}, "-3"),
    ],
)
def test_a_formula_is_worked_out_exactly(
    tmp_path: Path, formula: str, inputs: dict[str, str], value: str
) -> None:
    graph = graph_with(tmp_path, formula)
    fact = Graph.from_json(json.loads(json.dumps(graph.to_json()))).facts["seal"]
    assert fact == graph.facts["seal"]
    body = work_out(fact, inputs, None)
    assert body["value"] == value
    assert str(fact.decode(value)) == value
    (working,) = body["working"]
    assert working.endswith(f"{value}, below zero." if value.startswith("-") else f"{value}.")


def test_an_unknown_term_leaves_no_answer_and_is_named(tmp_path: Path) -> None:
    fact = graph_with(tmp_path, "{difference: [width, mark]}").facts["seal"]
    body = work_out(fact, {"1": "36 in", "2": "none"}, None)
    assert (body["value"], body["reason"]) == ("none", "mark is not known")


def test_a_number_with_more_figures_than_can_be_kept_has_no_answer(tmp_path: Path) -> None:
    fact = graph_with(tmp_path, "{times: [width, 0.999983]}").facts["seal"]
    body = work_out(fact, {"1": f"1/{10**39 + 3} mm", "2": "0.999983"}, None)
    assert (body["value"], body["reason"]) == (
        "none",
        "the number has more figures than can be kept",
    )


@pytest.mark.parametrize(
    ("formula", "code", "says"),
    [
        ("{sum: [width, lean]}", "kinds-mixed", "“lean” is of the kind angle"),
        ("{sum: [width, 1 deg]}", "kinds-mixed", "is a measure of angle"),
        ("{sum: [width, fire]}", "kinds-mixed", "“fire” has no number"),
        (
            "{difference: [hinges, width]}",
            "kinds-mixed",
            "“width” is of the kind length",
        ),
        ("{sum: [hinges, 1/8 in]}", "kinds-mixed", "not a whole number"),
        ("{difference: [mark, lean]}", "kinds-mixed", "“lean”"),
        ("{sum: [width, 1/8]}", "unit-wrong", "has no unit"),
        ("{sum: [width, 1/8 fathoms]}", "unit-wrong", "fathoms"),
        ("{sum: [width, dorp]}", "fact-unknown", "did you mean “drop”"),
        ("{sum: [1 in, 2 in]}", "arithmetic-wrong", "no fact in it"),
        ("{times: [width, drop]}", "arithmetic-wrong", "not a plain number"),
        ("{times: [width, 2 in]}", "arithmetic-wrong", "not a plain number"),
        ("{times: [2, width]}", "arithmetic-wrong", "not a plain number"),
        ("{times: [width, 0]}", "arithmetic-wrong", "above zero"),
        ("{times: [width, 1/0]}", "arithmetic-wrong", "not a plain number"),
        ("{times: [hinges, 0.5]}", "arithmetic-wrong", "a whole number only"),
        ("{sum: [width]}", "shape", "too few entries"),
        ("{difference: [width, drop, 1 in]}", "shape", "too many entries"),
        ("{sum: [width, drop], ask: How long?}", "shape", "computed"),
        ("{sum: [width, drop], part: din}", "shape", "belong to a worked fact"),
        ("{sum: [width, seal]}", "fact-circle", "computed from itself"),
    ],
)
def test_what_is_wrong_with_a_formula_is_told(
    tmp_path: Path, formula: str, code: str, says: str
) -> None:
    _, found = compiled(tmp_path, FILE.replace("FORMULA", formula))
    assert code in [one.code for one in found]
    assert any(says in one.message for one in found), found


def test_a_computation_takes_a_sum_of_its_kind_and_no_other(tmp_path: Path) -> None:
    text = FILE.replace("FORMULA", "{sum: [width, -1/8 in]}").replace(
        "{width: width", "{width: seal"
    )
    assert compiled(tmp_path, text)[1] == []
    _, found = compiled(tmp_path, text.replace("{sum: [width, -1/8 in]}", "{times: [lean, 2]}"))
    assert [one.code for one in found] == ["input-wrong"]


def test_a_condition_names_another_fact_with_or_without_an_offset(tmp_path: Path) -> None:
    facts = graph_with(tmp_path, "{difference: [width, drop]}").facts
    written = {
        "any": [{"drop": "<= width"}, {"seal": "> width - 1 1/2 in"}, {"drop": "< width + 3 mm"}]
    }
    found = read_condition(written, facts)
    shown = [(c.operator, c.other, str(c.offset)) for c in found.parts if isinstance(c, Against)]  # type: ignore[union-attr]
    assert shown == [
        ("<=", "width", "None"),
        (">", "width", "-1 1/2 in"),
        ("<", "width", "3 mm"),
    ]


@pytest.mark.parametrize(
    ("test", "code"),
    [
        ('{seal: "<= {width}"}', "comparison-wrong"),
        ('{seal: "<= seal"}', "comparison-wrong"),
        ('{seal: "<= lean"}', "unit-wrong"),
        ('{seal: "<= width - 1 deg"}', "unit-wrong"),
        ('{seal: "<= width - 1/16"}', "unit-wrong"),
        ('{seal: "<= witdh"}', "fact-unknown"),
        ('{fire: "= fire"}', "comparison-wrong"),
        ('{width: "> -1 in"}', "unit-wrong"),
    ],
)
def test_what_is_wrong_with_a_comparison_is_told(tmp_path: Path, test: str, code: str) -> None:
    text = FILE.replace("FORMULA", "{difference: [width, drop]}").replace(
        "  - end:", f"  - do: {{id: look, when: {test}, text: Look.}}\n  - end:"
    )
    assert [one.code for one in compiled(tmp_path, text)[1]] == [code]


def test_only_what_can_be_below_zero_is_compared_with_a_number_below_zero(tmp_path: Path) -> None:
    facts = graph_with(tmp_path, "{difference: [width, drop]}").facts
    for test in ("> -1/8 in", "-1/8 in to 1/8 in", "= -1/8 in"):
        read_condition({"seal": test}, facts)
    with pytest.raises(ValueError, match="backwards"):
        read_condition({"seal": "1/8 in to -1/8 in"}, facts)


@pytest.mark.parametrize(
    ("computation", "using", "begins"),
    [
        # 2850 x 0.55 x 0.55 x 0.190 = 163.8 lbf an inch of thread of a No. 10 screw (NDS 12.2.2), by 1 in
        ("screw-withdrawal", {"screw": "10", "gravity": "0.55", "penetration": "1 in"}, "163.8"),
        ("lead-hole, part: drill", {"screw": "10", "gravity": "0.55"}, ""),
        (
            "tune, part: done",
            {
                "width": "36 in",
                "mount": "regular",
                "size": "3.5",
                "reading": "5.9,1.5,yes,no,4.8 lbf",
            },
            "",
        ),
        (
            "swing, part: latched",
            {
                "width": "36 in",
                "mass": "80 lb",
                "height": "80 in",
                "mount": "regular",
                "size": "3.5",
                "sweep": "1.25",
                "latch": ".5",
            },
            "",
        ),
    ],
)
def test_a_computation_takes_decimals_from_a_file(
    tmp_path: Path, computation: str, using: dict[str, str], begins: str
) -> None:
    fixed = json.dumps({name: f"= {text}" for name, text in using.items()})
    fact = graph_with(tmp_path, f"{{worked: {computation}, using: {fixed}}}").facts["seal"]
    body = work_out(fact, using, None)
    assert body["value"] != "none", body["reason"]
    assert body["value"].startswith(begins)


@pytest.mark.parametrize("text", ["0,55", "5.", "1e3", "-0.5", "0.55 in", "0.1234567"])
def test_what_is_no_decimal_is_refused(tmp_path: Path, text: str) -> None:
    formula = f'{{worked: lead-hole, part: drill, using: {{screw: "= 10", gravity: "= {text}"}}}}'
    (found,) = compiled(tmp_path, FILE.replace("FORMULA", formula))[1]
    assert (found.code, "is not a number" in found.message) == ("input-wrong", True)


def test_a_count_fills_a_number_without_a_unit(tmp_path: Path) -> None:
    formula = '{worked: tune, part: done, using: {width: width, mount: "= regular", size: hinges}}'
    assert compiled(tmp_path, FILE.replace("FORMULA", formula))[1] == []
