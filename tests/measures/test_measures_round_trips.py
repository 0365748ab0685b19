"""What is written is read back as exactly the same measure."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import KINDS, MeasureError, Quantity, parse, parse_range, units_of, write

UNITS = [(kind, unit) for kind in KINDS for unit in units_of(kind)]
MAGNITUDES = st.fractions(min_value=0, max_value=10**6, max_denominator=10**12)
# what people type, and what nobody should
TEXTS = st.one_of(
    st.text(max_size=40),
    st.text("0123456789 /-.,'\"′″⅞½°−–ftinmsNlbkgPaH2Oto", max_size=24),
)


def test_every_sixty_fourth_of_an_inch_to_ten_feet() -> None:
    """As a rule has them: in inches, in feet, and by way of millimetres, none is lost."""
    for count in range(120 * 64 + 1):
        inches = Fraction(count, 64)
        length = Quantity(inches, "in")
        for written in (write(length), write(length, feet=True)):
            assert parse(written) == length
        millimetres = length.to("mm")
        assert millimetres.magnitude == inches * Fraction("25.4")
        assert parse(write(millimetres)) == length
        assert millimetres.to("in").magnitude == inches


@pytest.mark.parametrize(("kind", "unit"), UNITS)
@given(magnitude=MAGNITUDES)
def test_any_fraction_in_any_unit(kind: str, unit: str, magnitude: Fraction) -> None:
    """Number and unit both come back."""
    q = Quantity(magnitude, unit)
    read = parse(write(q), kind)
    assert (read.magnitude, read.unit) == (magnitude, unit)
    assert str(q) == write(q)


@pytest.mark.parametrize(("kind", "unit"), UNITS)
@given(magnitude=MAGNITUDES)
def test_there_and_back_through_every_unit(kind: str, unit: str, magnitude: Fraction) -> None:
    """A conversion loses nothing, and the converted measure can be written and read too."""
    q = Quantity(magnitude, unit)
    for other in units_of(kind):
        converted = q.to(other)
        assert converted == q
        assert converted.to(unit).magnitude == magnitude
        assert parse(write(converted), kind) == q


@given(magnitude=MAGNITUDES)
def test_feet_and_inches_of_any_length(magnitude: Fraction) -> None:
    """Odd fractions of an inch as well as those on a rule."""
    q = Quantity(magnitude, "in")
    assert parse(write(q, feet=True)) == q


@given(text=TEXTS, kind=st.sampled_from([None, *KINDS]), system=st.sampled_from(["inch", "metric"]))
def test_any_text_is_read_or_refused(text: str, kind: str | None, system: str) -> None:
    """Never another error; what is read can be written and read again; advice can be followed."""
    refused = None
    try:
        q = parse(text, kind, system)
    except MeasureError as error:
        refused = error
    if refused is None:
        assert q.magnitude >= 0
        assert parse(write(q), kind, system) == q
        return
    assert str(refused).isprintable()
    assert refused.suggestions
    for suggestion in refused.suggestions:
        parse(suggestion, kind, system)


@given(
    text=st.one_of(TEXTS, st.tuples(TEXTS, TEXTS).map(" to ".join)),
    kind=st.sampled_from([None, *KINDS]),
)
def test_any_text_is_a_range_or_refused(text: str, kind: str | None) -> None:
    """The same holds for ranges."""
    refused = None
    try:
        low, high = parse_range(text, kind)
    except MeasureError as error:
        refused = error
    if refused is None:
        assert low <= high
        return
    assert str(refused).isprintable()
    assert refused.suggestions
    for suggestion in refused.suggestions:
        parse_range(suggestion, kind)
