"""What a country's rules say beside the readings, in words; each figure with the text it was read in."""

from collections.abc import Mapping

import pytest

from guide.trade import registry
from guide.trade.inputs import CODES


def notes(**texts: str) -> Mapping[str, str]:
    computation = registry.find("rule-notes")
    value = registry.run("rule-notes", registry.read_inputs(computation, texts)).value
    assert isinstance(value, Mapping)
    return {name: str(note) for name, note in value.items()}


@pytest.mark.parametrize(
    ("note", "said"),
    [
        # NFPA 80, definition, and IBC, as reported in 2021: a fusible link or a detector; mostly smoke detection
        ("holder", "by fusible link or detector"),
        ("holder", "building code mostly wants smoke detection"),
        # NFPA 80 6.4 (the same in 1962 and 1968): two up to 60 in, one more each further 30 in or part
        ("hinges", "at most 60 in high, and one more each further 30 in"),
        # 2010 ADA Standards 404.2.8.2: spring hinges 1.5 s at the least from 70 degrees
        ("spring_hinges", "at least 1.5 s from 70 degrees"),
        # 2010 ADA Standards 404.2.5 and its exception: 1/2 in; existing and bevelled 1 to 2, 3/4 in
        ("floor", "Threshold at most 1/2 in (ADA 404.2.5), existing and bevelled at most 3/4 in"),
        # guide to 404.2.3 of the 2010 ADA Standards: 32 in, and 36 in where it is deeper than 24 in
        ("clear", "at least 32 in clear, face to stop; where the opening is deeper than 24 in"),
        ("clear", "at least 36 in"),
        # 2010 ADA Standards 307.4, exception: 78 in under door closers and door stops
        ("head", "at least 78 in"),
        # NFPA 80 4.1.3: round holes to 1 in; larger by both listings from 2016
        ("holes", "at most 1 in for surface hardware"),
        ("holes", "larger ones only where both listings allow it"),
        # NFPA 80 5.5.7 (2013): two ways to fill old fastener holes; later text has three
        ("filling", "up to 2013 has the first two ways; later editions add listed filler"),
        # Centers for Medicare and Medicaid Services, as reported in 2022: 60 days
        ("mending", "federally paid, within 60 days"),
        # IBC 1010.1.3, editions of 2009 to 2021: 30 lbf to set in motion, 15 lbf to open fully
        ("motion", "At most 30 lbf sets a door in motion, and at most 15 lbf opens it fully"),
    ],
)
def test_the_united_states(note: str, said: str) -> None:
    assert said in notes()[note]


def test_a_holder_in_europe_lets_go_on_the_alarm() -> None:
    """EN 1155, as a guide of 2015 tells it."""
    assert "lets go on the fire alarm" in notes(rules="uk")["holder"]
    assert "EN 1155" in notes(rules="eu")["holder"]


def test_a_european_closer_has_times_in_the_cold_and_the_heat() -> None:
    """EN 1154 7.2.2: at least 3 s and at most 25 s at the extremes."""
    assert "3 s to 25 s" in notes(rules="eu")["cold"]
    assert "3 s to 25 s" in notes(rules="uk")["cold"]


def test_a_british_force_is_read_at_the_leading_edge() -> None:
    """BS 8300-2:2018, and Ireland's TGD M of 2010 1.3.3.2(a): at most 60 mm from the edge."""
    assert "within 60 mm of the leading edge" in notes(rules="uk", units="metric")["gauge"]
    assert notes()["gauge"] == "Gauge at the handle."


def test_a_british_fire_door_is_tried_from_fifteen_degrees() -> None:
    """Home Office guidance to the Fire Safety (England) Regulations 2022: fully open, and 15 degrees."""
    assert notes(rules="uk")["tried_from"].startswith("From about 15 degrees")


@pytest.mark.parametrize("code", [code for code in CODES if code != "us"])
def test_elsewhere_every_note_is_common_practice_and_quotes_no_american_rule(code: str) -> None:
    there = notes(rules=code)
    assert there.keys() == notes().keys()
    for note in there.values():
        assert not any(american in note for american in ("ADA", "NFPA", "IBC"))


def test_a_measure_is_told_in_the_units_of_the_job() -> None:
    assert "at least 32 in (813 mm) clear" in notes(units="metric")["clear"]
