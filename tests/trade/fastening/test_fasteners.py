"""What holds a closer on, by leaf, core, reinforcement and frame. Common practice throughout."""

from collections.abc import Mapping

import pytest

from guide.measures import Quantity, parse
from guide.trade.answer import Answer, BadInput, NoAnswer, OutOfDomain, Result
from guide.trade.fastening.fasteners import CORES, FRAMES
from guide.trade.registry import find, read_inputs, run


def worked(**texts: str) -> Answer:
    return run("fasteners", read_inputs(find("fasteners"), texts))


def parts(answer: Answer) -> Mapping[str, Result]:
    assert isinstance(answer.value, Mapping)
    return answer.value


def test_a_reinforced_steel_door_in_a_reinforced_steel_frame() -> None:
    """The tap drill of 1/4-20 is No. 7 (Machinery's Handbook); 14 gauge holds about 1.3 threads."""
    answer = worked(
        door="steel", frame="steel", core="honeycomb", reinforced="yes", thickness="1 3/4 in"
    )
    assert parts(answer) == {
        "door_fastener": "machine-screw",
        "door_screw": "1/4-20",
        "door_drill": "No. 7",
        "door_drill_size": parse("0.201 in"),
        "door_depth": parse("1/2 in"),
        "bolt_length": None,
        "frame_fastener": "machine-screw",
        "frame_screw": "1/4-20",
        "frame_drill": "No. 7",
        "frame_drill_size": parse("0.201 in"),
        "frame_depth": parse("1/2 in"),
        "clutch": "low",
    }
    # 0.067 x 20 = 1.34, and with a skin of 18 gauge (0.067 + 0.042) x 20 = 2.18
    assert any("about 1.3 threads" in one and "skin 2.2; 3 are" in one for one in answer.cautions)


def test_an_empty_rail_is_bolted_with_a_spacer_or_takes_rivet_nuts() -> None:
    answer = worked(door="aluminium", frame="wood", thickness="1 3/4 in")
    assert any("spacer" in one and "rivet nuts" in one for one in answer.cautions)
    timber = worked(door="wood", frame="wood", core="mineral", thickness="1 3/4 in")
    assert not any("spacer" in one for one in timber.cautions)


@pytest.mark.parametrize(
    ("door", "core", "reinforced", "fastener"),
    [
        ("steel", "honeycomb", "no", "through-bolt"),
        ("steel", "mineral", "no", "through-bolt"),
        ("steel", "hollow", "yes", "machine-screw"),
        ("wood", "solid-wood", "no", "wood-screw"),
        ("wood", "particleboard", "no", "through-bolt"),
        ("wood", "particleboard", "yes", "wood-screw"),
        ("wood", "mineral", "no", "through-bolt"),
        ("wood", "hollow-core", "yes", "wood-screw"),
        ("aluminium", "tube", "no", "through-bolt"),
        ("aluminum", "tube", "yes", "machine-screw"),
    ],
)
def test_the_leaf_decides(door: str, core: str, reinforced: str, fastener: str) -> None:
    answer = worked(door=door, frame="wood", core=core, reinforced=reinforced, thickness="1 3/4 in")
    assert parts(answer)["door_fastener"] == fastener
    assert parts(answer)["frame_fastener"] == "wood-screw"


def test_a_through_bolt_spans_leaf_and_foot_and_is_opened_up_from_each_face() -> None:
    answer = worked(
        door="wood", frame="wood", core="particleboard", reinforced="no", thickness="1 3/4 in"
    )
    assert parts(answer)["bolt_length"] == parse("2 in")
    assert parts(answer)["door_depth"] == parse("1 3/4 in")
    assert any("Pilot right through" in line and "open up" in line for line in answer.working)
    metric = worked(door="steel", frame="steel", core="foam", thickness="45 mm", foot="6 mm")
    assert parts(metric)["bolt_length"] == parse("51 mm")


def test_a_pilot_stops_short_of_the_far_face() -> None:
    answer = worked(door="wood", frame="wood", core="solid", thickness="1 3/4 in")
    assert parts(answer)["door_depth"] == parse("1 3/8 in")
    metric = worked(door="wood", frame="wood", core="solid", thickness="44 mm")
    assert parts(metric)["door_depth"] == parse("34 mm")  # 3/8 in is 9.525 mm: 34.475, never deeper
    assert parts(metric)["frame_depth"] == parse("38 mm")  # 1 1/2 in
    assert "34 mm deep" in metric.working[0]
    thin = worked(door="wood", frame="wood", core="solid", thickness="1 1/4 in")
    assert parts(thin)["door_fastener"] == "through-bolt"


@pytest.mark.parametrize(
    ("texts", "why", "instead"),
    [
        ({"door": "glass", "frame": "steel"}, "shatters", "floor"),
        (
            {"door": "wood", "frame": "wood", "core": "hollow", "thickness": "1 3/8 in"},
            "hollow core",
            "blocking",
        ),
        (
            {"door": "wood", "frame": "wood", "core": "honeycomb", "thickness": "1 3/8 in"},
            "hollow core",
            "blocking",
        ),
        (
            {"door": "steel", "frame": "steel", "core": "hollow", "thickness": "1 3/4 in"},
            "hollow core",
            "plate",
        ),
        (
            {"door": "steel", "frame": "grouted", "core": "foam", "thickness": "1 3/4 in"},
            "mortar",
            "foreman",
        ),
    ],
)
def test_what_has_no_answer_is_refused_with_reason_and_alternative(
    texts: dict[str, str], why: str, instead: str
) -> None:
    with pytest.raises(NoAnswer, match=f"{why}.*{instead}"):
        worked(**texts)


def test_a_core_that_does_not_go_with_the_door_is_refused() -> None:
    with pytest.raises(BadInput, match="give honeycomb, foam, mineral, stiffened or hollow"):
        worked(door="steel", frame="steel", core="particleboard", thickness="1 3/4 in")
    with pytest.raises(BadInput, match="core is missing"):
        worked(door="wood", frame="wood", thickness="1 3/4 in")
    with pytest.raises(BadInput, match="thickness is missing"):
        worked(door="wood", frame="wood", core="mineral")


def test_reinforcement_that_nobody_found_is_not_counted_on() -> None:
    answer = worked(door="steel", frame="steel", core="honeycomb", thickness="1 3/4 in")
    assert parts(answer)["door_fastener"] == "through-bolt"
    assert parts(answer)["frame_fastener"] == "threaded-insert"
    assert parts(answer)["frame_drill"] is None
    assert any("find out first" in one for one in answer.cautions)


def test_every_leaf_and_frame_has_an_answer_or_a_refusal() -> None:
    for door, cores in CORES.items():
        for core in cores:
            for frame in FRAMES:
                for reinforced in ("yes", "no"):
                    texts = {"door": door, "frame": frame, "core": core, "reinforced": reinforced}
                    refused = frame == "grouted" or (
                        reinforced == "no"
                        and (core == "hollow" or (door == "wood" and core == "honeycomb"))
                    )
                    if refused:
                        with pytest.raises(NoAnswer):
                            worked(**texts, thickness="1 3/4 in")
                    else:
                        answer = worked(**texts, thickness="1 3/4 in")
                        assert "listing govern" in answer.cautions[-1]


def test_the_pull_on_each_screw_is_the_moment_over_the_pattern() -> None:
    """30 N m over 250 mm is 120 N, by hand; two screws share it."""
    texts = {"moment": "30 N m", "pattern": "250 mm"}
    answer = run("screw-pull", read_inputs(find("screw-pull"), texts))
    assert answer.value == {"pull": parse("60 N"), "margin": None}


@pytest.mark.parametrize(
    ("holds", "margin", "cautions"), [("240 N", 4.0, 1), ("239 N", 3.98, 2), ("480 N", 8.0, 1)]
)
def test_a_margin_under_four_asks_for_through_bolts(
    holds: str, margin: float, cautions: int
) -> None:
    texts = {"moment": "30 N m", "pattern": "250 mm", "holds": holds}
    answer = run("screw-pull", read_inputs(find("screw-pull"), texts))
    assert parts(answer)["margin"] == margin
    assert len(answer.cautions) == cautions


def test_the_pull_in_inches() -> None:
    """9 lbf ft over 9 in is 12 lbf: 6 lbf each."""
    texts = {"moment": "9 lbf ft", "pattern": "9 in"}
    pull = parts(run("screw-pull", read_inputs(find("screw-pull"), texts)))["pull"]
    assert isinstance(pull, Quantity)
    assert pull.unit == "lbf"
    assert pull == parse("6 lbf")


def test_a_pattern_shorter_than_any_body_is_refused() -> None:
    with pytest.raises(OutOfDomain, match="2 in to 18 in"):
        run("screw-pull", {"moment": parse("30 N m"), "pattern": parse("1 in")})
