"""What is refused, and what the person is told."""

import re

import pytest

from guide.measures import MeasureError, parse

# (typed, kind expected, system worked in, a writing suggested in its place)
REFUSED = [
    # more than one reading
    ("35 7 8", "length", "inch", "35 7/8"),
    ("35 7 8", "length", "inch", "35.78"),
    ("35 7 8 in", None, "inch", "35 7/8 in"),
    ("35 7 8", None, "inch", "35 7/8 in"),
    ("35 7", "length", "inch", "35.7"),
    ("35-7", "length", "inch", "35 7/8"),
    ("2 6", "length", "inch", "2 ft 6 in"),
    ("2 11 7/8", "length", "inch", "2 ft 11 7/8 in"),
    ("3 3070", "length", "inch", "3.3070"),
    ("1 200 mm", "length", "metric", "1200 mm"),
    ("35\u200b7", "length", "inch", "35.7"),
    ("3 ft 7/8", "length", "inch", "3 ft 7/8 in"),
    ("2' -11\"", "length", "inch", "2 ft 11 in"),
    ("1,500 mm", "length", "metric", "1500 mm"),
    ("1,500 mm", "length", "metric", "1.500 mm"),
    ("1,500,000", "length", "metric", "1500000"),
    ("35,875", "length", "inch", "35.875"),
    ("1,5 in", "length", "inch", "1.5 in"),
    ("1.234,5 mm", "length", "metric", "911 mm"),
    # fractions gone wrong
    ("7/8/2", "length", "inch", "35 7/8 in"),
    ("1/0", "length", "inch", "35 7/8 in"),
    ("35 7/0 in", "length", "inch", "35 7/8 in"),
    # a space left out: 35 1/2 is not 351 halves
    ("351/2 in", "length", "inch", "35 1/2 in"),
    ("357/8", "length", "inch", "35 7/8"),
    ("357/8", "length", "inch", "44 5/8"),
    ("2'-117/8\"", "length", "inch", "2'-11 7/8\""),
    ("9/8", "length", "inch", "1 1/8"),
    ("35 9/8", "length", "inch", "36 1/8"),
    ("35 8/8 in", "length", "metric", "36 in"),
    ("35 7 /8", "length", "inch", "35 7/8"),
    ("35.5 7/8", "length", "inch", "35 7/8 in"),
    ("35 7/", "length", "inch", "35 7/8 in"),
    # feet and inches, minutes and seconds
    ("2 ft 14 in", "length", "inch", "3 ft 2 in"),
    ("2 ft 14 7/8 in", "length", "inch", "3 ft 2 7/8 in"),
    ("2.5 ft 3 in", "length", "inch", "35 7/8 in"),
    ("2 ft 11 mm", "length", "inch", "2 ft 11 in"),
    ("11 in 2 ft", "length", "inch", "35 7/8 in"),
    ("1 ft 2 in 3 in", "length", "inch", "35 7/8 in"),
    ("1 m 20 cm", "length", "metric", "911 mm"),
    ("1 min 75 s", "time", "inch", "2 min 15 s"),
    ("1:05", "time", "inch", "5.5 s"),
    # units
    ("35 7/8", None, "inch", "35 7/8 in"),
    ("911", None, "metric", "911 mm"),
    ("5 furlongs", "length", "inch", "35 7/8 in"),
    ("5 lbf ft in", "moment", "inch", "18 lbf ft"),
    ("35 milimetres", "length", "inch", "35 millimetres"),
    ("about 25 Pa", "pressure", "metric", "25 Pa"),
    # a unit not used here is converted, never kept as a number of another unit
    ("0.4 psi", "pressure", "inch", "11.07 inH2O"),
    ("25 kPa", "pressure", "inch", "100.4 inH2O"),
    ("25 kPa", "pressure", "metric", "25000 Pa"),
    ("0.2 rad", "angle", "metric", "11.46 deg"),
    ("2 kgf", "force", "inch", "4.41 lbf"),
    ("18 lbf in", "moment", "inch", "1.5 lbf ft"),
    ("2 yd", "length", "inch", "72 in"),
    ("5 MPa", "pressure", "metric", "12 Pa"),
    ("3 tons", "mass", "inch", "110 lb"),
    ("5 oz", "force", "inch", "5 lbf"),
    ("22 N", "length", "metric", "911 mm"),
    ("110 lb", "length", "inch", "35 7/8 in"),
    ("5 kg", "force", "inch", "5 lbf"),
    ("5 lbf", "mass", "inch", "110 lb"),
    ("5 m", "time", "inch", "5 min"),
    # below zero
    ("-1/2 in", "length", "inch", "35 7/8 in"),
    ("−5 deg", "angle", "metric", "90 deg"),
    ("-25 Pa", "pressure", "metric", "12 Pa"),
    # no measure at all
    ("", "length", "inch", "35 7/8 in"),
    ("   ", "length", "metric", "911 mm"),
    ("about 3", "length", "inch", "3"),
    ("+3", "length", "inch", "3"),
    ("three feet", "length", "inch", "35 7/8 in"),
    ("1e3", "length", "inch", "35 7/8 in"),
    ("inf", "force", "inch", "5 lbf"),
    ("nan", "pressure", "metric", "12 Pa"),
    ("35.", "length", "inch", "35 in"),
    ("٣٥", "length", "inch", "35"),
    ("３５ mm", "length", "metric", "35 mm"),
    ("35²", "length", "inch", "35 7/8 in"),
    ("3" * 13, "length", "inch", "35 7/8 in"),
    ("0." + "3" * 13, "mass", "metric", "50 kg"),
    ("3" * 10_000, "length", "inch", "35 7/8 in"),
    ("1/" + "3" * 41, "length", "inch", "35 7/8 in"),
    ("9" * 40 + "/2", "length", "inch", "35 7/8 in"),
    ("35 \x1b[31m", "length", "inch", "35 7/8 in"),
]


@pytest.mark.parametrize(("typed", "kind", "system", "suggested"), REFUSED)
def test_says_what_was_wrong_and_what_to_write(
    typed: str, kind: str | None, system: str, suggested: str
) -> None:
    """The sentence quotes what was typed and gives a writing that is itself understood."""
    with pytest.raises(MeasureError) as refused:
        parse(typed, kind, system)
    sentence, suggestions = str(refused.value), refused.value.suggestions
    start = "".join(c if c.isprintable() else "�" for c in typed.strip()[:3])
    assert sentence.startswith(f"“{start}")
    assert suggested in suggestions
    assert suggested in sentence
    for suggestion in suggestions:
        parse(suggestion, kind, system)


@pytest.mark.parametrize(("typed", "kind", "system", "suggested"), REFUSED)
def test_says_it_in_one_short_line(
    typed: str, kind: str | None, system: str, suggested: str
) -> None:
    """One sentence, fit for a terminal: no control characters, no long echo."""
    with pytest.raises(MeasureError) as refused:
        parse(typed, kind, system)
    sentence = str(refused.value)
    assert sentence.isprintable()
    assert len(sentence) < 160
    own_words = re.sub("“[^”]*”", "", sentence)
    assert own_words.endswith(".")
    assert not re.search(r"\. [A-Z]", own_words)


def test_the_sentence_in_full() -> None:
    """As a fitter sees it."""
    with pytest.raises(MeasureError) as refused:
        parse("35 7 8", "length")
    assert str(refused.value) == (
        "“35 7 8” can be read in more than one way; write 35 7/8 or 35.78."
    )


def test_an_unknown_kind_or_system_is_the_callers_mistake() -> None:
    """It is named, with the ones that are known, and is no MeasureError."""
    with pytest.raises(ValueError, match=r"“width” is not a kind .* length") as kind:
        parse("3", "width")
    with pytest.raises(ValueError, match=r"“imperial” is not a system .* inch or metric") as system:
        parse("3", "length", "imperial")
    assert not isinstance(kind.value, MeasureError)
    assert not isinstance(system.value, MeasureError)
