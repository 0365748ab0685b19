"""Korean: Sino-Korean numbers as measures are read, from memory; decimals, no fractions of the inch."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity
from guide.words.spoken import grammar_for, language, say

KOREAN = language("korean")


@pytest.mark.parametrize(
    ("kind", "words", "meant"),
    [
        ("length", "구 백 십 일 밀리미터", Quantity(Fraction(911), "mm")),
        ("length", "천 이백 밀리미터", None),
        ("length", "천 이 백 밀리미터", Quantity(Fraction(1200), "mm")),
        ("length", "백 밀리", Quantity(Fraction(100), "mm")),
        ("length", "삼 인치 반", Quantity(Fraction(7, 2), "in")),
        ("length", "이 미터", Quantity(Fraction(2), "m")),
        ("length", "하나 둘 점 다섯 밀리미터", Quantity(Fraction(25, 2), "mm")),
        ("angle", "구십 도", Quantity(Fraction(90), "deg")),
        ("time", "오 점 오 초", Quantity(Fraction(11, 2), "s")),
        ("time", "일 분 십 초", Quantity(Fraction(70), "s")),
        ("force", "이십 이 뉴턴", Quantity(Fraction(22), "N")),
        ("count", "삼", 3),
        ("count", "삼 점 오", None),
        ("time", "오 점", None),
        ("angle", "구십 밀리미터", None),
    ],
)
def test_what_is_said(kind: str, words: str, meant: object) -> None:
    understood = grammar_for(kind, "metric", in_language="korean").parse(words)
    assert (understood.meaning.value if understood.meaning else None) == meant


@given(
    st.sampled_from(
        [("length", "mm", 3000), ("angle", "deg", 180), ("force", "N", 200), ("time", "s", 60)]
    ),
    st.data(),
)
def test_every_tenth_of_a_unit_is_said_and_understood(
    of: tuple[str, str, int], data: st.DataObject
) -> None:
    kind, unit, most = of
    value = Quantity(Fraction(data.draw(st.integers(0, 10 * most)), 10), unit)
    understood = grammar_for(kind, "metric", in_language="korean").parse(say(value, KOREAN))
    assert understood.meaning is not None
    assert understood.meaning.value == value
