"""A refused unit: what is offered in its place is the same measure, or nothing is offered."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import KINDS, MeasureError, Quantity, home_unit, parse
from guide.measures.foreign_units import foreign_spellings, foreign_unit
from guide.measures.parsing import SPELLINGS
from guide.measures.units import UNITS

NUMBERS = ("0.004", "0.4", "25", "35 7/8")


def offers(typed: str, kind: str, system: str) -> tuple[str, ...]:
    """What is offered in place of a text that keeps what was typed; None of it where the text is understood."""
    try:
        parse(typed, kind, system)
    except MeasureError as refused:
        return refused.meant
    return ()


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("system", ["inch", "metric"])
def test_over_all_pairs_of_units_an_offer_is_the_same_measure_or_there_is_none(
    kind: str, system: str
) -> None:
    """Every spelling of every unit, used here or not, where each kind is wanted: within one part in a hundred."""
    known = {one: UNITS[symbol] for symbol, spelled in SPELLINGS.items() for one in spelled}
    for spelling in (*known, *foreign_spellings()):
        foreign = foreign_unit(spelling) if spelling not in known else None
        size = known[spelling].size if spelling in known else foreign.size if foreign else None
        its_kind = known[spelling].kind if spelling in known else foreign.kind if foreign else ""
        for number in NUMBERS:
            for offer in offers(f"{number} {spelling}", kind, system):
                if kind == "time" and spelling in SPELLINGS["m"]:
                    assert offer == f"{number} min"  # 5 m is how people write five minutes
                    continue
                assert its_kind == kind, f"{number} {spelling} -> {offer}"
                assert size is not None
                exact = parse(number, kind, system).magnitude * size
                error = abs(parse(offer, kind, system).base - exact) / exact
                assert error < Fraction(1, 100), f"{number} {spelling} -> {offer}"


@given(
    st.sampled_from(foreign_spellings()),
    st.fractions(Fraction(1, 64), 10**5, max_denominator=64),
    st.sampled_from(["inch", "metric"]),
)
def test_a_unit_with_one_size_is_converted_within_one_part_in_a_hundred(
    spelling: str, number: Fraction, system: str
) -> None:
    unit = foreign_unit(spelling)
    assert unit is not None
    whole, rest = divmod(number, 1)
    typed = f"{whole} {rest}" if rest and whole else f"{number}"
    found = offers(f"{typed} {spelling}", unit.kind, system)
    if unit.size is None or not found:
        return
    home = home_unit(unit.kind, system)
    exact = Quantity(number * unit.size / UNITS[home].size, home)
    assert abs(parse(found[0], unit.kind, system).magnitude - exact.magnitude) <= (
        exact.magnitude / 100
    )


@pytest.mark.parametrize(
    ("typed", "kind", "sentence"),
    [
        (
            "0.4 psi",
            "pressure",
            "“0.4 psi” has a unit that is not used here, and is about 11.07 inH2O; write 11.07 inH2O.",
        ),
        ("2 yd", "length", "“2 yd” has a unit that is not used here, and is 72 in; write 72 in."),
        (
            "5 MPa",
            "pressure",
            "“5 MPa” has a unit that is not used here; write a measure such as 0.05 inH2O.",
        ),
        (
            "-25 Pa",
            "pressure",
            "“-25 Pa” is below zero, and a measure here cannot be; write a measure such as 0.05 inH2O.",
        ),
    ],
)
def test_the_rounding_is_said(typed: str, kind: str, sentence: str) -> None:
    with pytest.raises(MeasureError) as refused:
        parse(typed, kind, "inch")
    assert str(refused.value) == sentence


@pytest.mark.parametrize("unit", ["kN", "km", "hPa", "g", "h", "mil", "st"])
def test_the_sign_of_a_unit_is_never_taken_for_a_slip_of_another(unit: str) -> None:
    for kind in KINDS:
        for offer in offers(f"5 {unit}", kind, "metric"):
            assert not offer.startswith("5 "), f"5 {unit} -> {offer}"


def test_published_factors() -> None:
    """NIST SP 811, appendix B.8: factors to the SI, to the places printed there."""
    printed = {"psi": "6894.757", "mm hg": "133.3224", "torr": "133.3224", "psf": "47.88026"}
    for spelling, pascals in printed.items():
        unit = foreign_unit(spelling)
        assert unit is not None
        assert unit.size is not None
        assert abs(unit.size - Fraction(pascals)) < Fraction(1, 1000)
    others = {"kgf": "9.80665", "ozf": "0.2780139", "lbf in": "0.1129848", "stone": "6.350293"}
    for spelling, size in others.items():
        unit = foreign_unit(spelling)
        assert unit is not None
        assert unit.size is not None
        assert abs(unit.size - Fraction(size)) < Fraction(1, 10**6)
