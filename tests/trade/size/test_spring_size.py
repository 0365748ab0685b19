"""The EN size a leaf needs.

Widths and masses: EN 1154, controlled door closing devices, table 1 (read in a public summary).
"""

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, parse
from guide.trade.answer import Answer, NoAnswer, OutOfDomain
from guide.trade.computation import Given
from guide.trade.registry import find, read_inputs, run

# EN 1154 table 1: size, widest leaf [mm], mass of the test door [kg].
TABLE_1 = [
    (1, 750, 20),
    (2, 850, 40),
    (3, 950, 60),
    (4, 1100, 80),
    (5, 1250, 100),
    (6, 1400, 120),
    (7, 1600, 160),
]


def worked(**texts: str) -> Answer:
    return run("spring-size", read_inputs(find("spring-size"), texts))


@pytest.mark.parametrize(("size", "widest_mm", "_mass"), TABLE_1)
def test_widths_are_inclusive(size: int, widest_mm: int, _mass: int) -> None:
    assert worked(width=f"{widest_mm} mm").value == size
    assert worked(width=f"{widest_mm - 1} mm").value == size
    if size < 7:
        assert worked(width=f"{widest_mm + 1} mm").value == size + 1
        assert worked(width=f"{widest_mm} 1/1000 mm").value == size + 1


@pytest.mark.parametrize(("size", "_width", "mass_kg"), TABLE_1)
def test_masses_are_inclusive(size: int, _width: int, mass_kg: int) -> None:
    assert worked(width="700 mm", mass=f"{mass_kg} kg").value == size
    if size < 7:
        assert worked(width="700 mm", mass=f"{mass_kg + 1} kg").value == size + 1


@pytest.mark.parametrize(
    ("width", "size"),
    # 914.4, 1066.8 and 1219.2 mm against the table above.
    [("36 in", 3), ("3 ft", 3), ("42 in", 4), ("48 in", 5), ("28 in", 1)],
)
def test_ordinary_leaves(width: str, size: int) -> None:
    assert worked(width=width).value == size


def test_the_working_reads_as_a_fitter_would_say_it() -> None:
    answer = worked(width="36 in", mass="190 lb")
    assert answer.value == 5
    assert answer.working == (
        "Leaf 36 in wide: EN size 3 (leaves to 950 mm).",
        "Leaf of 190 lb: EN size 5 (doors to 100 kg).",
        "The larger counts: EN size 5.",
    )
    assert "An EN size is not the number cast on a North American body." in answer.cautions


def test_past_the_table_there_is_no_answer() -> None:
    for texts, limit in [
        ({"width": "1601 mm"}, "1600 mm"),
        ({"width": "64 in"}, "1600 mm"),
        ({"width": "36 in", "mass": "161 kg"}, "160 kg"),
        ({"width": "1600 mm", "exterior": "yes"}, "EN size 7"),
    ]:
        with pytest.raises(NoAnswer, match=limit) as caught:
            worked(**texts)
        assert caught.value.value is None
        assert "ask the maker or the foreman" in str(caught.value)


# "Unusually tall or heavy leaf, wind, draught or a special mount: take the next size up": the
# note to EN 1154 table 1 (read). That a parallel arm is such a mount, that 8 ft is tall and the
# order from worst to least: common practice.
REASONS = {
    "height": ("98 in", "an unusually tall leaf (over 8 ft)"),
    "draught": ("yes", "a draught"),
    "exterior": ("yes", "an exterior door"),
    "mount": ("parallel", "a parallel arm"),
}


def test_reasons_to_go_up_do_not_stack() -> None:
    """Every set of reasons raises a 36 in leaf from 3 to 4, names the worst and then the others."""
    for count in range(1, len(REASONS) + 1):
        for chosen in combinations(REASONS, count):
            answer = worked(width="36 in", **{name: REASONS[name][0] for name in chosen})
            assert answer.value == 4
            worst, *others = (REASONS[name][1] for name in chosen)
            assert answer.working[1] == f"One size up for {worst}: EN size 4."
            assert all(other in answer.working[2] for other in others)
            assert len(answer.working) == (3 if others else 2)


def test_a_leaf_of_exactly_8_ft_is_not_unusually_tall() -> None:
    assert worked(width="36 in", height="96 in").value == 3
    assert worked(width="36 in", height="96 1/16 in").value == 4


@pytest.mark.parametrize("mount", ["regular", "top-jamb"])
def test_a_usual_mount_adds_nothing(mount: str) -> None:
    assert worked(width="36 in", mount=mount).value == 3


@pytest.mark.parametrize(
    ("texts", "size"),
    # "A closer on a fire door, by European practice, is size 3 or stronger" (read).
    [
        ({"width": "700 mm"}, 3),
        ({"width": "700 mm", "exterior": "yes"}, 3),
        ({"width": "900 mm"}, 3),
        ({"width": "42 in"}, 4),
        ({"width": "42 in", "draught": "yes"}, 5),
    ],
)
def test_a_fire_door_is_size_3_or_stronger(texts: dict[str, str], size: int) -> None:
    answer = worked(fire="yes", rules="eu", **texts)
    assert answer.value == size
    assert answer.working[-1].startswith("Fire door: EN size 3 at least, by European practice")
    # NFPA 80, annex A, as reported in 2022, advises size 3 or 4: the weaker is the same.
    american = worked(fire="yes", rules="us", **texts)
    assert american.value == size
    assert "NFPA 80, annex A, advises 3 or 4" in american.working[-1]


def test_a_width_of_3_in_is_refused_and_3_ft_suggested() -> None:
    with pytest.raises(OutOfDomain, match=r"12 in to 10 ft.*Did you mean 3 ft\?"):
        worked(width="3 in")


widths = st.integers(min_value=12 * 16, max_value=62 * 16).map(
    lambda n: Quantity(Fraction(n, 16), "in")
)
masses = st.integers(min_value=10, max_value=1600).map(lambda n: Quantity(Fraction(n, 10), "kg"))
circumstances = st.fixed_dictionaries(
    {},
    optional={
        "height": st.sampled_from([parse("80 in"), parse("2.5 m")]),
        "mount": st.sampled_from(["regular", "top-jamb", "parallel"]),
        "exterior": st.booleans(),
        "draught": st.booleans(),
        "fire": st.booleans(),
    },
)


def size_or_8(inputs: dict[str, Given]) -> int:
    """The size, or 8 where the leaf is past the table."""
    try:
        value = run("spring-size", inputs).value
    except NoAnswer:
        return 8
    assert isinstance(value, int)
    assert 1 <= value <= 7
    return value


@given(widths, widths, masses, circumstances)
def test_a_wider_leaf_never_needs_less(
    one: Quantity, other: Quantity, mass: Quantity, around: dict[str, Given]
) -> None:
    narrow, wide = sorted((one, other))
    known: dict[str, Given] = {**around, "mass": mass}
    assert size_or_8({**known, "width": narrow}) <= size_or_8({**known, "width": wide})


@given(widths, masses, masses, circumstances)
def test_a_heavier_leaf_never_needs_less(
    width: Quantity, one: Quantity, other: Quantity, around: dict[str, Given]
) -> None:
    light, heavy = sorted((one, other))
    known: dict[str, Given] = {**around, "width": width}
    sizes = [size_or_8(known), *(size_or_8({**known, "mass": m}) for m in (light, heavy))]
    assert sizes == sorted(sizes)


@given(widths, circumstances)
def test_circumstances_add_one_size_at_most_apart_from_the_fire_floor(
    width: Quantity, around: dict[str, Given]
) -> None:
    plain = size_or_8({"width": width})
    inside = {name: value for name, value in around.items() if name != "fire"}
    assert plain <= size_or_8({**inside, "width": width}) <= plain + 1


def test_the_answer_changes_at_each_threshold_and_only_just_past_it() -> None:
    """The checker proves branches by sampling at and just past these values."""
    hair = Fraction(1, 1000)
    usual: dict[str, Given] = {"width": parse("700 mm")}
    for name, at in find("spring-size").thresholds:
        past = Quantity(at.magnitude + hair, at.unit)
        assert size_or_8({**usual, name: past}) == size_or_8({**usual, name: at}) + 1
